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
  /** Number of the wall in the section. */
  readonly at: number;
  /** Share of the thickness that counts under compression: 1 up to class 3; null where no value is known here. */
  readonly effectiveShare: number | null;
  /** Why it is null. */
  readonly why: string | null;
}

/** A wall that buckles before it yields, with no reduced thickness known to count with. */
export const isSlender = (wall: LocalClass): boolean => wall.class === 4 && wall.effectiveShare === null;

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
 * round tube from memory; a later edition may differ. Class 4 buckles before it yields.
 * An internal wall of class 4, unwelded and of class A, counts with thickness ρ t, ρ = 32/x − 220/x², x = β/ε (same
 * lecture, example 8.2 b); for bending of a web the lecture takes 0.4 β, here the whole: on the safe side.
 * A flat bar alone has no supported edge and is no matter of this table; an outline has no walls. For 6061-T6,
 * f_o 240, an internal wall, welded, is of class 3 up to b/t = 18.4.
 */
export function localClasses(
  shape: SectionShape,
  body: SectionBody,
  metal: {
    readonly proofMPa: number;
    readonly bucklingClass: 'A' | 'B';
    readonly welded: boolean;
    /** Whether the code asked is the one the reduced thickness belongs to, and the metal wrought. */
    readonly reduces: boolean;
  },
): LocalClass[] {
  if (shape.kind === 'flat bar' || shape.kind === 'outline') return [];
  const epsilon = Math.sqrt(250 / metal.proofMPa);
  const limits = LIMITS[metal.bucklingClass][metal.welded ? 'welded' : 'unwelded'];
  return body.walls
    .map((w, at) => ({ w, at }))
    .filter(({ w }) => w.name !== 'corner')
    .map(({ w, at: number }) => {
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
      const why = at < 0 ? whyNotReduced(kind, metal) : null;
      return {
        wall: w.name,
        at: number,
        kind,
        slenderness,
        limits: own,
        class: (at < 0 ? 4 : at + 1) as LocalClass['class'],
        effectiveShare: at >= 0 ? 1 : why === null ? reducedShare(slenderness / epsilon) : null,
        why,
      };
    });
}

/** ρ = 32/x − 220/x² with x = β/ε, for internal walls of class A without welds; 1 at x = 22. */
const reducedShare = (x: number): number => 32 / x - 220 / x ** 2;

function whyNotReduced(
  kind: LocalClass['kind'],
  { bucklingClass, welded, reduces }: Parameters<typeof localClasses>[2],
): string | null {
  if (!reduces) return 'reduced thickness is known here for wrought metal by EN 1999-1-1 only';
  if (welded) return 'the reduced thickness of a welded wall has other constants, which are not known here';
  if (kind === 'outstand') return 'the reduced thickness of an outstand is not known here';
  if (kind === 'round') return 'the reduced thickness of a round wall is not known here';
  if (bucklingClass !== 'A') return 'the reduced thickness of class B metal is not known here';
  return null;
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
