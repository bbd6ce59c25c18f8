import { TemperbookError } from '../quantity';
import type { PlanShape, PlateResult } from './plate';
import { isInside } from './plate/shape';

/** A spot of the part, and how hot it became. */
export interface HottestMetal {
  readonly xMm: number;
  readonly yMm: number;
  readonly peakC: number;
}

/**
 * The hottest metal within an area of the part: the one that decides whether the area keeps its temper.
 * @throws TemperbookError when no metal lies in the area.
 */
export function hottestMetal({ grid, peakC }: PlateResult, area: PlanShape): HottestMetal {
  const { columns, cellMm, originMm, inPart } = grid;
  let hottest: HottestMetal | undefined;
  for (const [cell, here] of peakC.entries()) {
    const xMm = originMm[0] + ((cell % columns) + 0.5) * cellMm;
    const yMm = originMm[1] + (Math.floor(cell / columns) + 0.5) * cellMm;
    if (inPart[cell] && here > (hottest?.peakC ?? Number.NEGATIVE_INFINITY) && isInside(area, xMm, yMm))
      hottest = { xMm, yMm, peakC: here };
  }
  if (hottest) return hottest;
  throw new TemperbookError('No metal of the part lies in this area', {
    found: JSON.stringify(area),
    remedy: 'Check the area against the regions of the plan',
  });
}
