import { type AlloyCard, loadAlloy } from '../../alloy';
import { editExposure } from '../../exposure';
import { withSamplesAt } from '../../history';
import { formatDuration, formatPercent, formatTemp } from '../../quantity';
import { normalQuantile } from '../../statistics';
import { type Draws, drawMetals, type MetalDraws, runDraws } from '../../strength';
import type { ReadingKind } from '../reading';
import { SCALES } from '../reading';
import { readingModel } from '../readingModel';
import { expectedReadings } from '../readingWeights';
import type { Dip } from './coupon';
import { couponLag, dipExposure } from './dipExposure';

/** A coupon that has not been heated yet, and what it would tell. */
export interface CouponSuggestion {
  readonly dip: Dip;
  readonly kind: ReadingKind;
  /** Standard deviation of the yield kept in this job, before and, on average, after the coupon. */
  readonly sdBefore: number;
  readonly sdAfter: number;
  readonly sentence: string;
}

/** What a suggestion is for. */
export interface SuggestOptions {
  readonly alloy: AlloyCard | string;
  readonly temper: string;
  readonly kind: ReadingKind;
  /** Of the reading on cold metal of the lot. */
  readonly before: number;
  readonly into?: Dip['into'];
  readonly thicknessMm?: number;
}

const TEMPS_C = [205, 230, 260, 290, 320, 370];
const TIMES_S = [30, 120, 600, 3600];
/** Draws that are asked, and outcomes that are tried with each coupon. */
const DRAWS = 200;
const OUTCOMES = 40;

/**
 * Of 24 dips (205 to 370 °C, half a minute to an hour) those that would narrow the yield kept in this job most, the best
 * first: for each, outcomes are drawn as the plausible metals let expect them, the draws of the job are weighed by each, and
 * the spread that is left is averaged (preposterior analysis; Raiffa and Schlaifer 1961). Dips too short for the coupon's
 * own lag are left out.
 */
export function suggestCoupon(
  { yieldKept }: Pick<Draws, 'yieldKept'>,
  { alloy, temper, kind, before, into = 'salt', thicknessMm = 3 }: SuggestOptions,
  weights?: Float64Array,
): readonly CouponSuggestion[] {
  const card = loadAlloy(alloy);
  const model = readingModel({ kind, reference: before }, card);
  if ('nobodyKnows' in model) return [];
  const count = Math.min(DRAWS, yieldKept.length);
  const job = yieldKept.slice(0, count);
  const prior = weights ? weights.slice(0, count) : new Float64Array(count).fill(1);
  const sdBefore = spreadOf(job, prior);
  return dipsOf(card, temper, { into, thicknessMm, count })
    .map(({ dip, draws }): CouponSuggestion => {
      const expected = expectedReadings({ kind }, model, draws);
      const sdAfter = spreadLeft(job, prior, expected, model.repeatability);
      const less = sdBefore > 0 ? 1 - sdAfter / sdBefore : 0;
      return {
        dip,
        kind,
        sdBefore,
        sdAfter,
        sentence: `A coupon of ${thicknessMm} mm for ${formatDuration(dip.timeS)} at ${formatTemp(dip.tempC)} (${into}), ${SCALES[kind].words} before and after, would narrow this answer by ${formatPercent(less)}.`,
      };
    })
    .sort((a, b) => a.sdAfter - b.sdAfter);
}

/** A dip that could be made, and what the plausible metals would come to in it. */
interface TriedDip {
  readonly dip: Dip;
  readonly draws: Pick<Draws, 'yieldKept' | 'startYieldMPa'>;
}

interface DipsAsked {
  readonly into: Dip['into'];
  readonly thicknessMm: number;
  readonly count: number;
}

/** Dips do not depend on the job: they are run once for a card, as every uncertain probe of every log asks for them. */
const tried = new WeakMap<AlloyCard, Map<string, readonly TriedDip[]>>();

function dipsOf(
  card: AlloyCard,
  temper: string,
  { into, thicknessMm, count }: DipsAsked,
): readonly TriedDip[] {
  const ofCard = tried.get(card) ?? new Map<string, readonly TriedDip[]>();
  tried.set(card, ofCard);
  const key = [temper, into, thicknessMm, count].join('|');
  let dips = ofCard.get(key);
  if (dips === undefined) {
    const metals = drawMetals({ alloy: card, temper }, count);
    const lagS = couponLag({ into, thicknessMm }).value;
    const times = TIMES_S.filter((timeS) => timeS >= 2 * lagS);
    dips =
      times.length === 0
        ? []
        : TEMPS_C.flatMap((tempC) => dipsAt({ tempC, into, thicknessMm }, times, metals));
    ofCard.set(key, dips);
  }
  return dips;
}

/**
 * Dips into one bath for these times, ascending: one run of the longest, looked at where each of the others is quenched, as
 * a yield on the way is that of metal cooled there at once.
 */
function dipsAt(bath: Omit<Dip, 'timeS'>, times: readonly number[], metals: MetalDraws): TriedDip[] {
  const longest = dipExposure({ ...bath, timeS: times[times.length - 1]! });
  const exposure = editExposure(longest, (history) => withSamplesAt(history, times));
  const { onTheWay, startYieldMPa } = runDraws([exposure], metals, {
    lookAt: Uint32Array.from(times, (timeS) => exposure.history.timeS.indexOf(timeS)),
  });
  return times.map((timeS, k) => ({
    dip: { ...bath, timeS },
    draws: { yieldKept: onTheWay[k]!, startYieldMPa },
  }));
}

/** Spread of the job's draws that is left on average once the coupon is read. */
function spreadLeft(job: Float64Array, prior: Float64Array, expected: Float64Array, u: number): number {
  const total = prior.reduce((a, b) => a + b, 0);
  let reached = 0;
  let left = 0;
  let variance = 0;
  for (let i = 0; i < job.length; i++) {
    reached += (prior[i]! / total) * OUTCOMES;
    // As many outcomes as weight has gone by: each stands for the same chance.
    for (; left + 0.5 < reached; left++) {
      const outcome = expected[i]! + u * normalQuantile(((left * 0.618034 + 0.5) % 1) * 0.998 + 0.001);
      const weights = expected.map((x, k) => prior[k]! * Math.exp(-0.5 * ((outcome - x) / u) ** 2));
      variance += spreadOf(job, weights) ** 2;
    }
  }
  return Math.sqrt(variance / Math.max(1, left));
}

function spreadOf(values: Float64Array, weights: Float64Array): number {
  const total = weights.reduce((a, b) => a + b, 0);
  const mean = values.reduce((sum, x, i) => sum + weights[i]! * x, 0) / total;
  return Math.sqrt(values.reduce((sum, x, i) => sum + weights[i]! * (x - mean) ** 2, 0) / total);
}
