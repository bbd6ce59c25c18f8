import type { Matrix } from 'ml-matrix';
import { type ThermalHistory, tempAt } from '../../history';
import { formatTemp, TemperbookError } from '../../quantity';
import { evenSpread } from '../../statistics';
import { type PlanKnob, type PlanKnobs, planWith } from '../calibration/planKnobs';
import { type PlatePlan, planCost } from '../plate';
import { coarserPlan } from './coarserPlan';
import { knotsOf, type PhaseClock, phaseClock, timeAtPlace } from './phaseClock';
import { drawKnobs, knobAt, planUnknowns } from './planUnknowns';
import { quadraticAt, quadraticFit, quadraticTermCount } from './quadratic';
import { type SurfaceRun, solveMany } from './solveForSurface';

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

const TOLERANCE_K = 2;
const LONGEST_WAIT_S = 4 * 3600;
/** Ends of the design, in standard errors. */
const AXIAL_Z = 2.2;
const CUBE_Z = 2.2;
/** Runs for every term of the surface. */
const RUNS_PER_TERM = 2.2;
const HELD_OUT = 4;
/** Where all runs on the plan's own cells would take longer, s by the guess of `planCost`, the design has cells twice as large. */
const LONG_S = 8;
/** Temperatures are counted from so far below the coldest there is, K, so that their logarithm stays quiet. */
const BELOW_K = 15;

/** Factors that do as much together as all of them over the heat capacity: ∂T/∂t = ∇·(k/c ∇T) + q/c. */
const IS_OVER_HEAT = new Set(['power', 'film', 'contact', 'conductivity']);
const HEAT = 'heat capacity';

/**
 * Runs a plan on a seeded design of its unknowns and lays a quadratic surface through the logarithm of the temperature
 * above a base, at knots of a clock that goes with the job's phases (`phaseClock`), place by place; and through the
 * logarithm of each phase's length. So a plausible job costs a hundred thousandth of a run.
 *
 * Where runs are long the design is run on cells twice as large, and what the plan's own cells change in the job as planned
 * is added everywhere. Four more runs on the plan's own cells, at plausible values the surface has not seen, say how far off
 * it is; `ways` tells by sample, `checkSurface` in strength.
 * @throws TemperbookError as `solvePlate` does, and for a plan without probes.
 */
export function planSurface(plan: PlatePlan, options: PlanSurfaceOptions = {}): PlanSurface {
  const {
    unknowns: given = planUnknowns(plan),
    seed = 1,
    toleranceK = TOLERANCE_K,
    longestWaitS = LONGEST_WAIT_S,
    workers,
    onDone,
  } = options;
  if (plan.probes.length === 0)
    throw new TemperbookError('A surface needs places to tell of', {
      found: 'a plan without probes',
      remedy: 'Add probes to the plan',
    });
  const unknowns = [
    ...given.filter((knob) => knob.name !== HEAT),
    ...given.filter((knob) => knob.name === HEAT),
  ];
  const axes = axesOf(unknowns);
  const middle = knobsAt(
    unknowns,
    unknowns.map(() => 0),
  );
  const design = designPoints(unknowns.length, axes.length, seed).map((z) => knobsAt(unknowns, z));
  const heldOut = drawKnobs(unknowns, HELD_OUT, seed + 7919);
  const { seconds } = planCost(plan);
  const coarse = seconds * design.length > LONG_S ? coarserPlan(plan) : plan;
  const jobOf = (on: PlatePlan) => (knobs: PlanKnobs) => ({
    plan: planWith(on, knobs),
    toleranceK,
    longestWaitS,
  });
  const isCoarse = coarse !== plan;
  const meeting = [middle, ...(isCoarse ? design.slice(0, 2) : [])];
  const fineKnobs = [...meeting, ...heldOut];
  // The long runs first, so that no thread is left with one at the end.
  const solved = solveMany(
    [...fineKnobs.map(jobOf(plan)), ...(isCoarse ? [middle, ...design] : design).map(jobOf(coarse))],
    { workers, onDone },
  );
  const meetingRuns = solved.slice(0, meeting.length);
  const asPlanned = meetingRuns[0]!;
  const held = solved.slice(meeting.length, fineKnobs.length);
  const designRuns = solved.slice(fineKnobs.length + (isCoarse ? 1 : 0));
  const fitRuns = [isCoarse ? solved[fineKnobs.length]! : asPlanned, ...designRuns];
  const fitPoints = [middle, ...design].map((knobs) => pointOf(axes, knobs));

  const baseC =
    Math.min(plan.surface.ambientC, plan.initialC, ...(plan.contacts ?? []).map((c) => c.bodyC)) - BELOW_K;
  const log = (tempC: number): number => Math.log(Math.max(tempC - baseC, 1));
  const measuresOf = (run: SurfaceRun): Float64Array => {
    const { boundsS } = phaseClock(run);
    const lengths = boundsS.slice(1).map((to, k) => Math.log(Math.max(to - boundsS[k]!, TINY_S)));
    const strikes = run.passes.map((pass) => log(pass.interpassC ?? pass.bulkStartC));
    return Float64Array.of(...lengths, ...strikes, log(Math.max(...run.passes.map((p) => p.bodyC))));
  };
  const meetingPoints = meeting.map((knobs) => pointOf(axes, knobs));
  const surfaceOf = (seen: (run: SurfaceRun) => Float64Array): Matrix =>
    meetAt(quadraticFit(fitPoints, fitRuns.map(seen)), meetingPoints, meetingRuns.map(seen));
  const jobFit = surfaceOf(measuresOf);
  const passCount = plan.passes.length;
  const clockAt = (x: ArrayLike<number>): { clock: PhaseClock; values: Float64Array } => {
    const values = quadraticAt(jobFit, x);
    const boundsS = [0];
    for (let k = 0; k <= 2 * passCount; k++) {
      const length = Math.exp(values[k]!);
      boundsS.push(boundsS[k]! + (length <= 2 * TINY_S ? 0 : length));
    }
    return { clock: { boundsS }, values };
  };

  const probeIndex = (name: string): number => {
    const k = plan.probes.findIndex((probe) => probe.name === name);
    if (k >= 0) return k;
    throw new TemperbookError(`The surface does not know the place "${name}"`, {
      expected: `one of ${plan.probes.map((probe) => probe.name).join(', ')}`,
    });
  };
  const molten = plan.probes.map((_, k) => solved.some((run) => run.molten[k]));
  const fits = new Map<number, PlaceFit>();
  const fitOf = (probe: number): PlaceFit => {
    const known = fits.get(probe);
    if (known) return known;
    const clock = phaseClock(asPlanned);
    const knots = knotsOf(clock, asPlanned.histories[probe]!);
    const seen = (run: SurfaceRun): Float64Array => {
      const own = phaseClock(run);
      return Float64Array.from(knots, (place) =>
        log(tempAt(run.histories[probe]!, Math.min(run.endS, timeAtPlace(own, place)))),
      );
    };
    const fit = surfaceOf(seen);
    const errorShare = new Float64Array(knots.length);
    for (const [k, run] of held.entries()) {
      const told = quadraticAt(fit, pointOf(axes, heldOut[k]!));
      const truth = seen(run);
      for (let i = 0; i < knots.length; i++)
        errorShare[i] = Math.max(errorShare[i]!, Math.abs(told[i]! - truth[i]!));
    }
    const made: PlaceFit = { knots, fit, errorShare };
    fits.set(probe, made);
    return made;
  };
  const historyAt = ({ knots, fit }: PlaceFit, knobs: PlanKnobs): ThermalHistory => {
    const x = pointOf(axes, knobs);
    const { clock } = clockAt(x);
    const tempC = quadraticAt(fit, x).map((value) => baseC + Math.exp(value));
    const timeS = new Float64Array(knots.length);
    for (let i = 0; i < knots.length; i++)
      timeS[i] = Math.max(timeAtPlace(clock, knots[i]!), i === 0 ? 0 : timeS[i - 1]! + TINY_S);
    return { timeS, tempC };
  };
  const refuseMolten = (probe: number): void => {
    if (molten[probe])
      throw new TemperbookError(
        `The place "${plan.probes[probe]!.name}" may melt: it is weld metal, and no surface tells of it`,
        {
          found: `a peak of ${formatTemp(Math.max(...asPlanned.histories[probe]!.tempC))} as planned`,
          remedy: 'Ask for a place further from the weld',
        },
      );
  };
  return {
    plan,
    unknowns,
    runs: fitRuns.length,
    heldOut,
    asPlanned,
    molten,
    ways: (name, draws) => {
      const probe = probeIndex(name);
      refuseMolten(probe);
      const placeFit = fitOf(probe);
      const history = historyAt(placeFit, middle);
      const all = draws.map((knobs) => historyAt(placeFit, knobs));
      return {
        history,
        tempC: all.map(({ tempC }) => tempC),
        timeS: all.map(({ timeS }) => timeS),
        errorShare: placeFit.errorShare,
        riseK: history.tempC.map((temp) => temp - baseC),
      };
    },
    heldOutPair: (name, index) => {
      const probe = probeIndex(name);
      refuseMolten(probe);
      return { solved: held[index]!.histories[probe]!, told: historyAt(fitOf(probe), heldOut[index]!) };
    },
    clocks: (draws) =>
      draws.map((knobs) => {
        const { boundsS } = clockAt(pointOf(axes, knobs)).clock;
        return plan.passes.map((_, k) => ({ startS: boundsS[2 * k + 1]!, endS: boundsS[2 * k + 2]! }));
      }),
    measures: (draws) =>
      draws.map((knobs) => {
        const { clock, values } = clockAt(pointOf(axes, knobs));
        const rest = values.subarray(2 * passCount + 1);
        return {
          strikeC: Array.from({ length: passCount }, (_, k) => baseC + Math.exp(rest[k]!)),
          bodyC: baseC + Math.exp(rest[passCount]!),
          clockS: clock.boundsS[2 * passCount]!,
        };
      }),
    notes: isCoarse
      ? [
          `The design was run on cells of ${coarse.cellMm} mm, the job as planned and ${HELD_OUT} runs held back on ${plan.cellMm} mm.`,
        ]
      : [],
  };
}

interface PlaceFit {
  readonly knots: readonly number[];
  readonly fit: Matrix;
  readonly errorShare: Float64Array;
}

const TINY_S = 1e-3;

/**
 * The surface moved so that it meets runs on the plan's own cells: as planned, and at both ends of the first direction
 * where those were run, by a parabola along it.
 */
function meetAt(fit: Matrix, points: readonly Float64Array[], truths: readonly Float64Array[]): Matrix {
  const [middle, low, high] = points.map((x, k) => {
    const told = quadraticAt(fit, x);
    return { x: x[0]!, miss: truths[k]!.map((truth, j) => truth - told[j]!) };
  });
  const squareRow = 1 + points[0]!.length;
  for (let j = 0; j < fit.columns; j++) {
    const add = (row: number, by: number) => fit.set(row, j, fit.get(row, j) + by);
    const atMiddle = middle!.miss[j]!;
    add(0, atMiddle);
    if (!low || !high) continue;
    const [below, above] = [(low.miss[j]! - atMiddle) / low.x, (high.miss[j]! - atMiddle) / high.x];
    const bend = (above - below) / (high.x - low.x);
    add(1, below - bend * low.x);
    add(squareRow, bend);
  }
  return fit;
}

/** Directions of the surface: the logarithm of each unknown in standard errors, what acts over the heat capacity divided by it. */
interface Axis {
  readonly name: string;
  readonly nominal: number;
  readonly perLog: number;
  readonly overHeat?: number;
}

function axesOf(unknowns: readonly PlanKnob[]): Axis[] {
  const heat = unknowns.find(({ name }) => name === HEAT);
  return unknowns
    .filter((knob) => knob !== heat)
    .map(({ name, nominal, low, high }) => ({
      name,
      nominal,
      perLog: (2 * 1.645) / Math.log(high / low),
      ...(heat && IS_OVER_HEAT.has(name) ? { overHeat: heat.nominal } : {}),
    }));
}

const pointOf = (axes: readonly Axis[], knobs: PlanKnobs): Float64Array =>
  Float64Array.from(axes, ({ name, nominal, perLog, overHeat }) => {
    const heat = overHeat === undefined ? 0 : Math.log(knobs[HEAT]! / overHeat);
    return perLog * (Math.log(knobs[name]! / nominal) - heat);
  });

const knobsAt = (unknowns: readonly PlanKnob[], z: readonly number[]): PlanKnobs =>
  Object.fromEntries(unknowns.map((knob, k) => [knob.name, knobAt(knob, z[k]!)]));

/** Both ends of every unknown by itself, then points spread through the cube; the middle is run besides. */
function designPoints(count: number, axes: number, seed: number): number[][] {
  const ends = Array.from({ length: 2 * count }, (_, i) =>
    Array.from({ length: count }, (_, k) => (k === i >> 1 ? (i % 2 ? AXIAL_Z : -AXIAL_Z) : 0)),
  );
  const spread = Math.max(4, Math.ceil(RUNS_PER_TERM * quadraticTermCount(axes)) - ends.length - 1);
  const inside = Array.from({ length: spread }, (_, i) =>
    Array.from({ length: count }, (_, k) => CUBE_Z * (2 * evenSpread(i + 1000 * (seed % 900), k) - 1)),
  );
  return [...ends, ...inside];
}
