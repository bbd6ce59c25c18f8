import type { CastBy } from './codes/castingStrength';
import type { CodeProcess } from './codes/codeProcess';
import type { ProductForm } from './codes/productForm';
import type { SectionShape } from './shape/sectionShape';
import type { WeldLine } from './shape/softMetal';

/** A weld in a section. */
export type SectionWeld = WeldLine & {
  readonly joint: 'butt' | 'fillet';
  /** Thickness of every part that leads heat away; as many of the section's own as the joint has unless given. */
  readonly heatPathsMm?: readonly number[];
  /**
   * Throat of a fillet, mm: needed for one that lies across; with it a fillet along the member, between plates of the
   * section, is checked for shear flow.
   */
  readonly throatMm?: number;
};

/** Whether the weld's own metal passes on load of the section. */
export const carriesLoad = ({ lies, joint, throatMm }: SectionWeld): boolean =>
  lies === 'across' ||
  (lies === 'part-way' ? joint === 'butt' : joint === 'fillet' && throatMm !== undefined);

/** A section with its welds. */
export interface WeldedSection {
  readonly shape: SectionShape;
  /** How wrought metal was made; without it the careful 'profile' is read. */
  readonly form?: ProductForm;
  /** How a casting was made; must be given for one. */
  readonly castBy?: CastBy;
  readonly welds: readonly SectionWeld[];
}

/** Whose rules and strengths are asked. */
export type SectionCode =
  | 'EN 1999-1-1'
  | 'Aluminum Design Manual'
  /** Allowable stresses of structural castings in supports for highway signs. */
  | 'AASHTO LTS'
  /** Yield kept by distance from a model of the soft zone. */
  | 'soft-zone profile'
  /** Strengths from one's own coupons. */
  | 'own tests';

/** What a factor is counted on: yield, rupture, or a code's allowable stress. */
export type Basis = 'yield' | 'rupture' | 'allowable';

/** Yield kept at a distance from the weld, as `softZone` gives it. */
export interface KeptAtDistance {
  readonly distanceMm: number;
  readonly keptFraction: { readonly nominal: number; readonly low: number; readonly high: number };
}

/** Characteristic strengths from one's own tests, MPa: low values that hold for the lot, not typical ones. */
export interface OwnStrengths {
  readonly proofMPa: number;
  readonly ultimateMPa: number;
  readonly softProofMPa: number;
  readonly softUltimateMPa: number;
  /** Extent of the soft zone from a hardness traverse, mm. */
  readonly extentMm: number;
  /** Weld metal in tension; without it no check of the weld metal is made, and the answer says so. */
  readonly weldMetalMPa?: number;
  /** What was tested, one sentence. */
  readonly because: string;
}

/** How a welded section is judged. */
export interface ResistanceOptions {
  /** The alloy, or alloy and temper in one word: '6061-T6'. */
  readonly alloy: string;
  readonly temper?: string;
  readonly process: CodeProcess;
  /** '4043', 'ER5356'; the weakest the code holds unless named. */
  readonly filler?: string;
  readonly code: SectionCode;
  /** Highest temperature of the part when a pass starts, °C; 60 unless given. */
  readonly interpassC?: number;
  /** Extent of the soft zone measured by hardness, mm, in place of the code's. */
  readonly extentMm?: number;
  /** For 'soft-zone profile'. */
  readonly profile?: readonly KeptAtDistance[];
  /** For 'own tests'. */
  readonly own?: OwnStrengths;
  /** Divides a casting's strengths, 1 or more: what the drawing or the code asks for its inspection class. */
  readonly castingFactor?: number;
}
