import type { PropertyTable } from '../../../alloy';
import type { WeldProcess } from '../../arcEfficiency';

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
  /** Height of its upper face, mm; default 0, so that all upper faces are flush. */
  readonly topMm?: number;
}

/** A face of the part: 'top' is the one the plan is seen from. */
export type PlateFace = 'top' | 'bottom';

/** A straight line of the plan, mm. */
export type PlanLine = readonly [from: PlanPoint, to: PlanPoint];

/**
 * Metal that goes on somewhere else in the plan. An edge joined to another edge makes a tube of a flat strip, or a
 * corner; an edge joined onto a face makes a T, a lug, an arm drawn beside the rest. The first point of one line
 * meets the first of the other.
 */
export type PlateJoin = {
  readonly name?: string;
  /** A straight edge of the part. */
  readonly edgeMm: PlanLine;
} & (
  | { readonly toEdgeMm: PlanLine; readonly ontoMm?: never; readonly face?: never }
  /** The line on the face where the middle of the edge stands; `face` by default 'top'. */
  | { readonly ontoMm: PlanLine; readonly face?: PlateFace; readonly toEdgeMm?: never }
);

/** A moment of the job: so long after its start, or after a pass began or ended. */
export type PlanMoment =
  | { readonly atS: number; readonly pass?: never }
  | {
      readonly pass: string;
      readonly when: 'start' | 'end';
      readonly afterS?: number;
      readonly atS?: never;
    };

/** From a moment on the air is another: a fan put on, a hood taken off, a colder room. */
export interface AirChange {
  readonly from: PlanMoment;
  readonly convectionWPerM2K?: number;
  readonly ambientC?: number;
}

/** A value that changes along a path: straight lines between points, held constant outside. */
export interface AlongPath {
  /** Way from the start of the pass, mm; ascending. */
  readonly atMm: readonly number[];
  readonly value: readonly number[];
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
  /** The face it touches when it is one; default 'bottom'. Of no account where the part has one layer. */
  readonly face?: PlateFace;
  /** When it is put on; default from the start. A body out of touch keeps its temperature. */
  readonly putOn?: PlanMoment;
  /** When it is taken off; default never. */
  readonly takenOff?: PlanMoment;
}

/**
 * Footprint of the arc, mm, where the flux has fallen to 5 % of its peak (95 % of the heat falls inside).
 * One number is a round source; three make the double-ended one: a half ellipse ahead of the arc, another behind.
 */
export type SourceRadius =
  | number
  | { readonly acrossMm: number; readonly aheadMm: number; readonly behindMm: number };

/**
 * One weld pass, a tack, or a torch that preheats. Heat: `netPowerW`, or `amps`, `volts` and `process`. Pace: one of
 * `travelMmPerS`, `travelMmPerMin` and `arcOnS`; where the path is a single point, `arcOnS`.
 */
export interface PlatePass {
  readonly name?: string;
  /** The arc runs along these points in straight lines at constant speed; one point: it dwells there. */
  readonly path: readonly PlanPoint[];
  readonly travelMmPerS?: number;
  readonly travelMmPerMin?: number;
  /** How long the arc burns, s. */
  readonly arcOnS?: number;
  /** Heat that enters the part, W: process efficiency × volts × amps. */
  readonly netPowerW?: number | AlongPath;
  readonly amps?: number | AlongPath;
  readonly volts?: number;
  readonly process?: WeldProcess;
  /** Share of the arc's power that enters the part; default the nominal one of the process. */
  readonly efficiency?: number;
  /** The face the heat enters; default 'top'. */
  readonly face?: PlateFace;
  /** A second path that takes a share of the heat at the same time: the other leg of a fillet. */
  readonly beside?: { readonly path: readonly PlanPoint[]; readonly share: number };
  /** Cross-section of the filler metal added, mm². It arrives at the temperature of the air and takes heat to warm. */
  readonly fillerMm2?: number;
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
  /** The face it sits on; default 'top'. */
  readonly face?: PlateFace;
  /** Below the upper face there, mm, instead of a face: a drilled probe. */
  readonly depthMm?: number;
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
  /**
   * Layers through the thickness, 1 to 32. Default 'auto': one where the part is thin and even, two to four where
   * thickness steps, where heat enters a thick part, or where upper faces differ in height.
   */
  readonly layers?: number | 'auto';
  readonly joins?: readonly PlateJoin[];
  readonly surface: PlateSurface;
  readonly airChanges?: readonly AirChange[];
  readonly contacts?: readonly PlateContact[];
  /** Start temperature, °C; `preheat` sets areas to another one (the later wins). */
  readonly initialC: number;
  readonly preheat?: readonly { readonly shape: PlanShape; readonly tempC: number }[];
  readonly passes: readonly PlatePass[];
  readonly probes: readonly PlateProbe[];
  /** When to stop: so long after the last arc goes out, or when the hottest metal is down to a temperature. */
  readonly until: { readonly coolForS: number } | { readonly coolToC: number };
}
