import { cellsAround, checkCells } from './checkCells';
import { checkPlan } from './checkPlan';
import { metalOfRegion } from './metalOfRegion';
import { plateModel } from './plateModel';
import { plateOutcome } from './plateOutcome';
import type { PlatePlan } from './platePlan';
import type { PlateResult } from './plateResult';
import { PlateRun, type RunOptions } from './plateRun';
import { weldJob } from './weldJob';

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
  const points = plan.probes.map((probe) => cellsAround(model, probe.xMm, probe.yMm));
  const run = new PlateRun(model, plan, points, options);
  const passes = weldJob(plan, run, points, options.longestWaitS);
  return plateOutcome(plan, run, points, passes, notes);
}
