import type { KeptAtDistance } from '../weldedSection';

type Kept = KeptAtDistance['keptFraction'];

/** A point of a soft zone as `softZone` gives it: yield kept, by what is done after the weld. */
export interface SoftZonePlaceKept {
  readonly distanceMm: number;
  readonly kept: { readonly asWelded: Kept; readonly rested?: Kept; readonly reaged?: Kept };
}

/**
 * The profile that `weldedResistance` counts with, from the points of `softZone`; as welded unless another treatment
 * is named: `{ …, code: 'soft-zone profile', profile: profileOfPoints(zone.points) }`. Rest and re-ageing count only
 * where they were done.
 */
export function profileOfPoints(
  points: readonly SoftZonePlaceKept[],
  treatment: keyof SoftZonePlaceKept['kept'] = 'asWelded',
): KeptAtDistance[] {
  return points.flatMap(({ distanceMm, kept }) => {
    const share = kept[treatment];
    if (!share) return [];
    const { nominal, low, high } = share;
    return [{ distanceMm, keptFraction: { nominal, low, high } }];
  });
}
