import { TemperbookError } from '../../quantity';
import { metalOfRegion, type PlatePlan } from '../plate';
import { checkCells } from '../plate/model/checkCells';
import { plateModel } from '../plate/model/plateModel';
import { checkPlan } from '../plate/plan/checkPlan';

/** The plan on cells twice as large where the arc still covers them and nothing of the part is lost; else as it is. */
export function coarserPlan(plan: PlatePlan): PlatePlan {
  checkPlan(plan);
  const coarse = { ...plan, cellMm: 2 * plan.cellMm };
  const isCovered = plan.passes.every(({ sourceRadiusMm: radius }) => {
    const mm =
      typeof radius === 'number' ? radius : Math.min(radius.acrossMm, radius.aheadMm, radius.behindMm);
    return coarse.cellMm <= mm;
  });
  if (!isCovered) return plan;
  try {
    checkPlan(coarse);
    checkCells(
      coarse,
      plateModel(
        coarse,
        coarse.part.map((region) => metalOfRegion(region.metal)),
      ),
    );
    return coarse;
  } catch (error) {
    if (error instanceof TemperbookError) return plan;
    throw error;
  }
}
