import { ConjugateGradient } from './conjugateGradient';
import { HeatBalance } from './heatBalance';
import type { PlateModel } from './plateModel';
import type { PlateSurface } from './platePlan';

/** Where in the step the middle stage lies. */
const GAMMA = 2 - Math.SQRT2;
/** Implicit share of both stages, as a fraction of the step. */
const STAGE = GAMMA / 2;
/** Weights of the middle and the starting heat in the last stage; they differ by 1. */
const FROM_MIDDLE = 1 / (GAMMA * (2 - GAMMA));
const FROM_START = (1 - GAMMA) ** 2 / (GAMMA * (2 - GAMMA));
/** Weight of the start and middle flows in the whole step; the end flow weighs `STAGE`. */
const OUTER = Math.SQRT2 / 4;
/** Difference between these weights and those of the third-order formula on the same three flows. */
const ERROR_WEIGHTS = [OUTER - (1 - OUTER) / 3, OUTER - (3 * OUTER + 1) / 3, (2 * STAGE) / 3] as const;
/** Accuracy of the linear and nonlinear solutions against that of the step. */
const SOLVER_SHARE = 0.05;
const MOST_SOLUTIONS = 8;
/**
 * How much the error of a cell that melts or freezes counts: where latent heat begins and ends the error falls
 * only linearly with the step, and the pool's temperature is not what plan view is asked for.
 */
const POOL_SHARE = 0.2;

/** Heat the arc brings in each part of a step, J per cell. */
export interface StepHeat {
  readonly untilMiddle: Float64Array;
  readonly afterMiddle: Float64Array;
}

/** Heat that came and went so far, J. */
export interface HeatAccount {
  arcJ: number;
  airJ: number;
  contactJ: number;
}

/** Heat flows of the whole part at one stage, W: to the air, and to each contact. */
interface Losses {
  airW: number;
  readonly contactW: number[];
}

/**
 * Walks the stored heat of a plate forward in time: trapezoidal rule to the middle of the step, second-order
 * backward difference over the rest (TR-BDF2), both implicit, so that no step is too long to be stable and
 * sharp features are damped. The error of a step is the difference to the embedded third-order formula.
 * Heat is conserved to rounding, whatever the accuracy of the solutions: what the linear solver leaves over
 * is booked into the cell where it was left.
 * Source: R. E. Bank et al., IEEE Trans. CAD 4 (1985) 436–451; M. E. Hosea, L. F. Shampine, Appl. Numer. Math.
 * 20 (1996) 21–37, from memory; its order is measured in the tests.
 */
export class PlateStepper {
  timeS = 0;
  /** Stored heat now, J per cell. */
  heat: Float64Array;
  /** The part now, and after `tryStep` the part at the end of the step tried. */
  now: HeatBalance;
  next: HeatBalance;
  /** Temperature in the middle of the step tried last, °C. */
  readonly middleC: Float64Array;
  readonly account: HeatAccount = { arcJ: 0, airJ: 0, contactJ: 0 };
  readonly solver: ConjugateGradient;
  /** Temperature of the contacts' bodies now. */
  private readonly bodyC: number[];
  private bodyMeanC: number[] = [];
  private trialS = 0;
  private trialAccount: HeatAccount = { arcJ: 0, airJ: 0, contactJ: 0 };
  private trialContactJ: number[] = [];
  private beforeS = 0;
  private before: Float64Array;
  private middle: Float64Array;
  private end: Float64Array;
  private readonly start: Float64Array;
  private readonly middleBase: Float64Array;
  private readonly endBase: Float64Array;
  private readonly own: Float64Array;
  private readonly allowed: Float64Array;
  private readonly residual: Float64Array;
  private readonly change: Float64Array;
  private readonly contactSlope: Float64Array;
  private readonly meltingC: number;

  constructor(
    private readonly model: PlateModel,
    surface: PlateSurface,
    private readonly toleranceK: number,
  ) {
    const array = () => new Float64Array(model.length);
    this.heat = model.initialHeat.slice();
    this.now = new HeatBalance(model, surface);
    this.next = new HeatBalance(model, surface);
    this.middleC = array();
    this.solver = new ConjugateGradient(model);
    this.bodyC = model.contacts.map((contact) => contact.bodyC);
    this.before = array();
    this.middle = array();
    this.end = array();
    this.start = array();
    this.middleBase = array();
    this.endBase = array();
    this.own = array();
    this.allowed = array();
    this.residual = array();
    this.change = array();
    this.contactSlope = array();
    for (const { cells, wattsPerK } of model.contacts)
      for (const cell of cells) this.contactSlope[cell]! += wattsPerK;
    this.meltingC = Math.min(
      ...model.metalProperties.map((metal) => metal.solidusC ?? Number.POSITIVE_INFINITY),
    );
    this.now.evaluate(this.heat);
  }

  /**
   * Tries a step and returns its estimated error, the largest of any solid cell, K (infinite when the solution
   * did not settle). `accept` makes it count.
   */
  tryStep(dtS: number, arc: StepHeat | undefined): number {
    const { first, end: last } = this.model;
    const { heat, before, middle, end, start, middleBase, endBase, now, residual, change } = this;
    const shareS = STAGE * dtS;
    this.bodyMeanC = this.bodyMeans(dtS);
    start.set(now.netW);
    const atStart = { airW: now.airW, contactW: this.takeContacts(now.tempC, start) };
    const trend = this.beforeS > 0 ? (GAMMA * dtS) / this.beforeS : 0;
    let arcJ = 0;
    for (let cell = first; cell < last; cell++) {
      const early = arc ? arc.untilMiddle[cell]! : 0;
      middleBase[cell] = heat[cell]! + shareS * start[cell]! + early;
      middle[cell] = heat[cell]! + trend * (heat[cell]! - before[cell]!);
    }
    const atMiddle = this.solveStage(middleBase, shareS, middle, true);
    if (!atMiddle) return Number.POSITIVE_INFINITY;
    this.middleC.set(this.next.tempC);
    for (let cell = first; cell < last; cell++) {
      const early = arc ? arc.untilMiddle[cell]! : 0;
      const late = arc ? arc.afterMiddle[cell]! : 0;
      arcJ += early + late;
      endBase[cell] =
        FROM_MIDDLE * middle[cell]! - FROM_START * heat[cell]! + late + (1 - FROM_MIDDLE) * early;
      end[cell] = heat[cell]! + (middle[cell]! - heat[cell]!) / GAMMA;
    }
    const atEnd = this.solveStage(endBase, shareS, end, false);
    if (!atEnd) return Number.POSITIVE_INFINITY;
    this.next.fillFaces();

    const over = (s: number, m: number, e: number) => dtS * (OUTER * (s + m) + STAGE * e);
    this.trialS = dtS;
    this.trialContactJ = atStart.contactW.map((w, k) => over(w, atMiddle.contactW[k]!, atEnd.contactW[k]!));
    this.trialAccount = {
      arcJ,
      airJ: over(atStart.airW, atMiddle.airW, atEnd.airW),
      contactJ: this.trialContactJ.reduce((sum, joule) => sum + joule, 0),
    };
    const ofStart = ERROR_WEIGHTS[0] / STAGE;
    const ofMiddle = ERROR_WEIGHTS[1] / STAGE / shareS;
    const ofEnd = ERROR_WEIGHTS[2] / STAGE / shareS;
    for (let cell = first; cell < last; cell++)
      residual[cell] =
        ofStart * start[cell]! +
        ofMiddle * (middle[cell]! - middleBase[cell]!) +
        ofEnd * (end[cell]! - endBase[cell]!);
    this.solver.precondition({ own: this.own, right: this.next.right, up: this.next.up }, residual, change);
    const nowC = now.tempC;
    const nextC = this.next.tempC;
    const { meltingC } = this;
    const ofPool = POOL_SHARE;
    let worst = 0;
    for (let cell = first; cell < last; cell++) {
      const isPool = nowC[cell]! > meltingC || nextC[cell]! > meltingC;
      const error = Math.abs(change[cell]!) * (isPool ? ofPool : 1);
      if (error > worst) worst = error;
    }
    return worst;
  }

  /** Makes the step tried last count. */
  accept(): void {
    this.timeS += this.trialS;
    this.beforeS = this.trialS;
    this.account.arcJ += this.trialAccount.arcJ;
    this.account.airJ += this.trialAccount.airJ;
    this.account.contactJ += this.trialAccount.contactJ;
    for (const [k, { bodyHeatJPerK }] of this.model.contacts.entries())
      this.bodyC[k]! += this.trialContactJ[k]! / bodyHeatJPerK;
    [this.before, this.heat, this.end] = [this.heat, this.end, this.before];
    [this.now, this.next] = [this.next, this.now];
  }

  /** To be called when the arc is struck or goes out: the trend of the step before no longer holds. */
  forgetTrend(): void {
    this.beforeS = 0;
  }

  /** Finds the heat with heat = base + shareS × (net flow at that heat), starting from the one given. */
  private solveStage(
    base: Float64Array,
    shareS: number,
    heat: Float64Array,
    isFirst: boolean,
  ): Losses | undefined {
    const { first, end, contacts, grid } = this.model;
    const { columns } = grid;
    const { next, own, allowed, residual, change, contactSlope, solver } = this;
    const { tempC, capacity, airSlope, netW, right, up } = next;
    const tolerance = SOLVER_SHARE * this.toleranceK;
    const perS = 1 / shareS;
    next.fillCells(heat);
    for (let solution = 0; solution < MOST_SOLUTIONS; solution++) {
      next.fillFaces();
      for (let cell = first; cell < end; cell++) {
        const keeps = perS * capacity[cell]!;
        allowed[cell] = tolerance * keeps;
        own[cell] =
          keeps +
          airSlope[cell]! +
          contactSlope[cell]! +
          (right[cell]! + right[cell - 1]! + up[cell]! + up[cell - columns]!);
        residual[cell] = perS * (base[cell]! - heat[cell]!) + netW[cell]!;
      }
      const contactW = this.takeContacts(tempC, residual);
      const matrix = { own, right, up };
      if (isFirst && solution === 0) solver.factor(matrix);
      solver.solve(matrix, allowed, residual, change);
      let airW = next.airW;
      for (let cell = first; cell < end; cell++) {
        const x = change[cell]!;
        airW += airSlope[cell]! * x;
        heat[cell]! += capacity[cell]! * x + shareS * residual[cell]!;
        change[cell] = tempC[cell]! + x;
      }
      for (const [k, { cells, wattsPerK }] of contacts.entries())
        for (const cell of cells) contactW[k]! += wattsPerK * (change[cell]! - tempC[cell]!);
      next.fillCells(heat);
      let worst = 0;
      for (let cell = first; cell < end; cell++) {
        const off = Math.abs(tempC[cell]! - change[cell]!);
        if (off > worst) worst = off;
      }
      if (worst <= 2 * tolerance) return { airW, contactW };
    }
    return undefined;
  }

  /** Takes what the contacts draw out of the flows given; returns the draw of each, W. */
  private takeContacts(tempC: Float64Array, flow: Float64Array): number[] {
    return this.model.contacts.map(({ cells, wattsPerK }, k) => {
      let draw = 0;
      for (const cell of cells) {
        const watts = wattsPerK * (tempC[cell]! - this.bodyMeanC[k]!);
        flow[cell]! -= watts;
        draw += watts;
      }
      return draw;
    });
  }

  /** Mean temperature of each body over the step: it nears its footprint's present mean exponentially. */
  private bodyMeans(dtS: number): number[] {
    return this.model.contacts.map(({ cells, wattsPerK, bodyHeatJPerK }, k) => {
      const bodyC = this.bodyC[k]!;
      const exponent = (wattsPerK * cells.length * dtS) / bodyHeatJPerK;
      if (exponent === 0) return bodyC;
      let footprintC = 0;
      for (const cell of cells) footprintC += this.now.tempC[cell]! / cells.length;
      return footprintC + ((bodyC - footprintC) * -Math.expm1(-exponent)) / exponent;
    });
  }
}
