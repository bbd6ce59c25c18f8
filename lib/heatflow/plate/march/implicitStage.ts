import type { CellField, CellMemory } from './cellMemory';
import { ConjugateGradient } from './conjugateGradient';
import type { ContactBodies } from './contactBodies';
import type { HeatBalance } from './heatBalance';

/** Accuracy of the linear and nonlinear solutions against that of the step. */
const SOLVER_SHARE = 0.1;
const MOST_SOLUTIONS = 8;

/** What the whole part gives off at one stage, W: to the air, and to each contact. */
export interface Losses {
  readonly airW: number;
  readonly contactW: readonly number[];
}

/**
 * Solves the implicit equation of one stage by Newton's method in the stored heat, usually in one round.
 * Heat is conserved to rounding whatever the accuracy: what the linear solver leaves over is booked into the cell
 * where it was left.
 */
export class ImplicitStage {
  readonly solver: ConjugateGradient;
  private readonly own: CellField;
  private readonly residual: CellField;
  private readonly change: CellField;

  constructor(
    private readonly memory: CellMemory,
    private readonly balance: HeatBalance,
    private readonly contacts: ContactBodies,
    private readonly toleranceK: number,
  ) {
    this.solver = new ConjugateGradient(memory);
    this.own = memory.field();
    this.residual = memory.field();
    this.change = memory.field();
  }

  /**
   * Finds the heat with heat = base + shareS × (net flow at that heat), starting from the heat given, and its
   * temperatures. Returns the losses there, or nothing when the solution does not settle. `isFirst` prepares the
   * preconditioner, which then also serves the other stage of the step.
   */
  solve(
    base: CellField,
    shareS: number,
    heat: CellField,
    tempC: CellField,
    isFirst: boolean,
  ): Losses | undefined {
    const { memory, balance, solver, contacts, own, residual, change } = this;
    const { capacity, airSlope, right, up, deep, joins } = balance;
    const { kernels } = memory;
    const toleranceK = SOLVER_SHARE * this.toleranceK;
    for (let round = 0; round < MOST_SOLUTIONS; round++) {
      balance.evaluate(heat);
      this.linearise(base, heat, 1 / shareS);
      if (joins) kernels.stiffenJoins(joins.at, joins.count, own.at);
      const contactW = contacts.takeFrom(residual.values, balance.tempC.values);
      contacts.stiffen(own.values);
      const matrix = { own, right, up, deep, joins };
      if (isFirst && round === 0) solver.factor(matrix);
      solver.solve(matrix, capacity, toleranceK / shareS, residual, change);
      const airW = balance.airW + kernels.dot(airSlope.at, change.at);
      const missK = balance.applyChange(change, residual, shareS, heat, tempC);
      if (missK <= 2 * toleranceK) {
        const more = contacts.drawOf(change.values);
        return { airW, contactW: contactW.map((w, k) => w + more[k]!) };
      }
    }
    return undefined;
  }

  private linearise(base: CellField, heat: CellField, perS: number): void {
    const { kernels } = this.memory;
    const { own, residual } = this;
    const { capacity, airSlope, netW, right, up, deep } = this.balance;
    const [b, h, c, s, n] = [base.at, heat.at, capacity.at, airSlope.at, netW.at];
    if (deep) kernels.lineariseDeep(b, h, perS, c, s, n, right.at, up.at, deep.at, own.at, residual.at);
    else kernels.linearise(b, h, perS, c, s, n, right.at, up.at, own.at, residual.at);
  }

  /** Turns heat flow errors into the temperature errors they cause, K: one pass of the preconditioner. */
  smooth(error: CellField): void {
    this.solver.precondition(error, error);
  }
}
