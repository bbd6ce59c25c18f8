import type { PlateGrid } from '../outcome/plateResult';
import type { MetalProperties, PlanLine, PlanMoment, PlanPoint } from '../plan/platePlan';
import type { MetalTable } from './metalTable';

/** A point near one joined edge as the metal beyond the other edge sees it. */
export interface EdgeImage {
  /** The edge the point must be near, and the direction out of its metal. */
  readonly edge: PlanLine;
  /** The place and the direction of travel as seen from there. */
  point(xy: PlanPoint): PlanPoint;
  direction(xy: PlanPoint): PlanPoint;
}

/** Cells that touch through a join, and the area each lends to it. */
export interface JoinedCells {
  readonly pairs: readonly { readonly a: number; readonly b: number; readonly wattsPerK: number }[];
  readonly coveredRim: readonly { readonly cell: number; readonly mm2: number }[];
  readonly coveredFace: readonly { readonly cell: number; readonly mm2: number }[];
  /** For edges joined to edges: where a point beside the one lies as seen from the other, both ways. */
  readonly images: readonly EdgeImage[];
}

/** A clamp or chill as the solver sees it: the cells it touches and how well it takes heat from each, W/K. */
export interface ContactCells {
  readonly cells: Int32Array;
  readonly wattsPerK: Float64Array;
  /** Face of each cell that it covers, mm². */
  readonly coveredMm2: number;
  readonly bodyC: number;
  readonly bodyHeatJPerK: number;
  readonly putOn?: PlanMoment;
  readonly takenOff?: PlanMoment;
}

/**
 * A plan cut into cells. Layers lie one after the other in every cell array, from the upper face down, each row by
 * row; guard cells before and after them let a cell's neighbours be read without asking where the edge is. Place i
 * of the plan (`row * columns + column`) has its cell of layer l at `first + l * plane + i`. A face between two cells
 * that does not conduct has factor 0.
 */
export interface PlateModel {
  readonly grid: PlateGrid;
  readonly layers: number;
  /** Depths between which the layers lie, mm below the height 0 of the plan. */
  readonly depthsMm: readonly number[];
  /** Cells of a layer. */
  readonly plane: number;
  /** Length of every cell array, and the range that holds the grid. */
  readonly length: number;
  readonly first: number;
  readonly end: number;
  readonly metals: readonly MetalTable[];
  readonly metalProperties: readonly MetalProperties[];
  /** Index into `metals`. */
  readonly metalOf: Uint8Array;
  /** By place: index of the region painted last on it, −1 outside the part. */
  readonly regionOf: Int16Array;
  /** By place: thickness of the metal, mm; depth of its upper face. */
  readonly columnMm: Float64Array;
  readonly topDepthMm: Float64Array;
  /** By place: the cells its faces belong to, −1 outside the part. */
  readonly topCell: Int32Array;
  readonly bottomCell: Int32Array;
  /** Metal of each cell, mm: its layer's share of the thickness. */
  readonly thicknessMm: Float64Array;
  /** mm³; 1 outside the part, where it only keeps divisions safe. */
  readonly volume: Float64Array;
  /** Conductance at 20 °C to the neighbour on the right, above and in the next layer, W/K. */
  readonly faceRight: Float64Array;
  readonly faceUp: Float64Array;
  readonly faceDeep: Float64Array;
  readonly joins: JoinedCells;
  /** Area that loses heat to the air where no contact covers it, mm²: faces and rim. */
  readonly airArea: Float64Array;
  readonly contacts: readonly ContactCells[];
  /** Heat stored at the start, J per cell. */
  readonly initialHeat: Float64Array;
}
