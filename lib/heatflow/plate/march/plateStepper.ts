import type { PlateModel } from '../model/plateCells';
import type { PlateSurface } from '../plan/platePlan';
import { type CellField, CellMemory } from './cellMemory';
import { ContactBodies } from './contactBodies';
import { HeatBalance } from './heatBalance';
import { ImplicitStage, type Losses } from './implicitStage';

/** Where in the step the middle stage lies. */
export const MIDDLE = 2 - Math.SQRT2;
/** Implicit share of both stages, as a fraction of the step. */
const STAGE = MIDDLE / 2;
/** Weights of the middle and the starting heat in the last stage; they differ by 1. */
const FROM_MIDDLE = 1 / (MIDDLE * (2 - MIDDLE));
const FROM_START = (1 - MIDDLE) ** 2 / (MIDDLE * (2 - MIDDLE));
/** Weight of the start and middle flows in the whole step; the end flow weighs `STAGE`. */
const OUTER = Math.SQRT2 / 4;
/** Difference between these weights and those of the third-order formula on the same three flows. */
const ERROR_WEIGHTS = [OUTER - (1 - OUTER) / 3, OUTER - (3 * OUTER + 1) / 3, (2 * STAGE) / 3] as const;
/**
 * How much the error of a cell that melts or freezes counts: where latent heat begins and ends the error falls
 * only linearly with the step, and the pool's temperature is not what plan view is asked for. Metal that has just frozen
 * is near enough to count as such.
 */
const POOL_SHARE = 0.1;
const NEAR_MELTING_K = 30;

/** Heat the arc brings in each part of a step, J per cell, and in all. */
export interface StepHeat {
  readonly untilMiddle: CellField;
  readonly afterMiddle: CellField;
  readonly joule: number;
}

/** Heat that came and went, J. */
export interface HeatAccount {
  readonly arcJ: number;
  readonly airJ: number;
  readonly contactJ: readonly number[];
}

/**
 * Walks the stored heat of a plate forward in time: trapezoidal rule to the middle of the step, second-order
 * backward difference over the rest (TR-BDF2), both implicit, so that no step is too long to be stable and
 * sharp features are damped. The error of a step is the difference to the embedded third-order formula.
 * Source: R. E. Bank et al., IEEE Trans. CAD 4 (1985) 436–451; M. E. Hosea, L. F. Shampine, Appl. Numer. Math.
 * 20 (1996) 21–37, from memory; its order is measured in the tests.
 */
export class PlateStepper {
  timeS = 0;
  readonly memory: CellMemory;
  /** Stored heat now, J per cell, and its temperatures, °C. */
  heat: CellField;
  nowC: CellField;
  /** Temperature in the middle and at the end of the step tried last, °C. */
  readonly middleC: CellField;
  endC: CellField;
  account: HeatAccount;
  /** Heat that filler metal held when it was laid, J. */
  fillerJ = 0;
  readonly stage: ImplicitStage;

  private readonly balance: HeatBalance;
  private readonly contacts: ContactBodies;
  /** Net flow into the cells now, W, and the losses that belong to it. */
  private readonly flow: CellField;
  private flowLosses: Losses;
  private trial: HeatAccount & { readonly dtS: number; readonly endLosses: Losses };
  private beforeS = 0;
  private before: CellField;
  private end: CellField;
  private readonly middle: CellField;
  private readonly middleBase: CellField;
  private readonly endBase: CellField;
  private readonly error: CellField;
  /** From here on metal counts as pool. */
  private readonly poolC: number;

  constructor(
    private readonly model: PlateModel,
    surface: PlateSurface,
    toleranceK: number,
  ) {
    const memory = new CellMemory(model);
    this.memory = memory;
    this.balance = new HeatBalance(memory, model, surface);
    this.contacts = new ContactBodies(model);
    this.stage = new ImplicitStage(memory, this.balance, this.contacts, toleranceK);
    this.heat = memory.field(model.initialHeat);
    this.nowC = memory.field();
    this.flow = memory.field();
    this.middleC = memory.field();
    this.endC = memory.field();
    this.before = memory.field();
    this.middle = memory.field();
    this.end = memory.field();
    this.middleBase = memory.field();
    this.endBase = memory.field();
    this.error = memory.field();
    for (const [k, { cells, coveredMm2 }] of model.contacts.entries())
      if (this.contacts.isOn(k)) this.balance.cover(cells, coveredMm2);
    this.flowLosses = this.lookAgain();
    const { contactW } = this.flowLosses;
    this.account = { arcJ: 0, airJ: 0, contactJ: contactW.map(() => 0) };
    this.trial = { ...this.account, dtS: 0, endLosses: this.flowLosses };
    const solidusC = model.metalProperties.map((metal) => metal.solidusC ?? Number.POSITIVE_INFINITY);
    this.poolC = Math.min(...solidusC) - NEAR_MELTING_K;
  }

  /**
   * Tries a step and returns its estimated error, the largest of any solid cell, K (infinite when the solution
   * did not settle). `accept` makes it count.
   */
  tryStep(dtS: number, arc: StepHeat | undefined): number {
    const { kernels } = this.memory;
    const { heat, before, middle, end, flow, middleBase, endBase, stage } = this;
    const shareS = STAGE * dtS;
    this.contacts.prepare(dtS, this.nowC.values);

    kernels.mix(1, heat.at, shareS, flow.at, middleBase.at);
    if (arc) kernels.mix(1, middleBase.at, 1, arc.untilMiddle.at, middleBase.at);
    const trend = this.beforeS > 0 ? (MIDDLE * dtS) / this.beforeS : 0;
    kernels.mix(1 + trend, heat.at, -trend, before.at, middle.at);
    const atMiddle = stage.solve(middleBase, shareS, middle, this.middleC, true);
    if (!atMiddle) return Number.POSITIVE_INFINITY;

    kernels.mix(FROM_MIDDLE, middle.at, -FROM_START, heat.at, endBase.at);
    if (arc) {
      kernels.mix(1, endBase.at, 1 - FROM_MIDDLE, arc.untilMiddle.at, endBase.at);
      kernels.mix(1, endBase.at, 1, arc.afterMiddle.at, endBase.at);
    }
    kernels.mix(1 - 1 / MIDDLE, heat.at, 1 / MIDDLE, middle.at, end.at);
    const atEnd = stage.solve(endBase, shareS, end, this.endC, false);
    if (!atEnd) return Number.POSITIVE_INFINITY;

    const atStart = this.flowLosses;
    const over = (s: number, m: number, e: number) => dtS * (OUTER * (s + m) + STAGE * e);
    this.trial = {
      dtS,
      endLosses: atEnd,
      arcJ: arc?.joule ?? 0,
      airJ: over(atStart.airW, atMiddle.airW, atEnd.airW),
      contactJ: atStart.contactW.map((w, k) => over(w, atMiddle.contactW[k]!, atEnd.contactW[k]!)),
    };
    return this.stepError(shareS);
  }

  /** Makes the step tried last count. */
  accept(): void {
    const { dtS, arcJ, airJ, contactJ, endLosses } = this.trial;
    this.timeS += dtS;
    this.beforeS = dtS;
    this.account = {
      arcJ: this.account.arcJ + arcJ,
      airJ: this.account.airJ + airJ,
      contactJ: this.account.contactJ.map((joule, k) => joule + contactJ[k]!),
    };
    this.contacts.book(contactJ);
    // The flow at the end follows from the last stage; it is where the next step starts from.
    const perS = 1 / (STAGE * dtS);
    this.memory.kernels.mix(perS, this.end.at, -perS, this.endBase.at, this.flow.at);
    this.flowLosses = endLosses;
    [this.before, this.heat, this.end] = [this.heat, this.end, this.before];
    [this.nowC, this.endC] = [this.endC, this.nowC];
  }

  /** Puts a contact on the part, or takes it off. */
  turnContact(contact: number, on: boolean): void {
    if (this.contacts.isOn(contact) === on) return;
    const { cells, coveredMm2 } = this.model.contacts[contact]!;
    this.contacts.turn(contact, on);
    this.balance.cover(cells, on ? coveredMm2 : -coveredMm2);
    this.flowLosses = this.lookAgain();
  }

  /** The air becomes another. */
  changeAir(change: Partial<PlateSurface>): void {
    this.balance.changeAir(change);
    this.flowLosses = this.lookAgain();
  }

  /** Lays filler metal on cells, mm³ each, at the temperature of the air. */
  addMetal(mm3: Float64Array): void {
    const brought = this.balance.addMetal(mm3, this.balance.ambientC);
    const heat = this.heat.values;
    for (const [cell, joule] of brought.entries()) {
      heat[cell]! += joule;
      this.fillerJ += joule;
    }
    this.flowLosses = this.lookAgain();
  }

  /** Temperatures, flows and losses now, after something else changed than time. */
  private lookAgain(): Losses {
    this.balance.evaluate(this.heat);
    this.nowC.values.set(this.balance.tempC.values);
    this.flow.values.set(this.balance.netW.values);
    const contactW = this.contacts.takeFrom(this.flow.values, this.nowC.values);
    return { airW: this.balance.airW, contactW };
  }

  /** To be called when the arc is struck or goes out: the trend of the step before no longer holds. */
  forgetTrend(): void {
    this.beforeS = 0;
  }

  /** Mean temperature of the part, weighted by heat capacity, °C. */
  bulkC(): number {
    this.balance.evaluate(this.heat);
    const capacity = this.balance.capacity.values;
    const tempC = this.balance.tempC.values;
    let heat = 0;
    let total = 0;
    for (let cell = this.model.first; cell < this.model.end; cell++) {
      if (this.model.thicknessMm[cell] === 0) continue;
      heat += capacity[cell]! * tempC[cell]!;
      total += capacity[cell]!;
    }
    return heat / total;
  }

  /** Mean temperature of the part by volume, °C: what melts weighs no more than the rest. */
  meanC(): number {
    const tempC = this.nowC.values;
    const { first, end, volume, thicknessMm } = this.model;
    let sum = 0;
    let total = 0;
    for (let cell = first; cell < end; cell++) {
      if (thicknessMm[cell] === 0) continue;
      sum += volume[cell]! * tempC[cell]!;
      total += volume[cell]!;
    }
    return sum / total;
  }

  private stepError(shareS: number): number {
    const { kernels } = this.memory;
    const { flow, middle, middleBase, end, endBase, error } = this;
    const [ofStart, ofMiddle, ofEnd] = ERROR_WEIGHTS.map((weight) => weight / STAGE) as [
      number,
      number,
      number,
    ];
    kernels.flowError(
      ofStart,
      flow.at,
      ofMiddle / shareS,
      middle.at,
      middleBase.at,
      ofEnd / shareS,
      end.at,
      endBase.at,
      error.at,
    );
    this.stage.smooth(error);
    return kernels.largestError(error.at, this.nowC.at, this.endC.at, this.poolC, POOL_SHARE);
  }
}
