import { stretches, type ThermalHistory } from '../history';
import { celsiusToKelvin, GAS_CONSTANT, kelvinToCelsius } from '../quantity';
import { noiseOf } from '../statistics';

/** Histories up to this many samples are left as they are. */
const ENOUGH = 200;
/** Readings this close together, K, stand for one another near the hottest reading, and well below it. */
const ALIKE_K = 1;
const ALIKE_BELOW_K = 4;
/** How far below the hottest reading the first begins to give way, and where the second holds, K: there rates are a fifth and a hundredth. */
const NEAR_TOP_K = 20;
const BELOW_TOP_K = 60;
/** Or this many standard deviations of the readings' noise. */
const NOISE_WIDTHS = 8;
/** Middle of the activation energies of softening, J/mol. */
const ACTIVATION_J_PER_MOL = 200_000;
const NONE: ReadonlySet<number> = new Set();
/** Below this nothing happens in days, and the plain mean will do, °C. */
const COLD_C = 100;

/**
 * A long history with fewer samples that heats metal alike. Neighbouring readings within 1 K (4 K well
 * below the hottest, or within the noise) become one point at their mean time, with the temperature whose Arrhenius rate is their mean rate,
 *
 *   T* = −(Q/R) / ln⟨exp(−Q/(R T))⟩,   Q = 200 kJ/mol.
 *
 * With another activation energy a point's rate is off by at most ½ σ² (Q/RT²)(ΔQ/RT²): for ΔQ 30 kJ/mol at 250 °C and
 * readings spread evenly over 4 K, 0.1 %. The ends of each stretch, the hottest reading and those to keep (indices) stay. One pass.
 */
export function condense(history: ThermalHistory, keep: ReadonlySet<number> = NONE): ThermalHistory {
  if (history.timeS.length <= ENOUGH) return history;
  const { timeS, tempC } = history;
  const noisy = NOISE_WIDTHS * noiseOf(tempC);
  const top = hottestOf(tempC);
  const times: number[] = [];
  const temps: number[] = [];
  const gapAfter: number[] = [];
  for (const [k, { first, last }] of stretches(history).entries()) {
    if (k > 0) gapAfter.push(times.length - 1);
    times.push(timeS[first]!);
    temps.push(tempC[first]!);
    let i = first + 1;
    while (i < last) {
      const from = i;
      let coldest = tempC[i]!;
      let hottest = coldest;
      for (i++; i < last && from !== top && i !== top && !keep.has(from) && !keep.has(i); i++) {
        const temp = tempC[i]!;
        const width = Math.max(alikeK(tempC[top]! - hottest), noisy);
        if (Math.max(hottest, temp) - Math.min(coldest, temp) > width) break;
        coldest = Math.min(coldest, temp);
        hottest = Math.max(hottest, temp);
      }
      times.push(meanOf(timeS, from, i));
      temps.push(alike(tempC, from, i, hottest));
    }
    if (last > first) {
      times.push(timeS[last]!);
      temps.push(tempC[last]!);
    }
  }
  return {
    timeS: Float64Array.from(times),
    tempC: Float64Array.from(temps),
    ...(gapAfter.length > 0 ? { gapAfter: Uint32Array.from(gapAfter) } : {}),
  };
}

/** How far apart readings may be that stand for one another, so far below the hottest, K. */
function alikeK(belowTopK: number): number {
  const share = Math.min(1, Math.max(0, (belowTopK - NEAR_TOP_K) / (BELOW_TOP_K - NEAR_TOP_K)));
  return ALIKE_K + share * (ALIKE_BELOW_K - ALIKE_K);
}

function hottestOf(tempC: Float64Array): number {
  let top = 0;
  for (let i = 1; i < tempC.length; i++) if (tempC[i]! > tempC[top]!) top = i;
  return top;
}

function meanOf(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i]!;
  return sum / (to - from);
}

/** The temperature that heats like the readings from `from` to `to` together, °C. */
function alike(tempC: Float64Array, from: number, to: number, hottestC: number): number {
  if (to - from === 1) return tempC[from]!;
  if (hottestC < COLD_C) return meanOf(tempC, from, to);
  const b = ACTIVATION_J_PER_MOL / GAS_CONSTANT;
  const atTop = b / celsiusToKelvin(hottestC);
  let sum = 0;
  for (let i = from; i < to; i++) sum += Math.exp(atTop - b / celsiusToKelvin(tempC[i]!));
  return kelvinToCelsius(b / (atTop - Math.log(sum / (to - from))));
}
