import type { PlateGrid } from '../outcome/plateResult';
import type { MetalProperties, PlanShape, PlatePlan } from '../plan/platePlan';
import { boundsOf, isInside } from '../plan/shape';
import { type MetalTable, metalTable } from './metalTable';

/** A clamp or chill as the solver sees it: the cells it covers and how well it takes heat from each, W/K. */
export interface ContactCells {
  readonly cells: Int32Array;
  readonly wattsPerK: number;
  readonly bodyC: number;
  readonly bodyHeatJPerK: number;
}

/**
 * A plan cut into cells. Arrays hold one guard row below and above the grid, so that a cell's four neighbours
 * can be read without asking where the edge is: cell (column, row) sits at `(row + 1) * columns + column`. A
 * face between two cells that does not conduct has factor 0.
 */
export interface PlateModel {
  readonly grid: PlateGrid;
  /** Length of every cell array, and the range that holds the grid. */
  readonly length: number;
  readonly first: number;
  readonly end: number;
  readonly metals: readonly MetalTable[];
  readonly metalProperties: readonly MetalProperties[];
  /** Index into `metals`. */
  readonly metalOf: Uint8Array;
  /** Index of the region painted last on the cell, −1 outside the part. */
  readonly regionOf: Int16Array;
  readonly thicknessMm: Float64Array;
  /** mm³; 1 outside the part, where it only keeps divisions safe. */
  readonly volume: Float64Array;
  /** Conductance at 20 °C to the neighbour on the right and above, W/K. */
  readonly faceRight: Float64Array;
  readonly faceUp: Float64Array;
  /** Area that loses heat to the air, mm²: faces not covered by a contact, plus rim. */
  readonly airArea: Float64Array;
  readonly contacts: readonly ContactCells[];
  /** Heat stored at the start, J per cell. */
  readonly initialHeat: Float64Array;
}

/** Cuts a checked plan into cells. `metalsOf` holds each region's properties, in the plan's order. */
export function plateModel(plan: PlatePlan, metalsOf: readonly MetalProperties[]): PlateModel {
  const { cellMm } = plan;
  const bounds = plan.part.filter((region) => region.thicknessMm > 0).map((region) => boundsOf(region.shape));
  const x0 = Math.min(...bounds.map((b) => b[0]));
  const y0 = Math.min(...bounds.map((b) => b[1]));
  const cellsAcross = (span: number) => Math.max(1, Math.ceil(span / cellMm - 1e-9));
  const columns = cellsAcross(Math.max(...bounds.map((b) => b[2])) - x0);
  const rows = cellsAcross(Math.max(...bounds.map((b) => b[3])) - y0);
  const first = columns;
  const end = first + columns * rows;
  const length = end + columns;

  const metalProperties = [...new Map(metalsOf.map((metal) => [JSON.stringify(metal), metal])).values()];
  const metalIndex = metalsOf.map((metal) =>
    metalProperties.findIndex((other) => JSON.stringify(other) === JSON.stringify(metal)),
  );
  const metals = metalProperties.map(metalTable);

  const inPart = new Uint8Array(columns * rows);
  const grid: PlateGrid = { columns, rows, cellMm, originMm: [x0, y0], inPart };
  const regionOf = new Int16Array(length).fill(-1);
  const thicknessMm = new Float64Array(length);
  const metalOf = new Uint8Array(length);
  const volume = new Float64Array(length).fill(1);
  const initialHeat = new Float64Array(length);
  for (let cell = first; cell < end; cell++) {
    const [x, y] = centreOf({ grid, first }, cell);
    const region = lastAt(plan.part, x, y);
    const thickness = plan.part[region]?.thicknessMm ?? 0;
    if (thickness === 0) continue;
    regionOf[cell] = region;
    inPart[cell - first] = 1;
    thicknessMm[cell] = thickness;
    metalOf[cell] = metalIndex[region]!;
    volume[cell] = thickness * cellMm * cellMm;
    const startC = plan.preheat?.[lastAt(plan.preheat, x, y)]?.tempC ?? plan.initialC;
    initialHeat[cell] = metals[metalOf[cell]!]!.heatAt(startC) * volume[cell]!;
  }
  const conductance = (a: number, b: number): number => {
    const ka = metals[metalOf[a]!]!.conductivity * thicknessMm[a]!;
    const kb = metals[metalOf[b]!]!.conductivity * thicknessMm[b]!;
    return ka > 0 && kb > 0 ? (2 * ka * kb) / (ka + kb) : 0;
  };
  const faceRight = new Float64Array(length);
  const faceUp = new Float64Array(length);
  const airArea = new Float64Array(length);
  for (let cell = first; cell < end; cell++) {
    if (thicknessMm[cell] === 0) continue;
    const column = (cell - first) % columns;
    if (column < columns - 1) faceRight[cell] = conductance(cell, cell + 1);
    if (cell + columns < end) faceUp[cell] = conductance(cell, cell + columns);
    airArea[cell] = 2 * cellMm * cellMm;
    if (plan.surface.rim === 'insulated') continue;
    const neighbours = [
      column > 0 ? thicknessMm[cell - 1]! : 0,
      column < columns - 1 ? thicknessMm[cell + 1]! : 0,
      thicknessMm[cell - columns]!,
      thicknessMm[cell + columns]!,
    ];
    for (const other of neighbours) airArea[cell]! += cellMm * Math.max(0, thicknessMm[cell]! - other);
  }
  const contacts = (plan.contacts ?? []).map((contact): ContactCells => {
    const cells = Int32Array.from(
      Array.from({ length: end - first }, (_, i) => first + i).filter(
        (cell) => thicknessMm[cell]! > 0 && isInside(contact.shape, ...centreOf({ grid, first }, cell)),
      ),
    );
    const faces = contact.faces ?? 1;
    for (const cell of cells) airArea[cell] = Math.max(0, airArea[cell]! - faces * cellMm * cellMm);
    return {
      cells,
      wattsPerK: contact.conductanceWPerM2K * 1e-6 * faces * cellMm * cellMm,
      bodyC: contact.bodyC,
      bodyHeatJPerK: contact.bodyHeatJPerK ?? Number.POSITIVE_INFINITY,
    };
  });
  return {
    grid,
    length,
    first,
    end,
    metals,
    metalProperties,
    metalOf,
    regionOf,
    thicknessMm,
    volume,
    faceRight,
    faceUp,
    airArea,
    contacts,
    initialHeat,
  };
}

/** Index of the last item of a list whose shape covers a point, −1 for none. */
export function lastAt(items: readonly { readonly shape: PlanShape }[], xMm: number, yMm: number): number {
  for (let i = items.length - 1; i >= 0; i--) if (isInside(items[i]!.shape, xMm, yMm)) return i;
  return -1;
}

/** Mass of the part, kg. */
export function massKg({ thicknessMm, grid, metalOf, metalProperties }: PlateModel): number {
  let mass = 0;
  for (let cell = 0; cell < thicknessMm.length; cell++)
    mass += thicknessMm[cell]! * metalProperties[metalOf[cell]!]!.densityKgPerM3;
  return mass * grid.cellMm ** 2 * 1e-9;
}

/** Centre of a cell, mm. */
export function centreOf(
  { grid, first }: Pick<PlateModel, 'grid' | 'first'>,
  cell: number,
): [number, number] {
  const { columns, cellMm, originMm } = grid;
  return [
    originMm[0] + (((cell - first) % columns) + 0.5) * cellMm,
    originMm[1] + (Math.floor((cell - first) / columns) + 0.5) * cellMm,
  ];
}

/** The cell that holds a point, or −1 where there is no metal. */
export function cellAt({ grid, first, thicknessMm }: PlateModel, xMm: number, yMm: number): number {
  const column = Math.floor((xMm - grid.originMm[0]) / grid.cellMm);
  const row = Math.floor((yMm - grid.originMm[1]) / grid.cellMm);
  if (column < 0 || column >= grid.columns || row < 0 || row >= grid.rows) return -1;
  const cell = first + row * grid.columns + column;
  return thicknessMm[cell]! > 0 ? cell : -1;
}
