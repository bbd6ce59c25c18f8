import { checkHistory, stretches, type ThermalHistory, tempAt, thermalHistory } from '../history';
import { formatTempSpan, type Judged, judged } from '../quantity';
import { equivalentTime } from './equivalentTime';
import { peak } from './peak';
import { risesBetween } from './risesBetween';

/** What a logger's interval may have hidden. */
export interface SamplingLoss {
  /** Height of the true peak above the hottest reading, K; `high` is the bound. */
  readonly missedPeakK: Judged;
  /** Exposure that the straight lines between readings leave out, as a fraction of the exposure read. */
  readonly missedExposureFraction: Judged;
  /** The trace bends too much between readings for either number to hold: log faster. */
  readonly tooSlow: boolean;
}

/** Up to here the two estimates were checked; beyond, readings are too far apart to follow the trace. */
const TRUSTED_PEAK_K = 20;
const TRUSTED_FRACTION = 0.15;
/** Where a middle reading would fall below absolute zero, °C. */
const COLDEST_C = -273;

/**
 * Estimates from the trace's own curvature what was lost between readings.
 *
 * Peak: a smooth trace hides at most |T″| (Δt/2)²/2 above its hottest reading. T″ comes from second
 * differences at the hottest reading and its two neighbours, the greatest of the three, because a slow
 * logger flattens the one at the top. An arc that comes near and goes makes a corner instead, found by following what rises
 * and what falls beyond its last reading (`risesBetween`). The bound is the greater of both.
 * `nominal` is the vertex of the parabola through the three readings.
 * Noise of deviation σ alone gives about √6 σ/8, a third of itself.
 *
 * Exposure: every interval gets a middle reading on the smooth curve, T″ Δt²/8 below or above the straight
 * line; the gain of the Arrhenius integral, times 4/3 for the bulge that is still left, is what the straight
 * lines miss. The fraction does not depend on the reference temperature.
 *
 * Source: elementary. On thermal cycles of a moving line source (10 to 40 mm from the weld, 0.1 to 5 s, every
 * phase of the logger) the bound held whenever it was under 20 K, and the fraction was within 0.8 to 1.3
 * of the truth whenever it was under 0.15.
 * @throws TemperbookError on a history that breaks its promises or an activation energy out of range.
 */
export function samplingLoss(history: ThermalHistory, activationEnergyJPerMol: number): SamplingLoss {
  checkHistory(history);
  const bends = curvatures(history);
  const clock = { activationEnergyJPerMol, referenceC: 177 };
  const read = equivalentTime(history, clock);
  const gained = read === 0 ? 0 : equivalentTime(withMiddles(history, bends), clock) / read - 1;
  const missed = Math.max(0, (4 / 3) * gained);
  const missedPeakK = missedPeak(history, bends);
  const tooSlow = missedPeakK.high > TRUSTED_PEAK_K || missed > TRUSTED_FRACTION;
  const doubt = tooSlow ? ['The logger was too slow here: the true loss may be greater than this band'] : [];
  return {
    missedPeakK: { ...missedPeakK, because: [...missedPeakK.because, ...doubt] },
    missedExposureFraction: judged(missed, [0.5 * missed, 1.5 * missed], '1', [
      `Straight lines between readings leave out about ${(100 * missed).toFixed(1)} % of the exposure`,
      ...doubt,
    ]),
    tooSlow,
  };
}

/** T″ at every sample that has both neighbours, K/s², by second divided differences; NaN at ends and gaps. */
function curvatures({ timeS, tempC, gapAfter }: ThermalHistory): Float64Array {
  const bends = new Float64Array(timeS.length).fill(Number.NaN);
  for (let i = 1; i < timeS.length - 1; i++) {
    const before = (tempC[i]! - tempC[i - 1]!) / (timeS[i]! - timeS[i - 1]!);
    const after = (tempC[i + 1]! - tempC[i]!) / (timeS[i + 1]! - timeS[i]!);
    bends[i] = (2 * (after - before)) / (timeS[i + 1]! - timeS[i - 1]!);
  }
  for (const i of gapAfter ?? []) bends[i] = bends[i + 1] = Number.NaN;
  return bends;
}

function missedPeak(history: ThermalHistory, bends: Float64Array): Judged {
  const { timeS, tempC } = history;
  const top = timeS.indexOf(peak(history).timeS);
  let boundK = 0;
  for (let i = Math.max(1, top - 1); i <= Math.min(top + 1, timeS.length - 2); i++) {
    if (!(bends[i]! < 0)) continue;
    const widestS = Math.max(timeS[i]! - timeS[i - 1]!, timeS[i + 1]! - timeS[i]!);
    boundK = Math.max(boundK, (-bends[i]! * widestS ** 2) / 8);
  }
  boundK = Math.max(boundK, crestAbove(history, top));
  if (Number.isNaN(bends[top]))
    return judged(0, [boundK], 'K', [
      'The hottest reading is at an end of the trace or beside a gap: how far it rose beyond was not recorded',
    ]);
  const leftS = timeS[top]! - timeS[top - 1]!;
  const rightS = timeS[top + 1]! - timeS[top]!;
  const slope =
    ((tempC[top]! - tempC[top - 1]!) / leftS) * (rightS / (leftS + rightS)) +
    ((tempC[top + 1]! - tempC[top]!) / rightS) * (leftS / (leftS + rightS));
  const vertexK = bends[top]! < 0 ? slope ** 2 / (-2 * bends[top]!) : 0;
  return judged(Math.min(vertexK, boundK), [0, boundK], 'K', [
    `Readings ${Number(Math.max(leftS, rightS).toPrecision(3))} s apart can hide up to ${formatTempSpan(boundK, 1)} above the hottest one`,
  ]);
}

/** Readings on either side of the hottest one that tell of a corner beside it. */
const AROUND = 3;

/** How far the trace points above its hottest reading in the intervals on both sides of it (`risesBetween`), K. */
function crestAbove(history: ThermalHistory, top: number): number {
  const { timeS, tempC } = history;
  const { first, last } = stretches(history).find((one) => top <= one.last)!;
  const [from, to] = [Math.max(first, top - AROUND), Math.min(last, top + AROUND) + 1];
  const around = { timeS: timeS.subarray(from, to), tempC: tempC.subarray(from, to) };
  let above = 0;
  for (const { points } of risesBetween(around, 0))
    for (const { atS, aboveK } of points) above = Math.max(above, tempAt(around, atS) + aboveK - tempC[top]!);
  return above;
}

/**
 * The history with a reading in the middle of every interval, on the curve that its neighbours bend, but no
 * further off the straight line than half the spread of these neighbours: uneven intervals exaggerate.
 */
function withMiddles({ timeS, tempC, gapAfter }: ThermalHistory, bends: Float64Array): ThermalHistory {
  const gaps = new Set(gapAfter);
  const times = new Float64Array(2 * timeS.length - 1 - gaps.size);
  const temps = new Float64Array(times.length);
  const marks: number[] = [];
  let k = 0;
  for (let i = 0; i < timeS.length; i++) {
    times[k] = timeS[i]!;
    temps[k++] = tempC[i]!;
    if (i === timeS.length - 1) break;
    if (gaps.has(i)) {
      marks.push(k - 1);
      continue;
    }
    const stepS = timeS[i + 1]! - timeS[i]!;
    const bend = meanBend(bends[i]!, bends[i + 1]!);
    const bulgeK = Math.min(Math.abs(bend) * stepS * stepS, 4 * spreadAround(tempC, i)) / 8;
    times[k] = timeS[i]! + stepS / 2;
    temps[k++] = Math.max(COLDEST_C, (tempC[i]! + tempC[i + 1]!) / 2 - Math.sign(bend) * bulgeK);
  }
  return thermalHistory(times, temps, marks);
}

/** Mean of the two that are known. */
function meanBend(before: number, after: number): number {
  if (Number.isNaN(before)) return Number.isNaN(after) ? 0 : after;
  return Number.isNaN(after) ? before : (before + after) / 2;
}

/** Hottest less coldest of the readings at i and i + 1 and their neighbours, K. */
function spreadAround(tempC: Float64Array, i: number): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let k = Math.max(0, i - 1); k < Math.min(i + 3, tempC.length); k++) {
    low = Math.min(low, tempC[k]!);
    high = Math.max(high, tempC[k]!);
  }
  return high - low;
}
