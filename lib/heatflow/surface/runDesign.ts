import { type PlanKnobs, planWith } from '../calibration/planKnobs';
import { type PlatePlan, planCost } from '../plate';
import { coarserPlan } from './coarserPlan';
import type { RunAt } from './jobSurface';
import { solveMany } from './solveForSurface';
import { pointOf, type SurfaceDesign } from './surfaceDesign';

const TOLERANCE_K = 2;
const LONGEST_WAIT_S = 4 * 3600;
/** Where all runs on the plan's own cells would take longer, s by the guess of `planCost`, the design has cells twice as large. */
const LONG_S = 8;

/** So many runs of a coarser design are made on the plan's own cells too: both ends of the first two unknowns. */
const ALSO_FINE = 4;

/** The runs behind a surface. */
export interface DesignRuns {
  /** The plan the design was run on: its own, or on coarser cells. */
  readonly coarse: PlatePlan;
  readonly runs: readonly RunAt[];
  /** On the plan's own cells: as planned, and where the design was coarser a few of its runs. */
  readonly meeting: readonly RunAt[];
  /** On the plan's own cells, not to be fitted to. */
  readonly held: readonly RunAt[];
}

/** Runs the design, on coarser cells where it is long; what is to be met there; and the runs held back. */
export function runDesign(
  plan: PlatePlan,
  { axes, middle, around }: SurfaceDesign,
  heldOut: readonly PlanKnobs[],
  {
    toleranceK = TOLERANCE_K,
    longestWaitS = LONGEST_WAIT_S,
    workers,
    onDone,
  }: {
    readonly toleranceK?: number;
    readonly longestWaitS?: number;
    readonly workers?: number;
    readonly onDone?: (share: number) => void;
  },
): DesignRuns {
  const coarse = planCost(plan).seconds * around.length > LONG_S ? coarserPlan(plan) : plan;
  const isCoarse = coarse !== plan;
  const toMeet = [middle, ...(isCoarse ? around.slice(0, ALSO_FINE) : [])];
  const jobs = [
    // The long runs first, so that no thread is left with one at the end.
    ...[...toMeet, ...heldOut].map((knobs) => ({ on: plan, knobs })),
    ...[...(isCoarse ? [middle] : []), ...around].map((knobs) => ({ on: coarse, knobs })),
  ];
  const solved = solveMany(
    jobs.map(({ on, knobs }) => ({ plan: planWith(on, knobs), toleranceK, longestWaitS })),
    { workers, onDone },
  ).map((run, i): RunAt => ({ x: pointOf(axes, jobs[i]!.knobs), run }));
  const meeting = solved.slice(0, toMeet.length);
  const fineCount = toMeet.length + heldOut.length;
  return {
    coarse,
    meeting,
    held: solved.slice(toMeet.length, fineCount),
    runs: [...(isCoarse ? [] : meeting), ...solved.slice(fineCount)],
  };
}
