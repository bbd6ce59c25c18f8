import type { SectionBody } from './sectionBody';
import type { SectionShape } from './sectionShape';
import { lengthOf, type Wall } from './wall';

/** One wall under compression and its class by EN 1999-1-1 cl. 6.1.4. */
export interface LocalClass {
  readonly wall: string;
  readonly kind: 'internal' | 'outstand' | 'round';
  /** b/t, or 3 √(D/t) of a round tube. */
  readonly slenderness: number;
  /** Upper limits of classes 1, 2 and 3. */
  readonly limits: readonly [number, number, number];
  readonly class: 1 | 2 | 3 | 4;
}

/** Limits over ε, by buckling class of the metal and whether the part is welded. */
const LIMITS = {
  A: {
    unwelded: { internal: [11, 16, 22], outstand: [3, 4.5, 6] },
    welded: { internal: [9, 13, 18], outstand: [2.5, 4, 5] },
  },
  B: {
    unwelded: { internal: [13, 16.5, 18], outstand: [3.5, 4.5, 5] },
    welded: { internal: [10, 13.5, 15], outstand: [3, 3.5, 4] },
  },
} as const;

/**
 * Class of every wall if it is compressed: β = b/t (round tube 3 √(D/t)) against limits times ε = √(250/f_o).
 * Limits of unwelded class A seen in TALAT lecture 2301 (1999, draft stage of the code); welded ones, class B and the
 * round tube from memory; a later edition may differ. Class 4 buckles before it yields: no strength here holds then.
 * A flat bar alone has no supported edge and is no matter of this table; an outline has no walls. For 6061-T6,
 * f_o 240, an internal wall, welded, is of class 3 up to b/t = 18.4.
 */
export function localClasses(
  shape: SectionShape,
  body: SectionBody,
  metal: { readonly proofMPa: number; readonly bucklingClass: 'A' | 'B'; readonly welded: boolean },
): LocalClass[] {
  if (shape.kind === 'flat bar' || shape.kind === 'outline') return [];
  const epsilon = Math.sqrt(250 / metal.proofMPa);
  const limits = LIMITS[metal.bucklingClass][metal.welded ? 'welded' : 'unwelded'];
  return body.walls
    .filter((w) => w.name !== 'corner')
    .map((w) => {
      const kind = kindOf(w);
      const t = w.thicknessMm;
      const slenderness =
        w.kind === 'arc' ? 3 * Math.sqrt((2 * w.radiusMm + t) / t) : clearWidth(shape, w) / t;
      const own = limits[kind === 'outstand' ? 'outstand' : 'internal'].map((limit) => limit * epsilon) as [
        number,
        number,
        number,
      ];
      const at = own.findIndex((limit) => slenderness <= limit);
      return {
        wall: w.name,
        kind,
        slenderness,
        limits: own,
        class: (at < 0 ? 4 : at + 1) as LocalClass['class'],
      };
    });
}

function kindOf(wall: Wall): LocalClass['kind'] {
  if (wall.kind === 'arc') return 'round';
  return wall.free.from || wall.free.to ? 'outstand' : 'internal';
}

/** Flat width between neighbours: flanges of a sharp tube and of a channel are drawn over the web's thickness. */
function clearWidth(shape: SectionShape, wall: Wall): number {
  const length = lengthOf(wall);
  if (shape.kind === 'channel' && wall.name !== 'web') return length - shape.wallMm;
  if (shape.kind === 'rectangular tube' && !shape.cornerMm && /lower|upper/.test(wall.name))
    return length - 2 * shape.wallMm;
  return length;
}
