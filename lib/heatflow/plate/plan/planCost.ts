import { formatDuration, requireNumber, TemperbookError } from '../../../quantity';
import { layerDepthsMm } from '../model/layers';
import { checkPlan } from './checkPlan';
import { passArc } from './passArc';
import type { PlatePlan } from './platePlan';
import { boundsOf } from './shape';

/** What a run of a plan takes. */
export interface PlanCost {
  readonly cells: number;
  readonly layers: number;
  /** A guess. */
  readonly steps: number;
  /** On a machine of ours, to a factor of three or so. */
  readonly seconds: number;
}

/** Measured on plates of 2,500 to 90,000 cells: steps while the arc goes one radius, and around each pass. */
const STEPS_PER_RADIUS = 25;
const STEPS_PER_PASS = 60;
/** And the time one step takes for each cell, s. */
const CELL_STEP_S = 1.5e-7;

/**
 * What a run of this plan takes, before it runs: cells, steps and time.
 * @throws TemperbookError as `solvePlate` does for a plan it can judge without cutting it into cells.
 */
export function planCost(plan: PlatePlan): PlanCost {
  checkPlan(plan);
  const solid = plan.part.filter(({ thicknessMm }) => thicknessMm > 0);
  const bounds = solid.map(({ shape }) => boundsOf(shape));
  const span = (low: 0 | 1, high: 2 | 3) =>
    Math.ceil(
      (Math.max(...bounds.map((b) => b[high])) - Math.min(...bounds.map((b) => b[low]))) / plan.cellMm,
    );
  const layers = layerDepthsMm(plan, solid).length - 1;
  const cells = span(0, 2) * span(1, 3) * layers;
  const steps = plan.passes.reduce((sum, pass) => {
    const { sourceRadiusMm: radius } = pass;
    const radiusMm =
      typeof radius === 'number' ? radius : Math.min(radius.acrossMm, radius.aheadMm, radius.behindMm);
    return sum + STEPS_PER_PASS + Math.round((STEPS_PER_RADIUS * passArc(pass).lengthMm) / radiusMm);
  }, STEPS_PER_PASS);
  return { cells, layers, steps, seconds: cells * steps * CELL_STEP_S };
}

/** @throws TemperbookError for a plan whose run would take longer than this, s. */
export function refuseLongRun(plan: PlatePlan, longestS: number): void {
  requireNumber(longestS, 'longestRunS', { low: 0, high: 1e7 });
  const { cells, layers, steps, seconds } = planCost(plan);
  if (seconds <= longestS) return;
  throw new TemperbookError(`This run would take about ${formatDuration(seconds)}`, {
    found: `${cells} cells${layers > 1 ? ` in ${layers} layers` : ''}, about ${steps} steps`,
    expected: `at most ${formatDuration(longestS)}`,
    remedy: 'Choose larger cells or a smaller piece of the part, or say longestRunS',
  });
}
