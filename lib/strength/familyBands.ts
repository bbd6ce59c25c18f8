import type { MetalFamily } from '../kinetics';
import type { Judged } from '../quantity';
import { weightedShare } from '../statistics';
import type { Draws } from './runDraws';
import { bandOfDraws } from './summary';

/** What the draws of one family of the short range say by themselves. */
export interface FamilyBand {
  readonly name: MetalFamily;
  readonly yieldKeptFraction: Judged;
  /** Share of its draws within the allowance, of what was recorded. */
  readonly chance: number;
}

const FAMILIES: readonly { readonly name: MetalFamily; readonly because: string }[] = [
  { name: 'curve', because: 'With the softening curve carried down to seconds' },
  { name: 'delayed', because: 'With a loss that begins late' },
];

/**
 * The band with each family of models alone: below half an hour hardly anything was measured, and where the two part
 * they are the doubt. A family without draws is left out.
 */
export function familyBands(
  { yieldKept, metals }: Pick<Draws, 'yieldKept' | 'metals'>,
  needed: number,
  weights?: Float64Array,
): readonly FamilyBand[] {
  return FAMILIES.flatMap(({ name, because }) => {
    const own = (_: unknown, i: number): boolean => metals[i]!.family === name;
    const kept = yieldKept.filter(own);
    const weighed = weights?.filter(own);
    if (kept.length === 0 || weighed?.every((weight) => weight === 0)) return [];
    return [
      {
        name,
        yieldKeptFraction: bandOfDraws(kept, '1', [because], weighed),
        chance: weightedShare((i) => kept[i]! >= needed, kept.length, weighed),
      },
    ];
  });
}
