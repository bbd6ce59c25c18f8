import { loadAlloy } from '../../../alloy';
import { slice, type ThermalHistory } from '../../../history';
import { quenchFactor } from '../../../kinetics';
import { type Judged, judged, TemperbookError } from '../../../quantity';
import type { ChartSensor } from '../sensorRoles';
import type { ChartQuench } from './quenchRequirements';

/** What the quench leaves of the strength an ideal one would have given, where a source carries the number. */
export type QuenchStrength =
  | {
      readonly kind: 'share of an ideal quench';
      readonly sensors: readonly { readonly sensor: string; readonly fraction: Judged }[];
    }
  | { readonly kind: 'loss against the fastest measured'; readonly lossMPa: Judged }
  | { readonly kind: 'cannot tell'; readonly because: string };

/**
 * Peak-aged A356: yield and ultimate fall about linearly with the logarithm of the quench rate, 32 to 33 MPa per
 * decade between 0.5 and 250 K/s. Source: The quench sensitivity of cast Al-7 wt pct Si-0.4 wt pct Mg alloy, Metall.
 * Mater. Trans. A (1996), abstract (seen; Zhang and Zheng, authors from memory).
 */
const A356 = { lowMPa: 32, highMPa: 33, fromKPerS: 0.5, toKPerS: 250 };
/** Alloys of that silicon and magnesium; 357 has more magnesium, and nothing was found for it. */
const LIKE_A356 = ['356.0', 'A356.0'];

/** Strength by quench: the C-curve of a wrought alloy, the measured slope of A356; else nobody can tell. */
export function quenchStrength(
  alloy: string,
  quench: ChartQuench,
  loads: readonly ChartSensor[],
): QuenchStrength {
  const card = cardOf(alloy);
  if (card && LIKE_A356.includes(card.designation)) return lossOfA356(quench.rateKPerS);
  if (!card?.quench)
    return {
      kind: 'cannot tell',
      because: `no source gives what a slow quench costs ${alloy}; those of another alloy do not transfer`,
    };
  const sensors = loads.flatMap(({ name, history }) => {
    const seen = quench.sensors.find(({ sensor }) => sensor === name);
    if (!seen) return [];
    const {
      strengthFraction,
      remarks,
      quenchFactor: tau,
    } = quenchFactor(coolingOf(history, seen.immersed.low, card.quench!.toC.value), card);
    // The logger's interval may have drawn the cooling out.
    const best = Math.min(
      1,
      strengthFraction ** (seen.rateKPerS.nominal / Math.max(seen.rateKPerS.high, 1e-9)),
    );
    const worst = strengthFraction ** (seen.rateKPerS.nominal / seen.rateKPerS.low);
    return [
      {
        sensor: name,
        fraction: judged(strengthFraction, [worst, best], '1', [
          `Quench factor ${tau.toFixed(1)}; the band is what the logger’s interval leaves open.`,
          ...remarks.map(({ text }) => text),
        ]),
      },
    ];
  });
  return { kind: 'share of an ideal quench', sensors };
}

function cardOf(alloy: string): ReturnType<typeof loadAlloy> | undefined {
  try {
    return loadAlloy(alloy);
  } catch (error) {
    if (error instanceof TemperbookError) return undefined;
    throw error;
  }
}

function lossOfA356({ nominal, low, high }: Judged): QuenchStrength {
  if (low < A356.fromKPerS || nominal > A356.toKPerS)
    return {
      kind: 'cannot tell',
      because: `the slowest sensor cooled at ${low.toPrecision(2)} to ${high.toPrecision(2)} °C/s; measured is ${A356.fromKPerS} to ${A356.toKPerS} °C/s`,
    };
  const decades = (rate: number): number => Math.max(0, Math.log10(A356.toKPerS / rate));
  return {
    kind: 'loss against the fastest measured',
    lossMPa: judged(
      ((A356.lowMPa + A356.highMPa) / 2) * decades(nominal),
      [A356.lowMPa * decades(Math.min(high, A356.toKPerS)), A356.highMPa * decades(low)],
      'MPa',
      [
        `Yield against a quench at ${A356.toKPerS} °C/s, in the slowest load sensor: ${A356.lowMPa} to ${A356.highMPa} MPa for each factor of ten.`,
        'Measured on metal aged to its peak; what an under-aged T6 loses was not found.',
      ],
    ),
  };
}

/** From the last reading before the water to below where the C-curve ends. */
function coolingOf(history: ThermalHistory, fromS: number, toC: number): ThermalHistory {
  let i = 0;
  while (i < history.timeS.length && (history.timeS[i]! < fromS || history.tempC[i]! > toC)) i++;
  return slice(history, fromS, history.timeS[Math.min(i, history.timeS.length - 1)]!);
}
