import path from 'node:path';
import type { ThermalHistory } from '../../history';
import { inWorkers } from '../../quantity';
import { type PlatePassResult, type PlatePlan, solvePlate } from '../plate';

/** A run to be made for a surface. */
export interface SurfaceJob {
  readonly plan: PlatePlan;
  readonly toleranceK: number;
  readonly longestWaitS: number;
}

/** What a surface needs of a run. */
export interface SurfaceRun {
  readonly passes: readonly PlatePassResult[];
  readonly endS: number;
  readonly histories: readonly ThermalHistory[];
  readonly molten: readonly boolean[];
  readonly doubtful: readonly boolean[];
  /** How much hotter than told the metal at each probe may have been, K. */
  readonly mayHideK: readonly number[];
  readonly notes: readonly string[];
}

/** Makes one run; also what a worker calls. */
export function solveForSurface({ plan, toleranceK, longestWaitS }: SurfaceJob): SurfaceRun {
  const { probes, passes, endS, notes } = solvePlate(plan, { toleranceK, longestWaitS });
  return {
    passes,
    endS,
    histories: probes.map(({ history }) => history),
    molten: probes.map(({ molten }) => molten),
    doubtful: probes.map(({ doubtful }) => doubtful),
    mayHideK: probes.map(({ mayHideK }) => mayHideK),
    notes,
  };
}

/** Makes many runs, on several threads where that is possible. */
export function solveMany(
  jobs: readonly SurfaceJob[],
  options: { readonly workers?: number | undefined; readonly onDone?: (share: number) => void },
): SurfaceRun[] {
  const modulePath = path.join(__dirname, 'solveForSurface');
  return inWorkers({ modulePath, name: 'solveForSurface' }, solveForSurface, jobs, options);
}
