import { type Judged, judged } from '../quantity';

/** How far metal with too little strength reaches. */
export interface SoftReach {
  /** From the weld's centre line, mm; 0 where no place lies below. */
  readonly mm: Judged;
  /** The low line is still below at the last place: the zone may reach further than was looked. */
  readonly beyond: boolean;
}

/**
 * The outermost place where less than `needed` is kept, on the straight line to the next place that has it: by
 * the nominal line, and by the band's ends. Not the first crossing from the weld: after rest or ageing the metal
 * next to the weld may be hard again while a ring further out is still soft.
 */
export function softReach(
  points: readonly { readonly distanceMm: number; readonly kept: Judged }[],
  needed: number,
): SoftReach {
  const reachOf = (line: (kept: Judged) => number): number => {
    const last = points.map(({ kept }) => line(kept) < needed).lastIndexOf(true);
    if (last < 0) return 0;
    const here = points[last]!;
    const next = points[last + 1];
    if (!next) return here.distanceMm;
    const share = (needed - line(here.kept)) / (line(next.kept) - line(here.kept));
    return here.distanceMm + share * (next.distanceMm - here.distanceMm);
  };
  const ends = [reachOf(({ high }) => high), reachOf(({ low }) => low)];
  const beyond = points.at(-1)!.kept.low < needed;
  return {
    mm: judged(
      reachOf(({ nominal }) => nominal),
      ends,
      'mm',
      [
        'Where the strength kept, its upper and its lower line last fall below what is needed.',
        ...(beyond ? ['The lower line is still below at the last place: it may reach further.'] : []),
      ],
    ),
    beyond,
  };
}
