import { cut, type ThermalHistory } from '../../history';
import { formatTemp, formatTempSpan, requireNumber, TemperbookError } from '../../quantity';
import { mean, standardDeviation } from '../../statistics';
import { boilingPointC, pressureAtKPa, type ThermocoupleType, toleranceC } from '../../thermocouple';
import { wrongWire } from './wrongWire';

/** One step of the check: what was done with the probes, and when in the log. */
export type CheckStep = { readonly fromS: number; readonly toS: number } & (
  | { readonly what: 'ice water' }
  /** The altitude of the place; or the pressure there, kPa, where a barometer says it. */
  | { readonly what: 'boiling water'; readonly altitudeM?: number; readonly pressureKPa?: number }
  /** Water of a temperature that something better measured, °C. */
  | { readonly what: 'tap water'; readonly tempC: number }
  /** All tips tied together in still air. */
  | { readonly what: 'all together' }
  /** One probe warmed in the hand, the others left alone. */
  | { readonly what: 'one alone'; readonly channel: string }
  /** Wires and plugs moved while the tips stay where they are. */
  | { readonly what: 'wiggle' }
  /** The arc burns on scrap with the torch away from the probes. */
  | { readonly what: 'arc' }
);

/** What a check found of one probe; `judge` takes it as what its log leaves open besides. */
export interface CheckedProbe {
  readonly name: string;
  /** By how much it read low at the hottest fixed point, K; negative: it read high. 0 within the tolerance of its wire. */
  readonly readsLowK: number;
  /** How surely that is known, ±K. */
  readonly toK: number;
  /** The fixed point above the air of the check, K. */
  readonly riseK: number;
  /** How far the arc moves or scatters its readings, K. */
  readonly arcK: number;
  /** Why its readings cannot clear metal as it is now: a wrong type, two wires swapped, a loose plug; empty when sound. */
  readonly faults: readonly string[];
  /** All that was seen, in sentences. */
  readonly because: readonly string[];
}

/** Water, weather and stirring leave so much open, ±K: weather 0.6 °C at the boil; stirred ice half a degree (common practice). */
const WATER_K = { boiling: 0.6, ice: 0.5, tap: 1 };
/** Probes tied together in air may differ by their wire and by a degree of air. */
const TOGETHER_K = 3;
/** A reading that moves by more than this when wires are moved has a bad contact, K. */
const WIGGLE_K = 3;
/** A hand warms a tip by more than this, K. */
const HAND_K = 2;

/**
 * Reads a check of the probes, some five minutes before a weld, from its own short log: ice or tap water, boiling water at
 * the place's altitude, all tips together, each alone in the hand, wires wiggled, the arc on with the torch away. It finds
 * the wrong type and swapped wires (from what another wire would show), swapped probes, an offset, a loose plug, arc noise.
 * @param type of wire the logger was set to.
 * @throws TemperbookError for steps without readings, a channel the log does not have, and a boil without altitude.
 */
export function checkProbes(
  channels: readonly { readonly name: string; readonly history: ThermalHistory }[],
  steps: readonly CheckStep[],
  type: ThermocoupleType = 'K',
): CheckedProbe[] {
  if (steps.length === 0)
    throw new TemperbookError('No step of the check is given', { expected: 'ice water, boiling water, …' });
  for (const step of steps)
    if (step.what === 'one alone' && !channels.some(({ name }) => name === step.channel))
      throw new TemperbookError('The check names a probe that its log does not have', {
        found: `"${step.channel}"`,
        expected: `one of ${channels.map(({ name }) => `"${name}"`).join(', ')}`,
      });
  const airC = Math.min(...channels.map(({ history }) => history.tempC[0]!));
  return channels.map((channel) => checkOne(channel, channels, steps, type, airC));
}

function checkOne(
  { name, history }: { readonly name: string; readonly history: ThermalHistory },
  all: readonly { readonly name: string; readonly history: ThermalHistory }[],
  steps: readonly CheckStep[],
  type: ThermocoupleType,
  airC: number,
): CheckedProbe {
  const faults: string[] = [];
  const because: string[] = [];
  let readsLowK = 0;
  let toK = 0;
  let riseK = 0;
  let arcK = 0;
  const quiet = steps.find(({ what }) => what === 'all together');
  for (const step of steps) {
    const { of, sd, range } = readingsOf(name, history, step);
    const fixed = fixedPoint(step);
    if (fixed) {
      const allowedK = (toleranceC('IEC 60584-1', 2, type, fixed.tempC) ?? 2.5) + fixed.toK;
      const offK = fixed.tempC - of;
      const wrong =
        Math.abs(offK) > 2 * allowedK
          ? wrongWire(type, { metalC: fixed.tempC, readC: of, coldC: airC, withinK: allowedK })
          : undefined;
      because.push(
        `${step.what}: reads ${formatTemp(of, 1)} at ${formatTemp(fixed.tempC, 1)}, allowed ±${allowedK.toFixed(1)} °C.`,
      );
      if (wrong) faults.push(`${name}: ${wrong}`);
      else if (Math.abs(offK) > 2 * allowedK && step.what !== 'ice water')
        faults.push(
          `${name} is off by ${formatTempSpan(Math.abs(offK), 1)} in ${step.what}, more than any wire: look at plug, junction and the range of its input.`,
        );
      else if (Math.abs(offK) > allowedK && Math.abs(fixed.tempC - airC) >= riseK)
        [readsLowK, toK, riseK] = [offK, fixed.toK, Math.abs(fixed.tempC - airC)];
    }
    if (step.what === 'all together') {
      const others = all.map((one) => readingsOf(one.name, one.history, step).of).sort((a, b) => a - b);
      const offK = others[Math.floor(others.length / 2)]! - of;
      because.push(
        `all together: ${formatTempSpan(Math.abs(offK), 1)} ${offK > 0 ? 'below' : 'above'} the middle of them.`,
      );
      if (Math.abs(offK) > TOGETHER_K && riseK === 0) [readsLowK, toK] = [offK, TOGETHER_K];
    }
    if (step.what === 'one alone') {
      const moved = all
        .map((one) => ({
          name: one.name,
          byK: Math.abs(readingsOf(one.name, one.history, step).of - one.history.tempC[0]!),
        }))
        .sort((a, b) => b.byK - a.byK)[0]!;
      if (moved.byK > HAND_K && moved.name !== step.channel && [step.channel, moved.name].includes(name))
        faults.push(`${step.channel} was warmed and ${moved.name} moved: the two are swapped at the plugs.`);
      if (moved.byK <= HAND_K && step.channel === name)
        faults.push(
          `${name} was warmed in the hand and no reading moved by ${HAND_K} °C: nothing is connected there.`,
        );
    }
    if (step.what === 'wiggle') {
      because.push(`wiggled: moves over ${formatTempSpan(range, 1)}.`);
      if (range > WIGGLE_K)
        faults.push(
          `${name} moves by ${formatTempSpan(range, 1)} when its wires are moved: a loose plug or a broken wire.`,
        );
    }
    if (step.what === 'arc' && quiet) {
      const still = readingsOf(name, history, quiet);
      arcK = Math.hypot(Math.abs(of - still.of), Math.sqrt(Math.max(0, sd * sd - still.sd * still.sd)));
      because.push(`arc on, torch away: readings off by ${formatTempSpan(arcK, 1)}.`);
    } else if (step.what === 'arc')
      because.push('arc on: without a step "all together" there is nothing quiet to hold it against.');
  }
  return { name, readsLowK, toK, riseK, arcK, faults: [...new Set(faults)], because };
}

/** Mean, scatter and range of a probe during a step. */
function readingsOf(name: string, history: ThermalHistory, { what, fromS, toS }: CheckStep) {
  const { timeS } = history;
  const readings =
    toS > fromS && fromS < timeS[timeS.length - 1]! && toS > timeS[0]!
      ? Array.from(cut(history, Math.max(fromS, timeS[0]!), Math.min(toS, timeS[timeS.length - 1]!)).tempC)
      : [];
  if (readings.length < 3)
    throw new TemperbookError(`The step "${what}" holds too few readings of ${name}`, {
      found: `${readings.length} from ${fromS} s to ${toS} s`,
      expected: 'at least 3',
      remedy: 'Give the times of the step on the clock of the log, from its first row',
    });
  const of = mean(readings);
  return { of, sd: standardDeviation(readings), range: Math.max(...readings) - Math.min(...readings) };
}

function fixedPoint(step: CheckStep): { readonly tempC: number; readonly toK: number } | undefined {
  switch (step.what) {
    case 'ice water':
      return { tempC: 0, toK: WATER_K.ice };
    case 'tap water':
      return {
        tempC: requireNumber(step.tempC, 'The tap water in °C', { low: 0, high: 100 }),
        toK: WATER_K.tap,
      };
    case 'boiling water': {
      const pressureKPa =
        step.pressureKPa ?? (step.altitudeM === undefined ? undefined : pressureAtKPa(step.altitudeM));
      if (pressureKPa === undefined)
        throw new TemperbookError('Where was the water boiled?', {
          found: 'boiling water without an altitude',
          expected: 'altitudeM, the height of the place above the sea, or pressureKPa, read there',
          remedy: 'Water boils 1 °C lower for every 300 m (1000 ft)',
        });
      return { tempC: boilingPointC(pressureKPa), toK: WATER_K.boiling };
    }
    default:
      return undefined;
  }
}
