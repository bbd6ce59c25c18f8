import { STEFAN_BOLTZMANN } from '../../surfaceLoss';
import type { PlateModel } from '../model/plateCells';
import type { PlateSurface } from '../plan/platePlan';
import type { CellField, CellMemory, JoinTable } from './cellMemory';

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
  /** To the next layer down, where there is more than one. */
  readonly deep: CellField | undefined;
  readonly joins: JoinTable | undefined;
  /** Net heat flow into the cell, W. */
  readonly netW: CellField;
  /** How much the loss to air grows per kelvin, W/K. */
  readonly airSlope: CellField;
  /** Loss of the whole part to air, W. */
  airW = 0;

  private readonly relativeK: CellField;
  private readonly faceRight: CellField;
  private readonly faceUp: CellField;
  private readonly faceDeep: CellField | undefined;
  private readonly volume: CellField;
  private readonly airArea: CellField;
  private readonly coveredMm2: Float64Array;
  private readonly binsPerJoule: CellField;
  private readonly tableAt: number;
  private readonly lastBin: number;

  constructor(
    private readonly memory: CellMemory,
    private readonly model: PlateModel,
    private surface: PlateSurface,
  ) {
    this.tempC = memory.field();
    this.capacity = memory.field();
    this.right = memory.field();
    this.up = memory.field();
    this.deep = model.layers > 1 ? memory.field() : undefined;
    this.joins = model.joins.pairs.length > 0 ? memory.joins(model.joins.pairs) : undefined;
    this.netW = memory.field();
    this.airSlope = memory.field();
    this.relativeK = memory.field();
    this.faceRight = memory.field(model.faceRight);
    this.faceUp = memory.field(model.faceUp);
    this.faceDeep = model.layers > 1 ? memory.field(model.faceDeep) : undefined;
    this.volume = memory.field(model.volume);
    this.airArea = memory.field(model.airArea);
    this.coveredMm2 = new Float64Array(model.length);
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
    const { kernels } = memory;
    const { faceRight, faceUp, faceDeep, right, up, deep, joins } = this;
    if (deep && faceDeep)
      kernels.fillFacesDeep(
        tempC.at,
        relativeK.at,
        faceRight.at,
        faceUp.at,
        faceDeep.at,
        right.at,
        up.at,
        deep.at,
        netW.at,
      );
    else kernels.fillFaces(tempC.at, relativeK.at, faceRight.at, faceUp.at, right.at, up.at, netW.at);
    if (joins) kernels.fillJoins(joins.at, joins.count, tempC.at, relativeK.at, netW.at);
  }

  /** From now on the air is another. */
  changeAir(change: Partial<PlateSurface>): void {
    this.surface = { ...this.surface, ...change };
  }

  /** From now on a face of these cells is covered (negative: bare again), mm² each. */
  cover(cells: Int32Array, mm2: number): void {
    const area = this.airArea.values;
    for (const cell of cells) {
      this.coveredMm2[cell]! += mm2;
      // Two bodies may lie on one face.
      area[cell] = Math.max(0, this.model.airArea[cell]! - this.coveredMm2[cell]!);
    }
  }

  /** Adds metal to cells, mm³; returns the heat it holds at a temperature, J per cell. */
  addMetal(mm3: Float64Array, tempC: number): Float64Array {
    const { metals, metalOf } = this.model;
    const [volume, binsPerJoule] = [this.volume.values, this.binsPerJoule.values];
    return mm3.map((more, cell) => {
      if (more === 0) return 0;
      const metal = metals[metalOf[cell]!]!;
      volume[cell]! += more;
      binsPerJoule[cell] = 1 / (metal.heatPerBin * volume[cell]!);
      return metal.heatAt(tempC) * more;
    });
  }

  /** Temperature of the air now, °C. */
  get ambientC(): number {
    return this.surface.ambientC;
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
