import type { ThermalHistory } from '../../history';
import { formatTemp, TemperbookError } from '../../quantity';
import type { PlanKnob, PlanKnobs } from '../calibration/planKnobs';
import type { PlatePlan } from '../plate';
import { type JobAt, jobSurface } from './jobSurface';
import { type PlaceSurface, placeSurface } from './placeSurface';
import { drawKnobs, planUnknowns } from './planUnknowns';
import { runDesign } from './runDesign';
import type { SurfaceRun } from './solveForSurface';
import { pointOf, surfaceDesign, termsOf } from './surfaceDesign';

/** How a surface is made. */
export interface PlanSurfaceOptions {
  /** What is not known; default `planUnknowns`. */
  readonly unknowns?: readonly PlanKnob[];
  readonly seed?: number;
  /** Error a step of a run may add, K; default 2. */
  readonly toleranceK?: number;
  /** Longest wait for an interpass limit, s; default 4 h. */
  readonly longestWaitS?: number;
  /** Threads; default one for each processor, four at most. The answer is the same. */
  readonly workers?: number;
  readonly onDone?: (share: number) => void;
}

/** What one plausible job was like besides the histories of its places. */
export interface PlanMeasures {
  /** Mean temperature of the part when each arc was struck, °C; the reading of the probe where the pass waits for one. */
  readonly strikeC: readonly number[];
  /** Hottest mean temperature of the whole part at the end of an arc, °C. */
  readonly bodyC: number;
  /** From the start to the last arc going out, s. */
  readonly clockS: number;
}

/** Histories of a place in many plausible jobs: at the same moments of each, at its own times. */
export interface PlanWays {
  /** As planned: every unknown in its middle. */
  readonly history: ThermalHistory;
  readonly tempC: readonly Float64Array[];
  readonly timeS: readonly Float64Array[];
  /** How far the surface was from runs it was not fitted to, as a share of the rise, at worst, at every sample. */
  readonly errorShare: Float64Array;
  /** The rise that share is of, K. */
  readonly riseK: Float64Array;
}

/** The temperatures of a plan as a function of what is not known of it. */
export interface PlanSurface {
  readonly plan: PlatePlan;
  readonly unknowns: readonly PlanKnob[];
  /** Runs of the solver it was fitted to, and runs held back. */
  readonly runs: number;
  readonly heldOut: readonly PlanKnobs[];
  /** The plan run as it stands on its own cells. */
  readonly asPlanned: SurfaceRun;
  /** By probe: it melts in one of the runs. */
  readonly molten: readonly boolean[];
  /** What a probe sees in plausible jobs. @throws TemperbookError for one that melts. */
  ways(probe: string, draws: readonly PlanKnobs[]): PlanWays;
  /** The history a probe saw in a run held back, and what the surface says of it. */
  heldOutPair(
    probe: string,
    index: number,
  ): { readonly solved: ThermalHistory; readonly told: ThermalHistory };
  measures(draws: readonly PlanKnobs[]): PlanMeasures[];
  /** When the arc of each pass was struck and went out, s. */
  clocks(draws: readonly PlanKnobs[]): (readonly { readonly startS: number; readonly endS: number }[])[];
  readonly notes: readonly string[];
}

const HELD_OUT = 4;
/** Temperatures are counted from so far below the coldest there is, K, so that their logarithm stays quiet. */
const BELOW_K = 15;

/**
 * Runs a plan on a seeded design of its unknowns (`surfaceDesign`) and lays surfaces through the logarithm of the temperature
 * above a base, at knots of a clock that goes with the job's phases (`phaseClock`), place by place; and through the
 * lengths of the phases. They are quadratic with a few cubes (`surfaceTerms`), and bent where an interpass limit begins to hold a pass up
 * (`strikeMargins`). So a plausible job costs a hundred thousandth of a run.
 *
 * Where runs are long the design is run on cells twice as large, and what the plan's own cells change in a few of its runs is
 * added (`BentSurface`). Four more runs on the plan's own cells, at plausible values the surface has not seen, say how far off
 * it is; `ways` tells by sample, `surfaceError` in strength.
 * @throws TemperbookError as `solvePlate` does, and for a plan without probes.
 */
export function planSurface(plan: PlatePlan, options: PlanSurfaceOptions = {}): PlanSurface {
  const { seed = 1 } = options;
  if (plan.probes.length === 0)
    throw new TemperbookError('A surface needs places to tell of', {
      found: 'a plan without probes',
      remedy: 'Add probes to the plan',
    });
  const design = surfaceDesign(options.unknowns ?? planUnknowns(plan), seed);
  const { unknowns, axes, middle } = design;
  const heldOut = drawKnobs(unknowns, HELD_OUT, seed + 7919);
  const { runs, meeting, held, coarse } = runDesign(plan, design, heldOut, options);
  const asPlanned = meeting[0]!.run;
  const baseC =
    Math.min(plan.surface.ambientC, plan.initialC, ...(plan.contacts ?? []).map((c) => c.bodyC)) - BELOW_K;
  const job = jobSurface(plan, runs, meeting, baseC, termsOf(axes));
  const jobAt = (knobs: PlanKnobs): JobAt => job.at(pointOf(axes, knobs));

  const molten = plan.probes.map((_, k) => [...runs, ...meeting, ...held].some(({ run }) => run.molten[k]));
  const places = new Map<number, PlaceSurface>();
  const placeOf = (name: string): { readonly probe: number; readonly place: PlaceSurface } => {
    const probe = solidProbe(plan, name, molten, asPlanned);
    const place = places.get(probe) ?? placeSurface(probe, job, runs, meeting, held, baseC);
    places.set(probe, place);
    return { probe, place };
  };
  return {
    plan,
    unknowns,
    runs: runs.length,
    heldOut,
    asPlanned,
    molten,
    ways: (name, draws) => {
      const { place } = placeOf(name);
      const history = place.historyAt(jobAt(middle));
      const all = draws.map((knobs) => place.historyAt(jobAt(knobs)));
      return {
        history,
        tempC: all.map(({ tempC }) => tempC),
        timeS: all.map(({ timeS }) => timeS),
        errorShare: place.errorShare,
        riseK: history.tempC.map((temp) => temp - baseC),
      };
    },
    heldOutPair: (name, index) => {
      const { probe, place } = placeOf(name);
      return {
        solved: held[index]!.run.histories[probe]!,
        told: place.historyAt(jobAt(heldOut[index]!)),
      };
    },
    clocks: (draws) =>
      draws.map((knobs) => {
        const { boundsS } = jobAt(knobs).clock;
        return plan.passes.map((_, k) => ({ startS: boundsS[2 * k + 1]!, endS: boundsS[2 * k + 2]! }));
      }),
    measures: (draws) =>
      draws.map((knobs) => {
        const { clock, strikeC, bodyC } = jobAt(knobs);
        return { strikeC, bodyC, clockS: clock.boundsS[2 * plan.passes.length]! };
      }),
    notes:
      coarse === plan
        ? []
        : [
            `The design was run on cells of ${coarse.cellMm} mm, the job as planned and ${HELD_OUT} runs held back on ${plan.cellMm} mm.`,
          ],
  };
}

/** The probe of a name. @throws TemperbookError where there is none, or it melts in a run. */
function solidProbe(
  plan: PlatePlan,
  name: string,
  molten: readonly boolean[],
  asPlanned: SurfaceRun,
): number {
  const probe = plan.probes.findIndex((one) => one.name === name);
  if (probe < 0)
    throw new TemperbookError(`The surface does not know the place "${name}"`, {
      expected: `one of ${plan.probes.map((one) => one.name).join(', ')}`,
    });
  if (molten[probe])
    throw new TemperbookError(`The place "${name}" may melt: it is weld metal, and no surface tells of it`, {
      found: `a peak of ${formatTemp(Math.max(...asPlanned.histories[probe]!.tempC))} as planned`,
      remedy: 'Ask for a place further from the weld',
    });
  return probe;
}
