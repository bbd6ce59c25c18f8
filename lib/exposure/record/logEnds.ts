import { join, type ThermalHistory, tempAt, thermalHistory } from '../../history';
import { formatTemp } from '../../quantity';
import { straightLine } from '../../statistics';
import type { BlindTime, Doubt } from '../exposure';
import type { ProbeRecord } from './probe';
import { stopsEarly } from './stopsEarly';

/** What came before the first reading and comes after the last. */
export interface EndFindings {
  readonly blind: readonly BlindTime[];
  /** The cooling still to come, joined to the end of the record; absent where it ended cool. */
  readonly tail?: ThermalHistory;
  readonly because: readonly string[];
}

/** A record that ends above this has its cooling still to come, °C. */
const STILL_HOT_C = 100;
/** Warmer than this at the start the metal was heated before, whatever the slope; up to it a part loses nothing in hours, °C. */
const HEATED_BEFORE_C = 150;
/** Falling from more than this above the coldest that the log shows, the metal was hotter before the log began, K. */
const WARM_START_K = 10;
/**
 * So it was from this far on, K, where it had stood at 150 °C within half an hour by the time constant of its own fall: nothing
 * in the log bounds how long ago a heat was, and somebody who logs a weld starts the logger within that. Less is what a hand, the
 * sun or another room leaves in a part (common practice, no source), and says nothing of a heat before, as a cool start does not.
 */
const SMALL_START_K = 6;
const SHORTLY_BEFORE_S = 1800;
/** The fall of such a start is read over this long, s: a digit of a whole degree is 0.005 K/s there. */
const START_OVER_S = 300;
/** Rising by this much in so many seconds at the end, the probe has an arc on it, K; or slowly, this far above the air, K. */
const ARC_RISES_K = 6;
const ARC_RISES_IN_S = 10;
const WARM_END_K = 20;
/** Slopes are read over this long, s, and count beyond this, K/s (1.2 K a minute). */
const SLOPE_OVER_S = 60;
const SLOPE_K_PER_S = 0.02;
/** The slowest cooling that is assumed for a part in still air, time constant in s. */
const SLOWEST_TAU_S = 1800;
const TAIL_POINTS = 24;
const TAIL_TIME_CONSTANTS = 3;

/**
 * What the ends of a record leave open. A start that falls from above the room as a part does that was hot, or in the heat, hides what was before; an
 * end above 100 °C that does not fall, or one at which a probe is still being heated, by an arc or by hotter metal, hides what comes after. An end above 100 °C that falls has its cooling counted:
 * T = T_a + (T_end − T_a) exp(−t/τ), τ from the fall of its last minute, three times as slow at worst.
 */
export function logEnds({
  history,
  probe,
  neighbours,
  spanS,
  earlierIsKnown = false,
  isRunning = false,
}: ProbeRecord): EndFindings {
  const { timeS, tempC } = history;
  const last = timeS.length - 1;
  const firstC = tempC[0]!;
  const lastC = tempC[last]!;
  const blind: BlindTime[] = [];
  const startSlope = slopeOver(history, timeS[0]!, timeS[0]! + SLOPE_OVER_S);
  const coldestC = tempC.reduce((low, temp) => Math.min(low, temp), probe.ambientC);
  const falls =
    (startSlope < -SLOPE_K_PER_S && firstC > coldestC + WARM_START_K) || wasHotShortly(history, coldestC);
  // A probe that starts late has a gap before, which may be bounded; its own warm start says more.
  if (!earlierIsKnown && (falls || (timeS[0]! <= spanS[0] && firstC > HEATED_BEFORE_C)))
    blind.push({
      fromS: timeS[0]!,
      toS: timeS[0]!,
      because: `The ${timeS[0]! <= spanS[0] ? 'log' : 'probe'} starts at ${formatTemp(firstC)}${falls ? ' and falls' : ''}: what the metal saw before is not recorded. Say what it was, or measure there.`,
    });
  // A probe that stopped before the log did has a gap there, not an end.
  if (isRunning || stopsEarly(history, spanS)) return { blind, because: [] };
  const endSlope = slopeOver(history, timeS[last]! - SLOPE_OVER_S, timeS[last]!);
  // Without an arc no metal gets hotter than the hottest: one that warms beside others is harmless where they are.
  const isHottest = neighbours.every((other) => other.tempC[other.tempC.length - 1]! <= lastC);
  const isBesideHot = neighbours.some((other) => other.tempC[other.tempC.length - 1]! > HEATED_BEFORE_C);
  const isHeated =
    !probe.isOven &&
    (lastC - lowestSince(history, timeS[last]! - ARC_RISES_IN_S) > ARC_RISES_K ||
      ((isHottest || isBesideHot) && endSlope > SLOPE_K_PER_S && lastC > probe.ambientC + WARM_END_K));
  if (!isHeated && lastC <= Math.max(STILL_HOT_C, probe.ambientC)) return { blind, because: [] };
  if (isHeated || endSlope > -SLOPE_K_PER_S) {
    const course = isHeated || endSlope > SLOPE_K_PER_S ? 'still rising' : 'and does not fall';
    blind.push({
      fromS: timeS[last]!,
      toS: timeS[last]!,
      because: `The log ends at ${formatTemp(lastC)}, ${course}: how hot and for how long it went on is not recorded. Log until the part is below ${formatTemp(STILL_HOT_C)}, or measure there.`,
    });
    return { blind, because: [] };
  }
  const tauS = Math.min(SLOWEST_TAU_S, (lastC - probe.ambientC) / -endSlope);
  return {
    blind,
    tail: coolingFrom(lastC, probe.ambientC, tauS),
    because: [
      `The log ends at ${formatTemp(lastC)}: it is taken to cool on as in its last minute, at worst three times as slowly.`,
    ],
  };
}

/** Does the start fall from above the room as metal does that stood at 150 °C shortly before? */
function wasHotShortly(history: ThermalHistory, coldestC: number): boolean {
  const { timeS, tempC } = history;
  const [startS, riseK] = [timeS[0]!, tempC[0]! - coldestC];
  if (riseK <= SMALL_START_K) return false;
  const slope = slopeOver(history, startS, startS + START_OVER_S);
  const middleK = tempAt(history, startS + START_OVER_S / 2) - coldestC;
  if (slope >= 0 || middleK <= 0) return false;
  // τ of the fall over its middle; the rise was e^(t/τ) times as much a time t before.
  return (middleK / -slope) * Math.log((HEATED_BEFORE_C - coldestC) / riseK) <= SHORTLY_BEFORE_S;
}

/** The record with its tail, and the doubt of a slower cooling. */
export function withTail(
  record: ThermalHistory,
  tail: ThermalHistory,
  ambientC: number,
): { readonly history: ThermalHistory; readonly doubt: Doubt } {
  const history = join([record, tail]);
  const from = record.timeS.length;
  const fromS = record.timeS[from - 1]!;
  const lastC = record.tempC[from - 1]!;
  const rise = lastC - ambientC;
  return {
    history,
    doubt: {
      kind: 'cooling to come',
      of: 'the cooling after the log ended',
      spread: { shape: 'even', low: 0, high: 1 },
      // A time constant three times as long: the share of the rise left is the cube root.
      shiftK: history.tempC.map((temp, i) =>
        history.timeS[i]! <= fromS || i < from
          ? 0
          : rise * Math.cbrt(Math.max(0, temp - ambientC) / rise) - (temp - ambientC),
      ),
    },
  };
}

function coolingFrom(fromC: number, ambientC: number, tauS: number): ThermalHistory {
  // Three times as slow needs three times as long.
  const endS = 3 * TAIL_TIME_CONSTANTS * tauS;
  const timeS = Float64Array.from({ length: TAIL_POINTS + 1 }, (_, k) => (endS * k * k) / TAIL_POINTS ** 2);
  return thermalHistory(
    timeS,
    timeS.map((t) => ambientC + (fromC - ambientC) * Math.exp(-t / tauS)),
  );
}

function lowestSince({ timeS, tempC }: ThermalHistory, fromS: number): number {
  let low = Number.POSITIVE_INFINITY;
  for (let i = tempC.length - 1; i >= 0 && timeS[i]! >= fromS; i--) low = Math.min(low, tempC[i]!);
  return low;
}

/** Least-squares slope of the readings between two times, K/s; of the two nearest where there are fewer than three. */
function slopeOver(history: ThermalHistory, fromS: number, toS: number): number {
  const { timeS, tempC } = history;
  const x: number[] = [];
  const y: number[] = [];
  for (let i = 0; i < timeS.length; i++)
    if (timeS[i]! >= fromS && timeS[i]! <= toS) {
      x.push(timeS[i]! - fromS);
      y.push(tempC[i]!);
    }
  if (x.length < 3) {
    const a = Math.max(timeS[0]!, fromS);
    const b = Math.min(timeS[timeS.length - 1]!, toS);
    return b > a ? (tempAt(history, b) - tempAt(history, a)) / (b - a) : 0;
  }
  return straightLine(x, y).slope;
}
