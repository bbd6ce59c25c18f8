import type { Doubt, DoubtKind, Exposure } from '../exposure';
import { weightedQuantiles } from '../statistics';
import type { MetalDraws } from './metal';
import { runDraws } from './runDraws';

/** How much of the band one doubt makes by itself: down and up from the middle, as fractions of the yield. */
export interface Contribution {
  readonly kind: DoubtKind | 'metal';
  readonly of: string;
  readonly drop: number;
  readonly rise: number;
}

/** Draws of the metals alone, and evenly spaced places in the range of one doubt: enough for a 5 and a 95 % line. */
const DRAWS = 100;
const PLACES = 40;

/**
 * What each doubt does by itself: it runs through its range while every other stands in its middle; the metal alone is
 * the record with all its doubts in the middle, run through the plausible metals. Worst first.
 */
export function contributions(exposures: readonly Exposure[], draws: MetalDraws): Contribution[] {
  const few: MetalDraws = { ...draws, metals: draws.metals.slice(0, DRAWS) };
  const byMetal = runDraws(exposures, few, { placeOf: inTheMiddle }).yieldKept;
  const middleMetal = few.metals[indexOfMedian(byMetal)]!;
  const middle: MetalDraws = { ...draws, metals: Array.from({ length: PLACES }, () => middleMetal) };
  const owners = new Map<string, DoubtKind>();
  for (const { doubts } of exposures) for (const { kind, of } of doubts) owners.set(of, kind);
  const byDoubt = [...owners].map(([of, kind]): Contribution => {
    const placeOf = (doubt: Doubt, index: number): number =>
      doubt.of === of ? (index + 0.5) / PLACES : inTheMiddle();
    return { kind, of, ...bandOf(runDraws(exposures, middle, { placeOf }).yieldKept) };
  });
  return [{ kind: 'metal' as const, of: 'how this metal answers heat', ...bandOf(byMetal) }, ...byDoubt].sort(
    (a, b) => b.drop - a.drop,
  );
}

const inTheMiddle = (): number => 0.5;

/** Which of the values lies in the middle of them. */
function indexOfMedian(values: Float64Array): number {
  const order = Uint32Array.from(values, (_, i) => i).sort((a, b) => values[a]! - values[b]!);
  return order[order.length >> 1]!;
}

function bandOf(kept: Float64Array): { readonly drop: number; readonly rise: number } {
  const [low, middle, high] = weightedQuantiles(kept, [0.05, 0.5, 0.95]) as [number, number, number];
  return { drop: middle - low, rise: high - middle };
}
