import { PlateRun, type RunOptions } from './march/plateRun';
import { weldJob } from './march/weldJob';
import { checkCells } from './model/checkCells';
import { metalOfRegion } from './model/metalOfRegion';
import { plateModel } from './model/plateModel';
import { probeCells } from './model/pointCells';
import { plateOutcome } from './outcome/plateOutcome';
import type { PlateResult } from './outcome/plateResult';
import { checkPlan } from './plan/checkPlan';
import type { PlatePlan } from './plan/platePlan';

/** Checks a plan and runs it. */
export function runPlan(plan: PlatePlan, options: RunOptions): PlateResult {
  checkPlan(plan);
  return runChecked(plan, options);
}

/** Cuts a checked plan into cells, runs it and gathers what came of it. */
export function runChecked(plan: PlatePlan, options: RunOptions): PlateResult {
  const model = plateModel(
    plan,
    plan.part.map((region) => metalOfRegion(region.metal)),
  );
  const notes = checkCells(plan, model);
  const points = plan.probes.map((probe) => probeCells(model, probe));
  const run = new PlateRun(model, plan, points, options);
  const passes = weldJob(plan, run, points, options.longestWaitS);
  return plateOutcome(plan, run, points, passes, notes);
}
