import { ZERO_C_IN_K } from '../../quantity';
import { STEFAN_BOLTZMANN } from '../surfaceLoss';
import { PER_BIN } from './metalTable';
import type { PlateModel } from './plateModel';
import type { PlateSurface } from './platePlan';

/**
 * The part at one instant: temperatures, heat capacities and conductances for a given stored heat, and the
 * net heat flow into every cell by conduction and air (contacts are added by the stepper, which knows how warm
 * their bodies are). What leaves a cell through a face enters its neighbour, so conduction neither makes nor
 * loses heat.
 */
export class HeatBalance {
  readonly tempC: Float64Array;
  /** J/K. */
  readonly capacity: Float64Array;
  /** Conductance to the neighbour on the right and above, W/K. */
  readonly right: Float64Array;
  readonly up: Float64Array;
  /** Net heat flow into the cell, W. */
  readonly netW: Float64Array;
  /** How much the loss to air grows per kelvin, W/K. */
  readonly airSlope: Float64Array;
  /** Loss of the whole part to air, W. */
  airW = 0;

  private readonly relativeK: Float64Array;
  private readonly tables: Float64Array;
  private readonly tableAt: Int32Array;
  private readonly binsPerJoule: Float64Array;

  constructor(
    private readonly model: PlateModel,
    private readonly surface: PlateSurface,
  ) {
    const { length, metals, metalOf, volume } = model;
    const array = () => new Float64Array(length);
    this.tempC = array();
    this.capacity = array();
    this.right = array();
    this.up = array();
    this.netW = array();
    this.airSlope = array();
    this.relativeK = array();
    const tableLength = metals[0]!.rows.length;
    this.tables = new Float64Array(tableLength * metals.length);
    for (const [i, metal] of metals.entries()) this.tables.set(metal.rows, i * tableLength);
    this.tableAt = Int32Array.from(metalOf, (metal) => metal * tableLength);
    this.binsPerJoule = array().map((_, cell) => 1 / (metals[metalOf[cell]!]!.heatPerBin * volume[cell]!));
  }

  /** Fills every array for the stored heat given, J per cell. */
  evaluate(heatJ: Float64Array): void {
    this.fillCells(heatJ);
    this.fillFaces();
  }

  /** The first half of `evaluate`: temperature, capacity, relative conductivity, and the loss to air. */
  fillCells(heatJ: Float64Array): void {
    const { first, end, volume, metals, airArea } = this.model;
    const { tempC, capacity, relativeK, netW, airSlope, tables, tableAt, binsPerJoule } = this;
    const perBin = PER_BIN;
    const lastBin = metals[0]!.bins - 1;
    const zeroC = ZERO_C_IN_K;
    const convection = this.surface.convectionWPerM2K * 1e-6;
    const radiation = this.surface.emissivity * STEFAN_BOLTZMANN * 1e-6;
    const ambientC = this.surface.ambientC;
    const fromAmbient = radiation * (ambientC + zeroC) ** 4;
    let airW = 0;
    for (let cell = first; cell < end; cell++) {
      const position = heatJ[cell]! * binsPerJoule[cell]!;
      const bin = position < 0 ? 0 : position > lastBin ? lastBin : position | 0;
      const part = position - bin;
      const row = tableAt[cell]! + bin * perBin;
      const temp = tables[row]! + tables[row + 1]! * part;
      tempC[cell] = temp;
      capacity[cell] = volume[cell]! * tables[row + 2]!;
      relativeK[cell] = tables[row + 3]! + tables[row + 4]! * Math.max(0, Math.min(1, part));
      const area = airArea[cell]!;
      const kelvin = temp + zeroC;
      const cubed = radiation * kelvin * kelvin * kelvin;
      const loss = area * (convection * (temp - ambientC) + cubed * kelvin - fromAmbient);
      airSlope[cell] = area * (convection + 4 * cubed);
      netW[cell] = -loss;
      airW += loss;
    }
    this.airW = airW;
  }

  /** The second half: conduction. A face conducts as its two half cells in series at 20 °C, times their mean relative conductivity. */
  fillFaces(): void {
    const { first, end, faceRight, faceUp, grid } = this.model;
    const { tempC, right, up, netW, relativeK } = this;
    const { columns } = grid;
    let fromLeft = 0;
    for (let cell = first; cell < end; cell++) {
      const k = relativeK[cell]!;
      const temp = tempC[cell]!;
      const toRight = 0.5 * faceRight[cell]! * (k + relativeK[cell + 1]!);
      const toUp = 0.5 * faceUp[cell]! * (k + relativeK[cell + columns]!);
      right[cell] = toRight;
      up[cell] = toUp;
      const flowRight = toRight * (temp - tempC[cell + 1]!);
      const flowUp = toUp * (temp - tempC[cell + columns]!);
      const fromBelow = up[cell - columns]! * (tempC[cell - columns]! - temp);
      netW[cell]! += fromLeft + fromBelow - flowRight - flowUp;
      fromLeft = flowRight;
    }
  }
}
