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
  const needed = 1 - allowanceFraction;
  const { yieldKept } = place.draws;
  const prior = place.weights ?? new Float64Array(yieldKept.length).fill(1);
  const allPrior = prior.reduce((a, b) => a + b, 0);
  const isGood = (i: number): boolean => yieldKept[i]! >= needed;
  const expected = expectedReadings(reading, model, place.draws);
  const [low, high] = [Math.min(...expected), Math.max(...expected)];
  const meansOf = (n: number): Means => {
    const u = model.repeatability / Math.sqrt(n);
    let clearsFrom: number | null = null;
    let lostUpTo: number | null = null;
    for (let k = 0; k <= TRIED; k++) {
      const mean = low + (k / TRIED) * (high - low);
      let total = 0;
      let squares = 0;
      let good = 0;
      for (let i = 0; i < expected.length; i++) {
        const weight = prior[i]! * Math.exp(-0.5 * ((mean - expected[i]!) / u) ** 2);
        total += weight;
        squares += weight * weight;
        if (yieldKept[i]! >= needed) good += weight;
      }
      // So many equally likely draws are left (Kish's effective number).
      if (!(total * total > ENOUGH * squares)) continue;
      const chance = good / total;
      if (chance >= KEPT_FROM && clearsFrom === null) clearsFrom = mean;
      if (chance < KEPT_FROM) clearsFrom = null;
      if (chance <= LOST_UP_TO) lostUpTo = mean;
    }
    const clears = (x: number): number => (clearsFrom === null ? 0 : normalProbability((x - clearsFrom) / u));
    const shows = (x: number): number => (lostUpTo === null ? 0 : normalProbability((lostUpTo - x) / u));
    const over = (chance: (i: number) => number): number =>
      expected.reduce((sum, _, i) => sum + prior[i]! * chance(i), 0) / allPrior;
    return {
      readings: n,
      clearsFrom,
      lostUpTo,
      chanceToSettle: over((i) => clears(expected[i]!) + shows(expected[i]!)),
      falseAccept: over((i) => (isGood(i) ? 0 : clears(expected[i]!))),
      falseReject: over((i) => (isGood(i) ? shows(expected[i]!) : 0)),
    };
  };
  const all = Array.from({ length: MOST_READINGS }, (_, k) => meansOf(k + 1));
  const best = Math.max(...all.map(({ chanceToSettle }) => chanceToSettle));
  const plan = all.find(({ chanceToSettle }) => chanceToSettle >= GOOD_ENOUGH * best)!;
  return {
    kind,
    ...plan,
    readings: plan.clearsFrom === null ? null : plan.readings,
    sentence: sentenceOf(plan, place.name, reading),
  };
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
