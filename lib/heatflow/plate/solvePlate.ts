import { requireNumber } from '../../quantity';
import { plateErrors } from './outcome/plateErrors';
import type { PlateOptions, PlateResult } from './outcome/plateResult';
import type { PlatePlan } from './plan/platePlan';
import { runPlan } from './runPlan';

const DEFAULT_TOLERANCE_K = 1;
const LONGEST_WAIT_S = 4 * 3600;

/**
 * Temperatures of a part while it is welded, in plan view: heat flows along the part and is taken as even through
 * its thickness, which may differ from place to place, as may the alloy.
 *
 * d ∂h/∂t = ∇·(k(T) d ∇T) + arc − air on the exposed faces and rim − contacts, with h the stored heat per volume
 * (sensible and latent). Cells conserve heat exactly; time is walked with a step chosen so that no step errs by
 * more than `toleranceK` in solid metal (`PlateStepper`). Good for parts whose thickness is small against the
 * distances asked about; `doubt` marks where it is not. Not in it: heat carried by filler metal or by flow in the
 * pool, gaps between parts, warping.
 *
 * @throws TemperbookError for a plan that cannot be run (a key missing or not known, path or probe outside the part,
 * no travel, impossible properties, cells coarser than the arc), and when an interpass limit is not reached in
 * `longestWaitS`.
 */
export function solvePlate(plan: PlatePlan, options: PlateOptions = {}): PlateResult {
  const { toleranceK = DEFAULT_TOLERANCE_K, longestWaitS = LONGEST_WAIT_S, timeAboveC = [] } = options;
  requireNumber(toleranceK, 'toleranceK', { low: 1e-6, high: 50 });
  requireNumber(longestWaitS, 'longestWaitS', { low: 1, high: 1e7 });
  for (const limitC of timeAboveC) requireNumber(limitC, 'timeAboveC');
  const settings = { toleranceK, longestWaitS, timeAboveC, onProgress: options.onProgress };
  const result = runPlan(plan, settings);
  return options.checkErrors ? { ...result, ...plateErrors(plan, settings, result) } : result;
}
