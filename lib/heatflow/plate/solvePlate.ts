import { requireNumber } from '../../quantity';
import { plateErrors } from './outcome/plateErrors';
import type { PlateOptions, PlateResult } from './outcome/plateResult';
import { refuseLongRun } from './plan/planCost';
import type { PlatePlan } from './plan/platePlan';
import { runPlan } from './runPlan';

const DEFAULT_TOLERANCE_K = 1;
const LONGEST_RUN_S = 3600;
const LONGEST_WAIT_S = 4 * 3600;

/**
 * Temperatures of a part while it is welded: seen from above and cut into square cells, in one layer where it is thin
 * and even, in two to four through its thickness where that steps, where heat enters a thick part, or where the plan
 * says so. Edges may be joined, so that tubes close and a third arm stands on the rest.
 *
 * ∂h/∂t = ∇·(k(T) ∇T) + arc on its face − air on the exposed faces and rim − contacts, with h the stored heat per
 * volume (sensible and latent). Cells conserve heat exactly; time is walked with a step chosen so that no step errs by
 * more than `toleranceK` in metal 30 K or more below melting (`PlateStepper`). Where layers do not resolve what happens through the
 * thickness, `doubt` says by how much. Not in it: flow in the pool, gaps that open, warping; filler metal only as the
 * mass it adds. Against explicit three-dimensional solutions of plates and of steps of 8, 12 and 25 to 3 mm the layers
 * of 'auto' were within 3 % of the rise outside the arc's footprint, one layer up to 44 % low (test/heatflow).
 *
 * @throws TemperbookError for a plan that cannot be run (a key missing or not known, path or probe outside the part,
 * no travel, impossible properties, cells coarser than the arc, pieces that do not touch, a joint with a gap), for a
 * run of more than `longestRunS`, and when an interpass limit is not reached in `longestWaitS`.
 */
export function solvePlate(plan: PlatePlan, options: PlateOptions = {}): PlateResult {
  const { toleranceK = DEFAULT_TOLERANCE_K, longestWaitS = LONGEST_WAIT_S, timeAboveC = [] } = options;
  requireNumber(toleranceK, 'toleranceK', { low: 1e-6, high: 50 });
  requireNumber(longestWaitS, 'longestWaitS', { low: 1, high: 1e7 });
  for (const limitC of timeAboveC) requireNumber(limitC, 'timeAboveC');
  const settings = { toleranceK, longestWaitS, timeAboveC, onProgress: options.onProgress };
  refuseLongRun(plan, options.longestRunS ?? LONGEST_RUN_S);
  const result = runPlan(plan, settings);
  return options.checkErrors ? { ...result, ...plateErrors(plan, settings, result) } : result;
}
