import { type ThermalHistory, tempAt } from '../../../history';
import { TemperbookError } from '../../../quantity';
import type { RunOptions } from '../march/plateRun';
import type { PlatePlan } from '../plan/platePlan';
import { runPlan } from '../runPlan';
import type { PlateProbeError, PlateResult } from './plateResult';

/**
 * Runs the plan again with steps four times as accurate and with cells twice as large, and compares. Where the plan
 * cannot be run on such cells, `gridK` is left out and a note says why.
 */
export function plateErrors(
  plan: PlatePlan,
  options: RunOptions,
  result: PlateResult,
): Pick<PlateResult, 'errors' | 'notes'> {
  const again = { ...options, timeAboveC: [] };
  const finer = runPlan(plan, { ...again, toleranceK: options.toleranceK / 4 });
  const coarser = onCoarserCells(plan, again);
  const errors = result.probes.map(({ name, peakC }, k): PlateProbeError => {
    const timeStepK = furthestApart(result, finer, k);
    if (coarser instanceof TemperbookError) return { name, timeStepK };
    return { name, timeStepK, gridK: Math.abs(peakC - coarser.probes[k]!.peakC) };
  });
  const notes =
    coarser instanceof TemperbookError
      ? [`The grid error could not be measured on cells twice as large: ${coarser.message}`]
      : [];
  return { errors, notes: [...result.notes, ...notes] };
}

function onCoarserCells(plan: PlatePlan, options: RunOptions): PlateResult | TemperbookError {
  try {
    return runPlan({ ...plan, cellMm: 2 * plan.cellMm }, options);
  } catch (error) {
    if (error instanceof TemperbookError) return error;
    throw error;
  }
}

/** Largest difference of a probe's two histories, with every pass lined up at its arc strike. */
function furthestApart(a: PlateResult, b: PlateResult, probe: number): number {
  const [ofA, ofB]: [ThermalHistory, ThermalHistory] = [a.probes[probe]!.history, b.probes[probe]!.history];
  let furthest = 0;
  const starts = [0, ...a.passes.map((pass) => pass.startS)];
  const startsB = [0, ...b.passes.map((pass) => pass.startS)];
  for (const [i, startS] of starts.entries()) {
    const endS = Math.min(starts[i + 1] ?? a.endS, startS + (startsB[i + 1] ?? b.endS) - startsB[i]!);
    for (const [k, timeS] of ofA.timeS.entries())
      if (timeS >= startS && timeS <= endS)
        furthest = Math.max(furthest, Math.abs(ofA.tempC[k]! - tempAt(ofB, timeS - startS + startsB[i]!)));
  }
  return furthest;
}
