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

/**
 * What measuring could settle, worked out before anyone measures: for 1, 2, … 9 readings of one kind beside a probe, which
 * mean would bring the chance of staying within the allowance to 95 % or down to 5 %, and how likely such a mean is.
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
  let n = 0;
  for (;;) {
    n++;
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
    if (clearsFrom === null && n < MOST_READINGS) continue;
    const settles = (x: number): boolean =>
      (clearsFrom !== null && x >= clearsFrom) || (lostUpTo !== null && x <= lostUpTo);
    const chanceToSettle = weightedShare((i) => settles(expected[i]!), expected.length);
    const { unit } = SCALES[kind];
    const lostText = lostUpTo === null ? '' : ` ${lostUpTo.toFixed(0)} ${unit} or less would show it lost.`;
    return clearsFrom === null
      ? {
          ...never,
          lostUpTo,
          chanceToSettle,
          sentence: `No number of ${kind} readings can clear ${place.name}: what the relation is off by does not average out.${lostText} A coupon, the furnace chart or a tensile bar can.`,
        }
      : {
          kind,
          readings: n,
          clearsFrom,
          lostUpTo,
          chanceToSettle,
          sentence: `The mean of ${n} ${kind} reading${n > 1 ? 's' : ''} beside ${place.name}: ${clearsFrom.toFixed(0)} ${unit} or more would clear it.${lostText}`,
        };
  }
}
