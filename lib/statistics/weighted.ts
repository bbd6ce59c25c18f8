import { requireNumber, TemperbookError } from '../quantity';

/**
 * The value below which a share of the weight lies: values sorted, each standing for its weight, straight lines
 * between the middles of neighbours. Equal weights give Hazen's sample quantile.
 *
 * Range: probability 0 to 1; weights ≥ 0, not all 0; absent weights are equal.
 * Source: Hazen (1914), type 5 in Hyndman and Fan, Am. Stat. 50 (1996) 361.
 * @throws TemperbookError on no value, weights of another length, or weights that add up to nothing.
 * @example weightedQuantile(Float64Array.of(1, 2, 3, 4), 0.5) // 2.5
 */
export function weightedQuantile(values: Float64Array, probability: number, weights?: Float64Array): number {
  return weightedQuantiles(values, [probability], weights)[0]!;
}

/** Several quantiles of one sample, sorted once; see `weightedQuantile`. */
export function weightedQuantiles(
  values: Float64Array,
  probabilities: readonly number[],
  weights?: Float64Array,
): number[] {
  const total = totalWeight(values, weights);
  for (const probability of probabilities) requireNumber(probability, 'Probability', { low: 0, high: 1 });
  if (!weights) {
    const sorted = Float64Array.from(values).sort();
    return probabilities.map((probability) => {
      const at = Math.min(sorted.length - 1, Math.max(0, probability * sorted.length - 0.5));
      const below = Math.floor(at);
      const above = Math.min(sorted.length - 1, below + 1);
      return sorted[below]! + (at - below) * (sorted[above]! - sorted[below]!);
    });
  }
  const count = coarseCount(values, weights);
  return probabilities.map((probability) => quantileIn(count, values, weights, probability * total));
}

/** In what bucket of a coarse count each value lies, and what the values of a bucket weigh. */
interface CoarseCount {
  readonly bucketOf: Uint8Array;
  readonly weightIn: Float64Array;
}

const BUCKETS = 256;

/** Values counted by size in even buckets, so that only those around a quantile need be sorted. */
function coarseCount(values: Float64Array, weights: Float64Array): CoarseCount {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  const perUnit = high > low ? (BUCKETS * (1 - Number.EPSILON)) / (high - low) : 0;
  const bucketOf = new Uint8Array(values.length);
  const weightIn = new Float64Array(BUCKETS);
  for (let i = 0; i < values.length; i++) {
    const bucket = Math.min(BUCKETS - 1, Math.floor((values[i]! - low) * perUnit)) || 0;
    bucketOf[i] = bucket;
    weightIn[bucket]! += weights[i]!;
  }
  return { bucketOf, weightIn };
}

/** The value where so much of the weight is reached. It lies in the bucket where that is, or between it and its neighbours. */
function quantileIn(
  { bucketOf, weightIn }: CoarseCount,
  values: Float64Array,
  weights: Float64Array,
  wanted: number,
): number {
  let reached = weightIn[0]!;
  let at = 0;
  while (at < BUCKETS - 1 && reached < wanted) reached += weightIn[++at]!;
  let from = at;
  while (from > 0 && !(from < at && weightIn[from]! > 0)) from--;
  let to = at;
  while (to < BUCKETS - 1 && !(to > at && weightIn[to]! > 0)) to++;
  let before = 0;
  for (let bucket = 0; bucket < from; bucket++) before += weightIn[bucket]!;
  const near: number[] = [];
  for (let i = 0; i < values.length; i++)
    if (weights[i]! > 0 && bucketOf[i]! >= from && bucketOf[i]! <= to) near.push(i);
  const { sorted, own } = sortedWithWeights(near, values, weights);
  let previousMiddle = Number.NEGATIVE_INFINITY;
  let previous = sorted[0]!;
  for (let i = 0; i < sorted.length; i++) {
    const value = sorted[i]!;
    const middle = before + own[i]! / 2;
    if (middle >= wanted)
      return previousMiddle === Number.NEGATIVE_INFINITY
        ? value
        : previous + ((wanted - previousMiddle) / (middle - previousMiddle)) * (value - previous);
    before += own[i]!;
    previousMiddle = middle;
    previous = value;
  }
  return previous;
}

/**
 * The values at these places, sorted, equal ones in their order, and the weight of each. Sorting plain numbers and looking
 * each one's place up takes a third of the time of sorting their places.
 */
function sortedWithWeights(
  places: readonly number[],
  values: Float64Array,
  weights: Float64Array,
): { readonly sorted: Float64Array; readonly own: Float64Array } {
  const sorted = Float64Array.from(places, (i) => values[i]!).sort();
  const own = new Float64Array(sorted.length);
  const taken = new Uint32Array(sorted.length);
  for (const i of places) {
    const first = firstNotBelow(sorted, values[i]!);
    own[first + taken[first]!++] = weights[i]!;
  }
  return { sorted, own };
}

function firstNotBelow(sorted: Float64Array, value: number): number {
  let from = 0;
  let to = sorted.length;
  while (from < to) {
    const middle = (from + to) >> 1;
    if (sorted[middle]! < value) from = middle + 1;
    else to = middle;
  }
  return from;
}

/** Share of the weight for which `holds` is true, 0 to 1. */
export function weightedShare(
  holds: (index: number) => boolean,
  count: number,
  weights?: Float64Array,
): number {
  let all = 0;
  let held = 0;
  for (let i = 0; i < count; i++) {
    const weight = weights ? weights[i]! : 1;
    all += weight;
    if (holds(i)) held += weight;
  }
  return held / all;
}

/** Share of the weight in which a is the larger of two samples in step, 0 to 1; a tie counts half. */
export function chanceBetter(a: Float64Array, b: Float64Array, weights?: Float64Array): number {
  const more = weightedShare((i) => a[i]! > b[i]!, a.length, weights);
  return more + weightedShare((i) => a[i] === b[i], a.length, weights) / 2;
}

/**
 * How many equally weighted draws would say as much: (Σ w)² / Σ w².
 * Source: Kish, Survey Sampling, Wiley 1965.
 */
export function effectiveNumber(weights: Float64Array): number {
  let sum = 0;
  let squares = 0;
  for (const weight of weights) {
    sum += weight;
    squares += weight * weight;
  }
  return squares === 0 ? 0 : (sum * sum) / squares;
}

function totalWeight(values: Float64Array, weights?: Float64Array): number {
  let total = weights ? 0 : values.length;
  for (const weight of weights ?? []) total += weight;
  if (values.length === 0 || (weights && weights.length !== values.length) || !(total > 0))
    throw new TemperbookError('A weighted sample needs values, and weights that are not all nothing', {
      found: `${values.length} values${weights ? `, ${weights.length} weights adding up to ${total}` : ''}`,
    });
  return total;
}
