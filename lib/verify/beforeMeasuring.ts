import { formatChance } from '../quantity';
import { effectiveNumber, weightedShare } from '../statistics';
import { KEPT_FROM, LOST_UP_TO } from '../strength';
import type { Reading } from './reading';
import { SCALES } from './reading';
import { readingModel } from './readingModel';
import { expectedReadings, type ReadPlace } from './readingWeights';

/** What a reading that has not been taken yet could settle. */
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
  readonly sentence: string;
}

const MOST_READINGS = 9;
/** Means that are tried between the lowest and the highest that draws let expect. */
const TRIED = 120;
/** With fewer draws left than this a mean is not counted on. */
const ENOUGH = 20;

/** What the mean of n readings would say. */
interface Means {
  readonly readings: number;
  readonly clearsFrom: number | null;
  readonly lostUpTo: number | null;
  readonly chanceToSettle: number;
}

/** More readings than these settle hardly more: so much of the best chance is good enough. */
const GOOD_ENOUGH = 0.9;

/**
 * What measuring could settle, worked out before anyone measures: for 1, 2, … 9 readings of one kind beside a probe, which
 * mean would bring the chance of staying within the allowance to 95 % or down to 5 %, and how likely such a mean is. The
 * fewest readings that come near the best are named.
 */
export function beforeMeasuring(
  place: ReadPlace,
  reading: Pick<Reading, 'kind' | 'reference'>,
  allowanceFraction: number,
): MeasuringPlan {
  const { kind } = reading;
  const model = readingModel(reading, place.card);
  const never = { kind, readings: null, clearsFrom: null, lostUpTo: null, chanceToSettle: 0 };
  if ('nobodyKnows' in model) return { ...never, sentence: model.nobodyKnows };
  const { yieldKept } = place.draws;
  const needed = 1 - allowanceFraction;
  const expected = expectedReadings(reading, model, place.draws);
  const [low, high] = [Math.min(...expected), Math.max(...expected)];
  const meansOf = (n: number): Means => {
    const u = model.repeatability / Math.sqrt(n);
    let clearsFrom: number | null = null;
    let lostUpTo: number | null = null;
    for (let k = 0; k <= TRIED; k++) {
      const mean = low + (k / TRIED) * (high - low);
      const weights = expected.map((x) => Math.exp(-0.5 * ((mean - x) / u) ** 2));
      if (effectiveNumber(weights) < ENOUGH) continue;
      const chance = weightedShare((i) => yieldKept[i]! >= needed, weights.length, weights);
      if (chance >= KEPT_FROM && clearsFrom === null) clearsFrom = mean;
      if (chance < KEPT_FROM) clearsFrom = null;
      if (chance <= LOST_UP_TO) lostUpTo = mean;
    }
    const settles = (x: number): boolean =>
      (clearsFrom !== null && x >= clearsFrom) || (lostUpTo !== null && x <= lostUpTo);
    const chanceToSettle = weightedShare((i) => settles(expected[i]!), expected.length);
    return { readings: n, clearsFrom, lostUpTo, chanceToSettle };
  };
  const all = Array.from({ length: MOST_READINGS }, (_, k) => meansOf(k + 1));
  const best = Math.max(...all.map(({ chanceToSettle }) => chanceToSettle));
  const plan = all.find(({ chanceToSettle }) => chanceToSettle >= GOOD_ENOUGH * best)!;
  const clears = plan.clearsFrom !== null;
  return {
    kind,
    ...plan,
    readings: clears ? plan.readings : null,
    sentence: sentenceOf(plan, place.name, kind),
  };
}

function sentenceOf(
  { readings, clearsFrom, lostUpTo, chanceToSettle }: Means,
  name: string,
  kind: Reading['kind'],
): string {
  const { unit } = SCALES[kind];
  const lost = lostUpTo === null ? '' : ` ${lostUpTo.toFixed(0)} ${unit} or less would show it lost.`;
  const otherwise = ' Otherwise a coupon, the furnace chart or a tensile bar can tell.';
  if (clearsFrom === null)
    return `No number of ${kind} readings can clear ${name}: what the relation is off by does not average out.${lost}${otherwise}`;
  return `The mean of ${readings} ${kind} reading${readings > 1 ? 's' : ''} beside ${name}: ${clearsFrom.toFixed(0)} ${unit} or more would clear it.${lost} The chance that they settle it is ${formatChance(chanceToSettle)}.${otherwise}`;
}
