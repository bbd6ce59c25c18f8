import type { Point } from './moments';

/**
 * A cross-section, mm. Its origin is the middle of its outside dimensions (of a channel: the outside of the web, at
 * half depth); x runs across the width, y up the depth.
 */
export type SectionShape =
  | { readonly kind: 'flat bar'; readonly widthMm: number; readonly thicknessMm: number }
  | { readonly kind: 'round tube'; readonly outsideMm: number; readonly wallMm: number }
  | {
      readonly kind: 'rectangular tube';
      readonly widthMm: number;
      readonly depthMm: number;
      readonly wallMm: number;
      /** Outside radius of the corners; 0, sharp, unless given. */
      readonly cornerMm?: number;
    }
  /** Flat-sided oval: two half circles joined by straight walls; the longer side is straight. For an ellipse draw the outline. */
  | {
      readonly kind: 'oval tube';
      readonly widthMm: number;
      readonly depthMm: number;
      readonly wallMm: number;
    }
  /** Depth over the flanges, flanges to the right; flanges as thick as the web unless given. */
  | {
      readonly kind: 'channel';
      readonly depthMm: number;
      readonly flangeMm: number;
      readonly wallMm: number;
      readonly flangeThicknessMm?: number;
    }
  /** Flat plates by their mid-lines, drawn to the face they meet. */
  | { readonly kind: 'plates'; readonly plates: readonly PlateOfSection[] }
  /** Any solid outline, counter-clockwise or not, with holes; `thicknessMm` is what the codes are asked with. */
  | {
      readonly kind: 'outline';
      readonly cornersMm: readonly Point[];
      readonly holesMm?: readonly (readonly Point[])[];
      readonly thicknessMm: number;
    };

/** One plate of a built-up section. */
export interface PlateOfSection {
  readonly fromMm: Point;
  readonly toMm: Point;
  readonly thicknessMm: number;
  readonly name?: string;
}

/** Thickness that sizing changes: the wall, the bar's, the thickest plate's. */
export function shapeThicknessMm(shape: SectionShape): number {
  switch (shape.kind) {
    case 'flat bar':
    case 'outline':
      return shape.thicknessMm;
    case 'channel':
      return Math.max(shape.wallMm, shape.flangeThicknessMm ?? 0);
    case 'plates':
      return Math.max(...shape.plates.map(({ thicknessMm }) => thicknessMm));
    default:
      return shape.wallMm;
  }
}

/**
 * The same section at another thickness: outside dimensions stay, several thicknesses keep their proportion. Null for
 * an outline, which has no one thickness to change.
 */
export function withThickness(shape: SectionShape, thicknessMm: number): SectionShape | null {
  const scale = thicknessMm / shapeThicknessMm(shape);
  switch (shape.kind) {
    case 'outline':
      return null;
    case 'flat bar':
      return { ...shape, thicknessMm };
    case 'channel':
      return {
        ...shape,
        wallMm: shape.wallMm * scale,
        ...(shape.flangeThicknessMm === undefined
          ? {}
          : { flangeThicknessMm: shape.flangeThicknessMm * scale }),
      };
    case 'plates':
      return {
        ...shape,
        plates: shape.plates.map((plate) => ({ ...plate, thicknessMm: plate.thicknessMm * scale })),
      };
    default:
      return { ...shape, wallMm: thicknessMm };
  }
}

/** Thickest wall the section has room for, just before it closes up, mm. */
export function roomMm(shape: SectionShape): number {
  switch (shape.kind) {
    case 'round tube':
      return 0.499 * shape.outsideMm;
    case 'rectangular tube':
      return Math.min(0.499 * shape.widthMm, 0.499 * shape.depthMm, shape.cornerMm || Infinity);
    case 'oval tube':
      return 0.499 * Math.min(shape.widthMm, shape.depthMm);
    case 'channel':
      return Math.min(0.499 * shape.depthMm, 0.999 * shape.flangeMm);
    default:
      return 200;
  }
}
