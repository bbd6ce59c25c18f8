import { type ThermalHistory, tempAt } from '../../history';
import { TemperbookError } from '../../quantity';
import type { PlatePlan } from './platePlan';
import type { PlateProbeError, PlateResult } from './plateResult';
import type { RunOptions } from './plateRun';
import { runPlan } from './runPlan';

/** Runs the plan again with steps four times as accurate and with cells twice as large, and compares. */
export function plateErrors(
  plan: PlatePlan,
  options: RunOptions,
  result: PlateResult,
): Pick<PlateResult, 'errors' | 'notes'> {
  const again = { ...options, timeAboveC: [] };
  const finer = runPlan(plan, { ...again, toleranceK: options.toleranceK / 4 });
  try {
    const coarser = runPlan({ ...plan, cellMm: 2 * plan.cellMm }, again);
    const errors = result.probes.map(
      ({ name, peakC }, k): PlateProbeError => ({
        name,
        timeStepK: furthestApart(result, finer, k),
        gridK: Math.abs(peakC - coarser.probes[k]!.peakC),
      }),
    );
    return { errors, notes: result.notes };
  } catch (error) {
    if (!(error instanceof TemperbookError)) throw error;
    const notes = [
      ...result.notes,
      `The grid error could not be measured on cells twice as large: ${error.message}`,
    ];
    return { notes };
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
