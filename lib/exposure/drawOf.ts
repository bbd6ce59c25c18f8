import type { ThermalHistory } from '../history';
import { EVEN_SPREAD_DIMENSIONS, evenSpread, normalQuantile } from '../statistics';
import type { Doubt, DoubtKind, Exposure, Spread } from './exposure';

/** The dimension of the draws that each kind of doubt owns; members of the metal have an order of their own. */
const STREAM: Readonly<Record<Exclude<DoubtKind, HashedKind>, number>> = {
  wire: 0,
  fixing: 1,
  'between readings': 2,
  gap: 3,
  drift: 4,
  'cooling to come': 6,
  oven: 5,
  swing: 8,
  'hotter face': 7,
  reading: 9,
  bath: 5,
};

/** Why metal was measured weaker than its kind: no doubt of a record, but drawn in step with them. */
export const WHY_LOW_STREAM = EVEN_SPREAD_DIMENSIONS - 1;

/** Kinds whose doubts have streams of their own, told apart by what they are about. */
const HASHED = [
  'heat flow',
  'following',
  'written',
  'unseen',
  'offset',
  'arc',
] as const satisfies readonly DoubtKind[];
type HashedKind = (typeof HASHED)[number];
const isHashed = (kind: DoubtKind): kind is HashedKind => (HASHED as readonly DoubtKind[]).includes(kind);

const HEAT_FLOW_STREAMS = { first: 10, count: WHY_LOW_STREAM - 10 };

/** Where in its range a doubt lies in draw `index`, in (0, 1): the same for every channel and door. */
export function placeInRange({ kind, of }: Pick<Doubt, 'kind' | 'of'>, index: number): number {
  if (!isHashed(kind)) return evenSpread(index, STREAM[kind]);
  let hash = 0;
  for (let i = 0; i < of.length; i++) hash = (Math.imul(hash, 31) + of.charCodeAt(i)) >>> 0;
  return evenSpread(index, HEAT_FLOW_STREAMS.first + (hash % HEAT_FLOW_STREAMS.count));
}

/** The multiple z that lies at `place` (0 to 1) of a spread. */
export function multipleAt(spread: Spread, place: number): number {
  switch (spread.shape) {
    case 'even':
      return spread.low + place * (spread.high - spread.low);
    case 'peaked':
      return peakedAt(spread, place);
    case 'normal':
      return spread.mean + spread.sd * normalQuantile(Math.min(1 - 1e-9, Math.max(1e-9, place)));
  }
}

/** Quantile of the triangular distribution (JCGM 101:2008, 6.4.5 for the symmetric one). */
function peakedAt(
  { low, likely, high }: { readonly low: number; readonly likely: number; readonly high: number },
  place: number,
): number {
  const range = high - low;
  if (range === 0) return low;
  const below = (likely - low) / range;
  return place < below
    ? low + Math.sqrt(place * range * (likely - low))
    : high - Math.sqrt((1 - place) * range * (high - likely));
}

/**
 * The temperatures of one plausible truth behind an exposure, °C at every sample: the record plus every doubt at
 * the place `placeOf` gives it. `into` is written and returned; it must have the history's length.
 */
export function temperaturesAt(
  { history, doubts }: Exposure,
  placeOf: (doubt: Doubt) => number,
  into: Float64Array,
): Float64Array {
  into.set(history.tempC);
  for (const doubt of doubts) {
    const place = placeOf(doubt);
    const isRuns = 'runsK' in doubt;
    const shiftK = isRuns ? doubt.runsK[runAt(doubt, place)]! : doubt.shiftK;
    const z = isRuns ? 1 : multipleAt(doubt.spread, place);
    for (let i = 0; i < into.length; i++) into[i] = into[i]! + z * shiftK[i]!;
  }
  for (let i = 0; i < into.length; i++) if (into[i]! < COLDEST_C) into[i] = COLDEST_C;
  return into;
}

/** Which of the ways of a doubt lies at a place (0 to 1) of its range. */
export const runAt = ({ runsK }: { readonly runsK: ArrayLike<unknown> }, place: number): number =>
  Math.min(runsK.length - 1, Math.floor(place * runsK.length));

/** One plausible truth behind an exposure: its temperatures (`temperaturesAt`, written to `into`) at its own times. */
export function historyAt(
  exposure: Exposure,
  placeOf: (doubt: Doubt) => number,
  into: Float64Array,
): ThermalHistory {
  const tempC = temperaturesAt(exposure, placeOf, into);
  for (const doubt of exposure.doubts)
    if ('runsS' in doubt && doubt.runsS)
      return { ...exposure.history, timeS: doubt.runsS[runAt(doubt, placeOf(doubt))]!, tempC };
  return { ...exposure.history, tempC };
}

/** No doubt may push metal to absolute zero. */
const COLDEST_C = -200;
