import type { PropertyTable } from '../../../alloy';

/** A point of the plan view, mm: x to the right, y up. */
export type PlanPoint = readonly [xMm: number, yMm: number];

/** An area of the plan view. A cell belongs to it when the cell's centre lies inside. */
export type PlanShape =
  | { readonly rectMm: readonly [x0Mm: number, y0Mm: number, x1Mm: number, y1Mm: number] }
  | { readonly circleMm: readonly [xMm: number, yMm: number, radiusMm: number] }
  | { readonly polygonMm: readonly PlanPoint[] };

/** A property that is one number, or a table over temperature: linear between points, held constant outside. */
export type PropertyValue = number | PropertyTable;

/** Thermal properties written into a plan instead of an alloy's designation. */
export interface MetalProperties {
  readonly densityKgPerM3: number;
  readonly conductivityWPerMK: PropertyValue;
  /** Without the latent heat. */
  readonly specificHeatJPerKgK: PropertyValue;
  /** Released evenly between liquidus and solidus; needs both, at least 1 K apart. */
  readonly latentHeatJPerKg?: number;
  /** Left out, no probe counts as molten however hot it gets; the notes of the result say so. */
  readonly solidusC?: number;
  readonly liquidusC?: number;
  /** Where the numbers come from; carried along, not read. */
  readonly source?: string;
}

/** One area of the part. Where regions overlap the later one in the list wins. */
export interface PartRegion {
  readonly name?: string;
  readonly shape: PlanShape;
  /** Metal thickness seen by the heat, 0.1 to 1000 mm; 0 cuts a hole. */
  readonly thicknessMm: number;
  /** What `loadAlloy` takes as a name, or the properties themselves. */
  readonly metal: string | MetalProperties;
}

/** Air on both faces and, unless insulated, on the rim and on the riser of every thickness step. */
export interface PlateSurface {
  readonly convectionWPerM2K: number;
  /** 0…1; bare aluminium about 0.1, oxidised 0.2, anodised 0.8. */
  readonly emissivity: number;
  readonly ambientC: number;
  /** Default 'exposed'. */
  readonly rim?: 'exposed' | 'insulated';
}

/** A clamp, chill or table pressed on the part over an area; the covered face no longer loses to air. */
export interface PlateContact {
  readonly name?: string;
  readonly shape: PlanShape;
  readonly conductanceWPerM2K: number;
  /** Temperature of the body, °C; its starting temperature when `bodyHeatJPerK` is given. */
  readonly bodyC: number;
  /** Heat capacity of the body, J/K. Left out, the body keeps its temperature. */
  readonly bodyHeatJPerK?: number;
  /** Faces it touches; default 1. */
  readonly faces?: 1 | 2;
}

/**
 * Footprint of the arc, mm, where the flux has fallen to 5 % of its peak (95 % of the heat falls inside).
 * One number is a round source; three make the double-ended one: a half ellipse ahead of the arc, another behind.
 */
export type SourceRadius =
  | number
  | { readonly acrossMm: number; readonly aheadMm: number; readonly behindMm: number };

/** One weld pass. */
export interface PlatePass {
  readonly name?: string;
  /** The arc runs along these points in straight lines at constant speed. */
  readonly path: readonly PlanPoint[];
  readonly travelMmPerS: number;
  /** Heat that enters the part, W: process efficiency × volts × amps. */
  readonly netPowerW: number;
  readonly sourceRadiusMm: SourceRadius;
  /**
   * When the arc is struck, counted from the end of the pass before (or from the start): after `waitS`, and,
   * where `interpassC` is given, once the probe `atProbe` reads that or less and no longer rises.
   */
  readonly startAfter?: { readonly waitS?: number; readonly interpassC?: number; readonly atProbe?: string };
}

/** Where a temperature is asked for, mm; read between cell centres. */
export interface PlateProbe {
  readonly name: string;
  readonly xMm: number;
  readonly yMm: number;
}

/**
 * A job for `solvePlate`: the part seen from above, its surroundings and the passes. Plain data, so that a
 * record can hold it as JSON.
 */
export interface PlatePlan {
  /** What the plan is and where its numbers come from; carried along, not read. */
  readonly about?: string;
  /** Edge of the square cells, mm. */
  readonly cellMm: number;
  readonly part: readonly PartRegion[];
  readonly surface: PlateSurface;
  readonly contacts?: readonly PlateContact[];
  /** Start temperature, °C; `preheat` sets areas to another one (the later wins). */
  readonly initialC: number;
  readonly preheat?: readonly { readonly shape: PlanShape; readonly tempC: number }[];
  readonly passes: readonly PlatePass[];
  readonly probes: readonly PlateProbe[];
  /** When to stop: so long after the last arc goes out, or when the hottest metal is down to a temperature. */
  readonly until: { readonly coolForS: number } | { readonly coolToC: number };
}
