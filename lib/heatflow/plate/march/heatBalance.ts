import { STEFAN_BOLTZMANN } from '../../surfaceLoss';
import type { PlateModel } from '../model/plateModel';
import type { PlateSurface } from '../plan/platePlan';
import type { CellField, CellMemory } from './cellMemory';

/**
 * The part at one instant: temperatures, heat capacities and conductances for a given stored heat, and the
 * net heat flow into every cell by conduction and air (contacts are added by the stage, which knows how warm
 * their bodies are). What leaves a cell through a face enters its neighbour, so conduction neither makes nor
 * loses heat.
 */
export class HeatBalance {
  readonly tempC: CellField;
  /** J/K. */
  readonly capacity: CellField;
  /** Conductance to the neighbour on the right and above, W/K. */
  readonly right: CellField;
  readonly up: CellField;
  /** Net heat flow into the cell, W. */
  readonly netW: CellField;
  /** How much the loss to air grows per kelvin, W/K. */
  readonly airSlope: CellField;
  /** Loss of the whole part to air, W. */
  airW = 0;

  private readonly relativeK: CellField;
  private readonly faceRight: CellField;
  private readonly faceUp: CellField;
  private readonly volume: CellField;
  private readonly airArea: CellField;
  private readonly binsPerJoule: CellField;
  private readonly tableAt: number;
  private readonly lastBin: number;

  constructor(
    private readonly memory: CellMemory,
    model: PlateModel,
    private readonly surface: PlateSurface,
  ) {
    this.tempC = memory.field();
    this.capacity = memory.field();
    this.right = memory.field();
    this.up = memory.field();
    this.netW = memory.field();
    this.airSlope = memory.field();
    this.relativeK = memory.field();
    this.faceRight = memory.field(model.faceRight);
    this.faceUp = memory.field(model.faceUp);
    this.volume = memory.field(model.volume);
    this.airArea = memory.field(model.airArea);
    const { metals, metalOf, volume } = model;
    this.binsPerJoule = memory.field(
      volume.map((mm3, cell) => 1 / (metals[metalOf[cell]!]!.heatPerBin * mm3)),
    );
    const tables = metals.map((metal) => memory.table(metal.rows));
    this.tableAt = memory.addresses(Uint32Array.from(metalOf, (metal) => tables[metal]!));
    this.lastBin = metals[0]!.bins - 1;
  }

  /** Fills every field for the stored heat given, J per cell. */
  evaluate(heat: CellField): void {
    const { memory, tempC, capacity, relativeK, netW, airSlope, surface } = this;
    this.airW = memory.kernels.fillCells(
      heat.at,
      this.binsPerJoule.at,
      this.tableAt,
      this.lastBin,
      this.volume.at,
      this.airArea.at,
      surface.convectionWPerM2K * 1e-6,
      surface.emissivity * STEFAN_BOLTZMANN * 1e-6,
      surface.ambientC,
      tempC.at,
      capacity.at,
      relativeK.at,
      netW.at,
      airSlope.at,
    );
    const { faceRight, faceUp, right, up } = this;
    memory.kernels.fillFaces(tempC.at, relativeK.at, faceRight.at, faceUp.at, right.at, up.at, netW.at);
  }

  /**
   * Adds a temperature change to the heat this balance stands for, and what the linear solver left over (W, kept
   * for `shareS`). Writes the temperatures of that heat and returns by how much they miss this balance's plus the
   * change at most, K.
   */
  applyChange(
    change: CellField,
    residual: CellField,
    shareS: number,
    heat: CellField,
    tempC: CellField,
  ): number {
    return this.memory.kernels.applyChange(
      change.at,
      residual.at,
      shareS,
      this.capacity.at,
      this.tempC.at,
      this.binsPerJoule.at,
      this.tableAt,
      this.lastBin,
      heat.at,
      tempC.at,
    );
  }
}
