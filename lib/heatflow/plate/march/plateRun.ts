import { TemperbookError } from '../../../quantity';
import type { PlateModel } from '../model/plateCells';
import type { PointCells } from '../model/pointCells';
import type { PlateProgress } from '../outcome/plateResult';
import type { PlatePlan } from '../plan/platePlan';
import { type BurningArc, layHeat } from './arcSource';
import type { CellField } from './cellMemory';
import { PlateRecorder } from './plateRecorder';
import { MIDDLE, PlateStepper, type StepHeat } from './plateStepper';

/** First step after the arc is struck or goes out, s. */
const FIRST_STEP_S = 0.01;
const MOST_GROWTH = 2;
const LEAST_SHRINK = 0.2;
/** Aim below the tolerance, so that few steps have to be repeated. */
const CAUTION = 0.75;
/** A limit counts as reached when the reading is this close below it, K. */
const CLOSENESS_K = 0.1;
/** First step of a wait whose limit is met when it begins, s. */
const LOOK_S = 1;
const SHORTEST_STEP_S = 1e-7;
const PROGRESS_EVERY_MS = 250;

/** Stops a walk when a reading has fallen to a limit and does not rise. */
export interface CoolingWatch {
  readonly limitC: number;
  readonly read: (tempC: Float64Array) => number;
}

/** `PlateOptions` with everything decided. */
export interface RunOptions {
  readonly toleranceK: number;
  readonly longestWaitS: number;
  readonly timeAboveC: readonly number[];
  readonly onProgress: ((progress: PlateProgress) => void) | undefined;
}

/** An arc that burns, and since when. */
interface Burning {
  readonly arc: BurningArc;
  readonly startS: number;
}

/** One run of a plan: walks the stepper in steps of the right length and records what is asked for. */
export class PlateRun {
  readonly stepper: PlateStepper;
  readonly recorder: PlateRecorder;
  readonly steps = {
    count: 0,
    repeated: 0,
    shortestS: Number.POSITIVE_INFINITY,
    longestS: 0,
    worstErrorK: 0,
  };
  doing = 'starting';
  private readonly untilMiddle: CellField;
  private readonly afterMiddle: CellField;
  private nextStepS = FIRST_STEP_S;
  private shownMs = Date.now();
  private readonly acts: { readonly timeS: number; readonly act: () => void }[] = [];

  constructor(
    readonly model: PlateModel,
    plan: PlatePlan,
    probes: readonly PointCells[],
    readonly options: RunOptions,
  ) {
    this.stepper = new PlateStepper(model, plan.surface, options.toleranceK);
    const { memory, nowC } = this.stepper;
    this.recorder = new PlateRecorder(memory, probes, options.timeAboveC, nowC);
    this.untilMiddle = memory.field();
    this.afterMiddle = memory.field();
  }

  get timeS(): number {
    return this.stepper.timeS;
  }

  /** Burns the arc of a pass from start to end. */
  weld(arc: BurningArc): void {
    this.restart();
    const startS = this.timeS;
    // Steps end where the path bends.
    for (const share of arc.pass.bends.slice(1)) this.walk(startS + share * arc.pass.arcOnS, { arc, startS });
    this.restart();
  }

  /** Has something done at a time of the run; what is due already is done at once. */
  at(timeS: number, act: () => void): void {
    this.acts.push({ timeS, act });
    this.acts.sort((a, b) => a.timeS - b.timeS);
    this.actIfDue();
  }

  /** Lets the part cool until a time, or until the watch is content; returns whether it was. */
  cool(toS: number, watch?: CoolingWatch): boolean {
    // A reading below the limit already is done as soon as it is seen not to rise.
    if (watch && watch.read(this.stepper.nowC.values) <= watch.limitC)
      this.nextStepS = Math.min(this.nextStepS, LOOK_S);
    return this.walk(toS, undefined, watch);
  }

  /** Temperature of the hottest cell, °C. */
  hottest(tempC: Float64Array): number {
    const { first, end, thicknessMm } = this.model;
    let hottest = Number.NEGATIVE_INFINITY;
    for (let cell = first; cell < end; cell++)
      if (tempC[cell]! > hottest && thicknessMm[cell]! > 0) hottest = tempC[cell]!;
    return hottest;
  }

  /** What happened so far says little about the next step. */
  private restart(): void {
    this.stepper.forgetTrend();
    this.nextStepS = Math.min(this.nextStepS, FIRST_STEP_S);
  }

  private actIfDue(): void {
    while (this.acts.length > 0 && this.acts[0]!.timeS <= this.timeS + 1e-9) {
      this.acts.shift()!.act();
      this.restart();
    }
  }

  private walk(toS: number, burning?: Burning, watch?: CoolingWatch): boolean {
    while (this.acts.length > 0 && this.acts[0]!.timeS < toS) {
      if (this.walkOn(this.acts[0]!.timeS, burning, watch)) return true;
      this.actIfDue();
    }
    const isReached = this.walkOn(toS, burning, watch);
    this.actIfDue();
    return isReached;
  }

  private walkOn(toS: number, burning?: Burning, watch?: CoolingWatch): boolean {
    const { stepper } = this;
    const { toleranceK } = this.options;
    while (toS - this.timeS > 1e-9 * Math.max(1, toS)) {
      const restS = toS - this.timeS;
      // The rest is never cut so that a sliver of a step is left over.
      const dtS = this.nextStepS >= restS ? restS : Math.min(this.nextStepS, restS / 2);
      const errorK = stepper.tryStep(dtS, burning && this.stepHeat(burning, dtS));
      const aim = Math.max(LEAST_SHRINK, CAUTION * Math.cbrt(toleranceK / Math.max(errorK, 1e-9)));
      if (errorK === Number.POSITIVE_INFINITY && dtS <= SHORTEST_STEP_S)
        throw new TemperbookError('The temperatures cannot be computed on', {
          found: `no solution within ${dtS} s at ${this.timeS.toFixed(1)} s`,
          remedy:
            'Check the metal properties for a jump, and the arc power and radius for a slip of the decimal point',
        });
      if (errorK > toleranceK && dtS > SHORTEST_STEP_S) {
        this.steps.repeated++;
        this.nextStepS = dtS * Math.min(aim, 0.9);
        continue;
      }
      const before = watch ? watch.read(stepper.nowC.values) : 0;
      const after = watch ? watch.read(stepper.endC.values) : 0;
      const isReached = watch !== undefined && after <= watch.limitC && after <= before;
      if (isReached && before > watch.limitC && after < watch.limitC - CLOSENESS_K) {
        this.nextStepS = dtS * Math.min(0.95, (before - watch.limitC + CLOSENESS_K / 2) / (before - after));
        continue;
      }
      this.commit(dtS, errorK);
      this.nextStepS = dtS < restS || aim < 1 ? dtS * Math.min(MOST_GROWTH, aim) : this.nextStepS;
      if (isReached) return true;
    }
    return false;
  }

  private stepHeat({ arc, startS }: Burning, dtS: number): StepHeat {
    const { untilMiddle, afterMiddle, model } = this;
    const fromS = this.timeS - startS;
    const early = layHeat(model, arc, fromS, fromS + MIDDLE * dtS, untilMiddle.values);
    const late = layHeat(model, arc, fromS + MIDDLE * dtS, fromS + dtS, afterMiddle.values);
    return { untilMiddle, afterMiddle, joule: early + late };
  }

  private commit(dtS: number, errorK: number): void {
    const { stepper, recorder, steps, options } = this;
    recorder.add(this.timeS, this.timeS + dtS, stepper.nowC, stepper.middleC, stepper.endC);
    stepper.accept();
    steps.count++;
    steps.shortestS = Math.min(steps.shortestS, dtS);
    steps.longestS = Math.max(steps.longestS, dtS);
    steps.worstErrorK = Math.max(steps.worstErrorK, errorK);
    if (!options.onProgress || Date.now() - this.shownMs < PROGRESS_EVERY_MS) return;
    this.shownMs = Date.now();
    const hottestC = this.hottest(stepper.nowC.values);
    options.onProgress({ doing: this.doing, timeS: this.timeS, steps: steps.count, hottestC });
  }
}
