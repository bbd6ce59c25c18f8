import type { PlateGrid } from '../outcome/plateResult';
import type { MetalProperties, PlateFace, PlatePlan } from '../plan/platePlan';
import { boundsOf, isInside } from '../plan/shape';
import { centreOf, lastAt } from './gridPlaces';
import { joinCells } from './joinCells';
import { layerDepthsMm, topDepthMm } from './layers';
import { metalTable } from './metalTable';
import type { ContactCells, PlateModel } from './plateCells';

/** Cuts a checked plan into cells. `metalsOf` holds each region's properties, in the plan's order. */
export function plateModel(plan: PlatePlan, metalsOf: readonly MetalProperties[]): PlateModel {
  const { cellMm } = plan;
  const bounds = plan.part.filter((region) => region.thicknessMm > 0).map((region) => boundsOf(region.shape));
  const x0 = Math.min(...bounds.map((b) => b[0]));
  const y0 = Math.min(...bounds.map((b) => b[1]));
  const cellsAcross = (span: number) => Math.max(1, Math.ceil(span / cellMm - 1e-9));
  const columns = cellsAcross(Math.max(...bounds.map((b) => b[2])) - x0);
  const rows = cellsAcross(Math.max(...bounds.map((b) => b[3])) - y0);
  const plane = columns * rows;
  const inPart = new Uint8Array(plane);
  const grid: PlateGrid = { columns, rows, cellMm, originMm: [x0, y0], inPart };

  const regionOf = Int16Array.from(inPart, (_, place) => {
    const region = lastAt(plan.part, ...centreOf({ grid }, place));
    return (plan.part[region]?.thicknessMm ?? 0) > 0 ? region : -1;
  });
  const seen = plan.part.filter((region, i) => region.thicknessMm > 0 && regionOf.includes(i));
  const depthsMm = layerDepthsMm(plan, seen.length > 0 ? seen : plan.part.filter((r) => r.thicknessMm > 0));
  const layers = depthsMm.length - 1;
  const first = layers > 1 ? plane : columns;
  const end = first + layers * plane;
  const length = end + first;

  const metalProperties = [...new Map(metalsOf.map((metal) => [JSON.stringify(metal), metal])).values()];
  const metalIndex = metalsOf.map((metal) =>
    metalProperties.findIndex((other) => JSON.stringify(other) === JSON.stringify(metal)),
  );
  const metals = metalProperties.map(metalTable);

  const columnMm = new Float64Array(plane);
  const topDepth = new Float64Array(plane);
  const topCell = new Int32Array(plane).fill(-1);
  const bottomCell = new Int32Array(plane).fill(-1);
  const thicknessMm = new Float64Array(length);
  const metalOf = new Uint8Array(length);
  const volume = new Float64Array(length).fill(1);
  const initialHeat = new Float64Array(length);
  const airArea = new Float64Array(length);
  for (let place = 0; place < plane; place++) {
    const region = plan.part[regionOf[place]!];
    if (!region) continue;
    inPart[place] = 1;
    columnMm[place] = region.thicknessMm;
    topDepth[place] = topDepthMm(region);
    const [x, y] = centreOf({ grid }, place);
    const startC = plan.preheat?.[lastAt(plan.preheat, x, y)]?.tempC ?? plan.initialC;
    for (let layer = 0; layer < layers; layer++) {
      const cell = first + layer * plane + place;
      const high = Math.max(depthsMm[layer]!, topDepth[place]!);
      const low = Math.min(depthsMm[layer + 1]!, topDepth[place]! + region.thicknessMm);
      // A sliver that rounding leaves is no cell.
      if (low - high < 1e-6) continue;
      thicknessMm[cell] = low - high;
      metalOf[cell] = metalIndex[regionOf[place]!]!;
      volume[cell] = thicknessMm[cell]! * cellMm * cellMm;
      initialHeat[cell] = metals[metalOf[cell]!]!.heatAt(startC) * volume[cell]!;
      if (topCell[place]! < 0) topCell[place] = cell;
      bottomCell[place] = cell;
    }
    airArea[topCell[place]!]! += cellMm * cellMm;
    airArea[bottomCell[place]!]! += cellMm * cellMm;
  }
  const conductivity = (cell: number) => metals[metalOf[cell]!]!.conductivity;
  // With one layer it holds every height: two regions touch where their own heights overlap.
  const touch = (a: number, b: number): boolean =>
    layers > 1 ||
    Math.min(topDepth[a]! + columnMm[a]!, topDepth[b]! + columnMm[b]!) -
      Math.max(topDepth[a]!, topDepth[b]!) >
      1e-6;
  const sideways = (a: number, b: number): number => {
    const ka = conductivity(a) * thicknessMm[a]!;
    const kb = conductivity(b) * thicknessMm[b]!;
    return ka > 0 && kb > 0 && touch((a - first) % plane, (b - first) % plane)
      ? (2 * ka * kb) / (ka + kb)
      : 0;
  };
  const downwards = (a: number, b: number): number => {
    const halves = (thicknessMm[a]! + thicknessMm[b]!) / 2;
    return thicknessMm[a]! > 0 && thicknessMm[b]! > 0 ? (conductivity(a) * cellMm * cellMm) / halves : 0;
  };
  const faceRight = new Float64Array(length);
  const faceUp = new Float64Array(length);
  const faceDeep = new Float64Array(length);
  for (let cell = first; cell < end; cell++) {
    if (thicknessMm[cell] === 0) continue;
    const place = (cell - first) % plane;
    const [column, row] = [place % columns, Math.floor(place / columns)];
    if (column < columns - 1) faceRight[cell] = sideways(cell, cell + 1);
    if (row < rows - 1) faceUp[cell] = sideways(cell, cell + columns);
    if (cell + plane < end) faceDeep[cell] = downwards(cell, cell + plane);
    if (plan.surface.rim === 'insulated') continue;
    const neighbours = [
      column > 0 ? thicknessMm[cell - 1]! : 0,
      column < columns - 1 ? thicknessMm[cell + 1]! : 0,
      row > 0 ? thicknessMm[cell - columns]! : 0,
      row < rows - 1 ? thicknessMm[cell + columns]! : 0,
    ];
    for (const other of neighbours) airArea[cell]! += cellMm * Math.max(0, thicknessMm[cell]! - other);
  }
  const laid = { grid, first, plane, layers, thicknessMm, columnMm, topCell, bottomCell, conductivity };
  const joins = joinCells(plan.joins ?? [], laid);
  if (plan.surface.rim !== 'insulated')
    for (const { cell, mm2 } of joins.coveredRim) airArea[cell] = Math.max(0, airArea[cell]! - mm2);
  for (const { cell, mm2 } of joins.coveredFace) airArea[cell] = Math.max(0, airArea[cell]! - mm2);

  const contacts = (plan.contacts ?? []).map((contact): ContactCells => {
    const faces: readonly PlateFace[] = contact.faces === 2 ? ['top', 'bottom'] : [contact.face ?? 'bottom'];
    const cells = Int32Array.from(
      faces.flatMap((face) =>
        [...(face === 'top' ? topCell : bottomCell)].filter(
          (cell, place) => cell >= 0 && isInside(contact.shape, ...centreOf({ grid }, place)),
        ),
      ),
    );
    const film = contact.conductanceWPerM2K * 1e-6;
    return {
      cells,
      wattsPerK: Float64Array.from(cells, (cell) => {
        // In layers heat has half a cell to go before it is at the face; plan view takes the metal as even.
        const half = layers > 1 ? thicknessMm[cell]! / 2 / conductivity(cell) : 0;
        return film > 0 ? (cellMm * cellMm) / (1 / film + half) : 0;
      }),
      coveredMm2: cellMm * cellMm,
      bodyC: contact.bodyC,
      bodyHeatJPerK: contact.bodyHeatJPerK ?? Number.POSITIVE_INFINITY,
      ...(contact.putOn ? { putOn: contact.putOn } : {}),
      ...(contact.takenOff ? { takenOff: contact.takenOff } : {}),
    };
  });
  return {
    grid,
    layers,
    depthsMm,
    plane,
    length,
    first,
    end,
    metals,
    metalProperties,
    metalOf,
    regionOf,
    columnMm,
    topDepthMm: topDepth,
    topCell,
    bottomCell,
    thicknessMm,
    volume,
    faceRight,
    faceUp,
    faceDeep,
    joins,
    airArea,
    contacts,
    initialHeat,
  };
}

/** Mass of the part, kg. */
export function massKg({ thicknessMm, grid, metalOf, metalProperties }: PlateModel): number {
  let mass = 0;
  for (let cell = 0; cell < thicknessMm.length; cell++)
    mass += thicknessMm[cell]! * metalProperties[metalOf[cell]!]!.densityKgPerM3;
  return mass * grid.cellMm ** 2 * 1e-9;
}
