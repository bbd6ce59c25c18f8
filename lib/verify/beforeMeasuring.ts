import { formatChance } from '../quantity';
import { normalProbability } from '../statistics';
import { KEPT_FROM, LOST_UP_TO } from '../strength';
import { besidePlace } from './besidePlace';
import type { Reading } from './reading';
import { SCALES } from './reading';
import { readingModel } from './readingModel';
import { expectedReadings, type ReadPlace } from './readingWeights';

/**
 * What a reading that has not been taken yet could settle, and the rule it would be settled by: fixed before anyone measures,
 * so that nobody moves the limit once the number is known.
 */
export interface MeasuringPlan {
  readonly kind: Reading['kind'];
  /** Fewest readings (their mean) that could clear the place at all, up to nine; null when no number of them can. */
  readonly readings: number | null;
  /** A mean of so many at or above this clears the place; null when nothing does. */
  readonly clearsFrom: number | null;
  /** A mean at or below this shows it lost; null when nothing does. */
  readonly lostUpTo: number | null;
  /** Chance, before measuring, that so many readings settle it either way. */
  readonly chanceToSettle: number;
  /** Chance, before measuring, that metal which lost too much is cleared, and that good metal is called lost. */
  readonly falseAccept: number;
  readonly falseReject: number;
  readonly sentence: string;
}

const MOST_READINGS = 9;
/** Means that are tried between the lowest and the highest that draws let expect. */
const TRIED = 120;
/** With fewer draws left than this a mean is not counted on. */
const ENOUGH = 20;

/** What the mean of n readings would say. */
interface Means
  extends Pick<MeasuringPlan, 'clearsFrom' | 'lostUpTo' | 'chanceToSettle' | 'falseAccept' | 'falseReject'> {
  readonly readings: number;
}

/** More readings than these settle hardly more: so much of the best chance is good enough. */
const GOOD_ENOUGH = 0.9;
/** Readings that settle it less often than this are not worth the walk. */
const WORTH_READING = 0.2;

/**
 * What measuring could settle, worked out before anyone measures: for 1, 2, … 9 readings of one kind beside a probe, which
 * mean would bring the chance of staying within the allowance to 95 % or down to 5 %, and how likely such a mean is. The
 * fewest readings that come near the best are named.
 *
 * That is a guarded acceptance: a mean at the limit leaves 5 % for a wrong word, the rule of ISO 14253-1 with what log and
 * metal say beforehand in it. The chances of a false accept and a false reject are those over all draws (JCGM 106:2012,
 * clause 9.5: consumer's and producer's risk).
 */
export function beforeMeasuring(
  place: ReadPlace,
  reading: Pick<Reading, 'kind' | 'reference'>,
  allowanceFraction: number,
): MeasuringPlan {
  const { kind } = reading;
  const model = readingModel(reading, place.card);
  if ('nobodyKnows' in model)
    return {
      kind,
      readings: null,
      clearsFrom: null,
      lostUpTo: null,
      chanceToSettle: 0,
      falseAccept: 0,
      falseReject: 0,
      sentence: model.nobodyKnows,
    };
  const all = meansOf(place, expectedReadings(reading, model, place.draws), {
    repeatability: model.repeatability,
    needed: 1 - allowanceFraction,
  });
  const best = Math.max(...all.map(({ chanceToSettle }) => chanceToSettle));
  const plan = all.find(({ chanceToSettle }) => chanceToSettle >= GOOD_ENOUGH * best)!;
  return {
    kind,
    ...plan,
    readings: plan.clearsFrom === null ? null : plan.readings,
    sentence: sentenceOf(plan, place.name, reading),
  };
}

/** What the mean of 1, 2, … 9 readings would say. */
function meansOf(
  { draws: { yieldKept }, weights }: ReadPlace,
  expected: Float64Array,
  { repeatability, needed }: { readonly repeatability: number; readonly needed: number },
): Means[] {
  const prior = weights ?? new Float64Array(expected.length).fill(1);
  const allPrior = prior.reduce((a, b) => a + b, 0);
  const isGood = yieldKept.map((kept) => (kept >= needed ? 1 : 0));
  return limitsOf(expected, prior, isGood, repeatability).map(({ clearsFrom, lostUpTo }, k) => {
    const u = repeatability / Math.sqrt(k + 1);
    let settles = 0;
    let falseAccept = 0;
    let falseReject = 0;
    for (let i = 0; i < expected.length; i++) {
      const clears = clearsFrom === null ? 0 : normalProbability((expected[i]! - clearsFrom) / u);
      const shows = lostUpTo === null ? 0 : normalProbability((lostUpTo - expected[i]!) / u);
      settles += prior[i]! * (clears + shows);
      if (isGood[i]) falseReject += prior[i]! * shows;
      else falseAccept += prior[i]! * clears;
    }
    return {
      readings: k + 1,
      clearsFrom,
      lostUpTo,
      chanceToSettle: settles / allPrior,
      falseAccept: falseAccept / allPrior,
      falseReject: falseReject / allPrior,
    };
  });
}

/** From which mean of 1, 2, … 9 readings on the place is cleared, and up to which it is lost: means are tried from low to high. */
function limitsOf(
  expected: Float64Array,
  prior: Float64Array,
  isGood: Float64Array,
  repeatability: number,
): { clearsFrom: number | null; lostUpTo: number | null }[] {
  const limits = Array.from({ length: MOST_READINGS }, () => ({
    clearsFrom: null as number | null,
    lostUpTo: null as number | null,
  }));
  const [low, high] = [Math.min(...expected), Math.max(...expected)];
  for (let k = 0; k <= TRIED; k++) {
    const mean = low + (k / TRIED) * (high - low);
    // What a mean of n readings says of a draw is what one says, to the power n.
    const one = expected.map((x) => Math.exp(-0.5 * ((mean - x) / repeatability) ** 2));
    const weight = prior.slice();
    for (const limit of limits) {
      let total = 0;
      let squares = 0;
      let good = 0;
      for (let i = 0; i < weight.length; i++) {
        weight[i]! *= one[i]!;
        total += weight[i]!;
        squares += weight[i]! * weight[i]!;
        good += weight[i]! * isGood[i]!;
      }
      // So many equally likely draws are left (Kish's effective number).
      if (!(total * total > ENOUGH * squares)) continue;
      const chance = good / total;
      if (chance >= KEPT_FROM) limit.clearsFrom ??= mean;
      else limit.clearsFrom = null;
      if (chance <= LOST_UP_TO) limit.lostUpTo = mean;
    }
  }
  return limits;
}

function sentenceOf(
  { readings, clearsFrom, lostUpTo, chanceToSettle, falseAccept, falseReject }: Means,
  name: string,
  { kind, reference }: Pick<Reading, 'kind' | 'reference'>,
): string {
  const { unit, words } = SCALES[kind];
  const cold =
    reference === undefined ? '' : `with ${reference.toFixed(0)} ${unit} on cold metal of the part, `;
  const lost = lostUpTo === null ? '' : `${lostUpTo.toFixed(0)} ${unit} or less shows it lost`;
  const others =
    kind === 'yield' ? 'a coupon or the furnace chart' : 'a tensile bar, a coupon or the furnace chart';
  if (clearsFrom === null)
    return `No number of ${words} readings can clear ${name}: what the relation is off by does not average out.${lost && ` ${cold && cold[0]!.toUpperCase() + cold.slice(1)}${lost}.`} What can: ${others}.`;
  const [count, mean] =
    readings === 1 ? [`One ${words} reading`, ''] : [`${readings} ${words} readings`, 'a mean of '];
  const number = `${count} ${besidePlace(name)}: ${cold}${mean}${clearsFrom.toFixed(0)} ${unit} or more clears it${lost && `, ${lost}`}.`;
  if (chanceToSettle < WORTH_READING)
    return `${number} But the chance to settle it so is only ${formatChance(chanceToSettle)}: rather ${others}.`;
  return `${number} Chance to settle it so ${formatChance(chanceToSettle)}, to pass lost metal ${formatChance(falseAccept)}, to fail good metal ${formatChance(falseReject)}.`;
}
