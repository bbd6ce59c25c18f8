import { dataCheck, refuseProblems, TemperbookError } from '../quantity';
import type { PlanShape, PlateResult } from './plate';
import { checkShape } from './plate/plan/checkShape';
import { shapeSchema } from './plate/plan/planSchema';
import { isInside } from './plate/plan/shape';

/** A spot of the part, and how hot it became. */
export interface HottestMetal {
  readonly xMm: number;
  readonly yMm: number;
  readonly peakC: number;
  /** The run is doubtful there. */
  readonly doubtful: boolean;
  /** By how much the metal may have been hotter there than told, K. */
  readonly mayHideK: number;
}

const problemsOfArea = dataCheck(shapeSchema, 'the area');

/**
 * The hottest metal within an area of the part: the one that decides whether the area keeps its temper.
 * @throws TemperbookError when the area is no shape, or no metal lies in it.
 */
export function hottestMetal({ grid, peakC, doubt }: PlateResult, area: PlanShape): HottestMetal {
  refuseProblems('This area', problemsOfArea(area));
  checkShape(area, 'the area');
  const { columns, cellMm, originMm, inPart } = grid;
  let hottest: HottestMetal | undefined;
  for (const [cell, here] of peakC.entries()) {
    const xMm = originMm[0] + ((cell % columns) + 0.5) * cellMm;
    const yMm = originMm[1] + (Math.floor(cell / columns) + 0.5) * cellMm;
    if (inPart[cell] && here > (hottest?.peakC ?? Number.NEGATIVE_INFINITY) && isInside(area, xMm, yMm))
      hottest = {
        xMm,
        yMm,
        peakC: here,
        doubtful: doubt.doubtful[cell] === 1,
        mayHideK: doubt.differenceK[cell]!,
      };
  }
  if (hottest) return hottest;
  throw new TemperbookError('No metal of the part lies in this area', {
    found: JSON.stringify(area),
    remedy: 'Check the area against the regions of the plan',
  });
}
