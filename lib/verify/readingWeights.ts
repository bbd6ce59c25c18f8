import type { AlloyCard } from '../alloy';
import { placeInRange } from '../exposure';
import { normalQuantile } from '../statistics';
import type { Draws } from '../strength';
import { type Reading, SCALES } from './reading';
import { readingModel } from './readingModel';

/** A judged place with its draws: where a reading was taken. */
export interface ReadPlace {
  readonly name: string;
  readonly card: AlloyCard;
  readonly draws: Pick<Draws, 'yieldKept' | 'startYieldMPa'>;
  /** How much each draw weighs before any reading; absent: all alike. */
  readonly weights?: Float64Array | undefined;
}

/** What readings do to the draws. */
export interface ReadingWeights {
  /** By draw, of record and metal together; all 1 without a reading that speaks. */
  readonly weights: Float64Array;
  /** Readings that lie further from what log and metal let expect than one in a hundred would. */
  readonly contradicting: readonly string[];
  /** What each reading says, in sentences. */
  readonly because: readonly string[];
}

/** Standard deviations to the 5 and 95 % lines of a normal. */
const NINETY = 1.645;
/** Beyond so many standard deviations of what was to be expected a reading contradicts the log. */
const CONTRADICTS = 2.6;

/**
 * How much each draw weighs in the light of bench readings. A draw is one plausible truth behind the record on one plausible
 * metal, and says at every place what the instrument should read; its weight is the product over the readings of
 *
 *   exp(−½ ((reading − expected)/u)²),
 *
 * u the repeatability of the instrument. What the relation from strength to reading is off by belongs to the part and the
 * instrument: each draw has its own, the same for all readings of one kind, so repeating a reading does not average it.
 * Source: importance weights, Bayes' rule; JCGM 101:2008, 6.4.
 */
export function readingWeights(readings: readonly Reading[], places: readonly ReadPlace[]): ReadingWeights {
  const count = places[0]!.draws.yieldKept.length;
  const logs = new Float64Array(count);
  const contradicting: string[] = [];
  const because: string[] = [];
  for (const reading of readings) {
    const { card, draws, weights } = places.find(({ name }) => name === reading.channel)!;
    const model = readingModel(reading, card);
    if ('nobodyKnows' in model) {
      because.push(`${reading.channel}: ${model.nobodyKnows}`);
      continue;
    }
    const u = reading.standardUncertainty ?? model.repeatability;
    const expected = expectedReadings(reading, model, draws);
    const { off, low, high } = against(reading.value, expected, u, weights);
    for (let i = 0; i < count; i++) logs[i]! -= 0.5 * ((reading.value - expected[i]!) / u) ** 2;
    because.push(`${reading.channel}: ${model.because}`);
    if (Math.abs(off) > CONTRADICTS)
      contradicting.push(
        `${reading.channel}: reading and log contradict each other. The ${SCALES[reading.kind].words} reading says ${reading.value} ${SCALES[reading.kind].unit}; log and metal let expect ${low.toFixed(0)} to ${high.toFixed(0)} ${SCALES[reading.kind].unit}, ${Math.abs(off).toFixed(1)} standard deviations ${off > 0 ? 'below' : 'above'}. One of them is wrong: read again, and look at the probe.${isSwapped(reading) ? ' It reads more than the cold metal it is compared with: were the two numbers swapped?' : ''}`,
      );
  }
  const most = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  return { weights: logs.map((log) => Math.exp(log - most)), contradicting, because };
}

/** Heat seldom makes metal harder than it was. */
const isSwapped = ({ kind, value, reference }: Reading): boolean =>
  kind !== 'conductivity' && reference !== undefined && value > reference;

/** What every draw lets expect of a reading, its own error of the relation included. */
export function expectedReadings(
  { kind }: Pick<Reading, 'kind'>,
  model: Exclude<ReturnType<typeof readingModel>, { readonly nobodyKnows: string }>,
  { yieldKept, startYieldMPa }: ReadPlace['draws'],
): Float64Array {
  return yieldKept.map((kept, i) => {
    const place = Math.min(1 - 1e-9, Math.max(1e-9, placeInRange({ kind: 'reading', of: kind }, i)));
    return model.expected(startYieldMPa[i]!, kept) + model.relationSd * normalQuantile(place);
  });
}

/** Standard deviations between a reading and what the draws let expect, and the 5 and 95 % lines of that. */
function against(
  value: number,
  expected: Float64Array,
  u: number,
  weights: Float64Array = new Float64Array(expected.length).fill(1),
): { readonly off: number; readonly low: number; readonly high: number } {
  const total = weights.reduce((a, b) => a + b, 0);
  const mean = expected.reduce((sum, x, i) => sum + weights[i]! * x, 0) / total;
  const variance = expected.reduce((sum, x, i) => sum + weights[i]! * (x - mean) ** 2, 0) / total;
  const sd = Math.hypot(u, Math.sqrt(variance));
  return { off: (value - mean) / sd, low: mean - NINETY * sd, high: mean + NINETY * sd };
}
