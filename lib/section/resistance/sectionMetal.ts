import { type HowKnown, MM_PER_INCH, requireNumber, TemperbookError } from '../../quantity';
import { alloySeries } from '../codes/alloySeries';
import { castingAllowable } from '../codes/castingAllowable';
import { castingStrength } from '../codes/castingStrength';
import { type CodeAnswer, unsupported } from '../codes/codeAnswer';
import { hazKnockDown } from '../codes/hazKnockDown';
import { usStrength } from '../codes/usStrength';
import { filletShearUs, weldMetal } from '../codes/weldMetal';
import { profileMetal } from './profileMetal';
import type { Basis, ResistanceOptions, WeldedSection } from './weldedSection';

/** Metal within a distance of a weld and the shares of strength it keeps. Null distance: the weld's code extent. */
export interface SoftBand {
  readonly withinMm: number | null;
  readonly proofKept: number;
  readonly ultimateKept: number;
}

/** Strength on one basis, MPa. */
export interface BasisStrength {
  readonly on: Basis;
  readonly parentMPa: number;
  /** Of metal beside a weld that lies across, as printed. */
  readonly softMPa: number;
  readonly shearParentMPa: number;
  readonly shearSoftMPa: number;
  /** Divides the strength where a code's own factors are asked. */
  readonly codeFactor: number;
}

/** All that the checks of a section need to know of its metal. */
export interface SectionMetal {
  readonly strengths: readonly BasisStrength[];
  /** From the weld outward; metal beyond the last keeps all. */
  readonly bands: readonly SoftBand[];
  readonly weld: {
    readonly tensionMPa: number;
    readonly shearMPa: number;
    readonly codeFactor: number;
  } | null;
  /** 'von Mises': √(σ² + 3τ²); 'additive': σ/F + (τ/F_s)². */
  readonly combine: 'von Mises' | 'additive';
  readonly extentMm: number | null;
  readonly bucklingClass: 'A' | 'B';
  readonly holdsAfterDays: number | null;
  readonly known: HowKnown;
  readonly fromMemory: readonly string[];
}

/** Recommended partial factors of EN 1999-1-1: 1.10 and 1.25 seen in TALAT 2301, the weld's 1.25 from memory. */
const GAMMA = { yield: 1.1, rupture: 1.25, weld: 1.25 };
/** Safety factors of the Aluminum Design Manual for buildings, allowable strength design; memory. */
const OMEGA = { yield: 1.65, rupture: 1.95 };
/** Shear yield and rupture over tension in the manual; memory. */
const US_SHEAR = 0.6;
/** No aluminium alloy for structures is stronger than this, MPa: a larger number is ksi read as MPa or the like. */
const STRONGEST_MPA = 700;

/** Strengths of a section's metal at a thickness by the code asked. */
export function sectionMetal(
  section: WeldedSection,
  options: ResistanceOptions,
  thicknessMm: number,
): CodeAnswer<SectionMetal> {
  const casting = alloySeries(options.alloy) === 'casting';
  switch (options.code) {
    case 'EN 1999-1-1':
      return casting ? castPart(section, options) : europeanWrought(section, options, thicknessMm);
    case 'Aluminum Design Manual':
      return casting ? castPart(section, options) : american(section, options, thicknessMm);
    case 'AASHTO LTS':
      return casting
        ? highwayCasting(section, options)
        : unsupported(
            'The table of AASHTO LTS known here is for castings.',
            'Ask the Aluminum Design Manual or EN 1999-1-1',
          );
    case 'soft-zone profile':
      return profileMetal(section, options, parentOf(section, options, thicknessMm));
    case 'own tests':
      return ownTests(options);
    default:
      throw new TemperbookError('The kit knows no such code', {
        found: String(options.code),
        expected: 'EN 1999-1-1, Aluminum Design Manual, AASHTO LTS, soft-zone profile or own tests',
      });
  }
}

const vonMises = (parentMPa: number, softMPa: number) => ({
  parentMPa,
  softMPa,
  shearParentMPa: parentMPa / Math.sqrt(3),
  shearSoftMPa: softMPa / Math.sqrt(3),
});

function europeanWrought(
  section: WeldedSection,
  options: ResistanceOptions,
  thicknessMm: number,
): CodeAnswer<SectionMetal> {
  const { alloy, temper, process, filler } = options;
  const form = section.form ?? 'profile';
  const soft = hazKnockDown({ alloy, temper, form, process, thicknessMm });
  if (!soft.supported) return soft;
  const carries = section.welds.some(({ lies }) => lies === 'across');
  const metal = weldMetal(alloy, filler);
  if (carries && !metal.supported) return metal;
  const { row } = soft;
  return {
    supported: true,
    strengths: [
      { on: 'yield', ...vonMises(row.proofMPa, soft.proofHazMPa), codeFactor: GAMMA.yield },
      { on: 'rupture', ...vonMises(row.ultimateMPa, soft.ultimateHazMPa), codeFactor: GAMMA.rupture },
    ],
    bands: [{ withinMm: options.extentMm ?? null, proofKept: soft.rhoProof, ultimateKept: soft.rhoUltimate }],
    weld: metal.supported
      ? { tensionMPa: metal.tensionMPa, shearMPa: metal.shearMPa, codeFactor: GAMMA.weld }
      : null,
    combine: 'von Mises',
    extentMm: options.extentMm ?? null,
    bucklingClass: row.bucklingClass,
    holdsAfterDays: soft.holdsAfterDays,
    known: 'memory',
    source: 'EN 1999-1-1:2007 (+A1:2009)',
    because: [
      ...soft.because,
      ...(section.form === undefined
        ? ['How the metal was made is not said: the weakest extruded row is read.']
        : []),
      ...(carries ? (metal.supported ? metal.because : []) : []),
      `The soft metal holds these values from ${soft.holdsAfterDays} days after welding at 10 °C or more.`,
    ],
    fromMemory: [
      ...(row.known === 'memory' ? [`the table's row of ${row.alloy}-${row.temper} ${row.forms}`] : []),
      ...(soft.because.length > 1 ? ['the further factors for TIG and thickness'] : []),
      ...(carries ? ['weld metal strengths (table 8.8)'] : []),
      'the rules for sections (cl. 6.2.3, 6.2.5, 8.6.3)',
    ],
  };
}

function american(
  section: WeldedSection,
  options: ResistanceOptions,
  thicknessMm: number,
): CodeAnswer<SectionMetal> {
  const { alloy, temper, filler } = options;
  const form = section.form ?? 'profile';
  const metal = usStrength({ alloy, temper, form, filler, thicknessMm });
  if (!metal.supported) return metal;
  const fillet = filletShearUs(filler);
  const carries = section.welds.some(({ lies, joint }) => lies === 'across' && joint === 'fillet');
  if (carries && !fillet.supported) return fillet;
  const strengths = [
    { on: 'yield', parentMPa: metal.proofMPa, softMPa: metal.proofWeldedMPa, codeFactor: OMEGA.yield },
    {
      on: 'rupture',
      parentMPa: metal.ultimateMPa,
      softMPa: metal.ultimateWeldedMPa,
      codeFactor: OMEGA.rupture,
    },
  ] as const;
  return {
    supported: true,
    strengths: strengths.map((s) => ({
      ...s,
      shearParentMPa: US_SHEAR * s.parentMPa,
      shearSoftMPa: US_SHEAR * s.softMPa,
    })),
    bands: [
      {
        withinMm: options.extentMm ?? MM_PER_INCH,
        proofKept: metal.proofWeldedMPa / metal.proofMPa,
        ultimateKept: metal.ultimateWeldedMPa / metal.ultimateMPa,
      },
    ],
    // A groove weld's metal is inside the welded ultimate; a fillet has a strength of its own.
    weld:
      carries && fillet.supported
        ? { tensionMPa: fillet.shearMPa, shearMPa: fillet.shearMPa, codeFactor: OMEGA.rupture }
        : null,
    combine: 'additive',
    extentMm: options.extentMm ?? MM_PER_INCH,
    bucklingClass: 'A',
    holdsAfterDays: null,
    known: 'memory',
    source: metal.source,
    because: [...metal.because, ...(carries && fillet.supported ? fillet.because : [])],
    fromMemory: [
      'welded strengths but the 24 ksi of 6061-T6, and parent minima but those of 6061-T6 sheet',
      'safety factors 1.65 and 1.95 and the rules for sections',
    ],
  };
}

/** An unwelded casting by its standard; a welded one these codes do not answer. */
function castPart(section: WeldedSection, options: ResistanceOptions): CodeAnswer<SectionMetal> {
  if (section.welds.length > 0)
    return unsupported(
      `${options.code} gives no strength beside a weld in a casting such as ${options.alloy}.`,
      'Break welded coupons of the same casting and filler (code: own tests), measure hardness beside the weld, or for highway supports ask AASHTO LTS',
    );
  const parent = castParent(section, options);
  if (!parent.supported) return parent;
  const factors = options.code === 'EN 1999-1-1' ? GAMMA : OMEGA;
  return {
    supported: true,
    strengths: [
      { on: 'yield', ...vonMises(parent.proofMPa, parent.proofMPa), codeFactor: factors.yield },
      { on: 'rupture', ...vonMises(parent.ultimateMPa, parent.ultimateMPa), codeFactor: factors.rupture },
    ],
    bands: [],
    weld: null,
    combine: options.code === 'EN 1999-1-1' ? 'von Mises' : 'additive',
    extentMm: null,
    bucklingClass: 'A',
    holdsAfterDays: null,
    known: parent.known,
    source: parent.source,
    because: parent.because,
    fromMemory: parent.known === 'memory' ? [`the row of ${options.alloy}-${options.temper}`] : [],
  };
}

function castParent({ castBy }: WeldedSection, { alloy, temper, castingFactor = 1 }: ResistanceOptions) {
  requireNumber(castingFactor, 'castingFactor', { low: 1, high: 10 });
  if (castBy !== 'sand' && castBy !== 'permanent mould')
    throw new TemperbookError('How the casting was made decides its strength', {
      found: `castBy: ${castBy}`,
      expected: 'sand or permanent mould',
    });
  const parent = castingStrength(alloy, temper, castBy);
  if (!parent.supported || castingFactor === 1) return parent;
  return {
    ...parent,
    proofMPa: parent.proofMPa / castingFactor,
    ultimateMPa: parent.ultimateMPa / castingFactor,
    because: [...parent.because, `Casting factor: strengths divided by ${castingFactor}.`],
  };
}

function highwayCasting(section: WeldedSection, options: ResistanceOptions): CodeAnswer<SectionMetal> {
  const { castBy } = section;
  if (castBy === undefined)
    throw new TemperbookError('How the casting was made decides its strength', {
      found: 'no castBy',
      expected: 'sand or permanent mould',
    });
  const allowed = castingAllowable(options.alloy, options.temper, castBy);
  if (!allowed.supported) return allowed;
  const scale = 1 / requireNumber(options.castingFactor ?? 1, 'castingFactor', { low: 1, high: 10 });
  const { tension, shear } = allowed;
  return {
    supported: true,
    strengths: [
      {
        on: 'allowable',
        parentMPa: tension.parentMPa * scale,
        softMPa: tension.weldedMPa * scale,
        shearParentMPa: shear.parentMPa * scale,
        shearSoftMPa: shear.weldedMPa * scale,
        codeFactor: 1,
      },
    ],
    bands: [
      {
        withinMm: allowed.withinMm,
        proofKept: tension.weldedMPa / tension.parentMPa,
        ultimateKept: tension.weldedMPa / tension.parentMPa,
      },
    ],
    weld: null,
    combine: 'additive',
    extentMm: allowed.withinMm,
    bucklingClass: 'A',
    holdsAfterDays: null,
    known: allowed.known,
    source: allowed.source,
    because: [
      ...allowed.because,
      ...(scale < 1 ? [`Casting factor: stresses divided by ${options.castingFactor}.`] : []),
    ],
    fromMemory: ['how tension and shear are combined'],
  };
}

function ownTests({ own }: ResistanceOptions): CodeAnswer<SectionMetal> {
  if (!own)
    throw new TemperbookError("'own tests' needs the strengths that were measured", {
      expected: 'own: { proofMPa, ultimateMPa, softProofMPa, softUltimateMPa, extentMm, because }',
    });
  const range = { low: 5, high: STRONGEST_MPA };
  for (const key of ['proofMPa', 'ultimateMPa', 'softProofMPa', 'softUltimateMPa'] as const)
    requireNumber(own[key], `own.${key}`, range);
  requireNumber(own.extentMm, 'own.extentMm', { low: 1, high: 1000 });
  if (own.weldMetalMPa !== undefined) requireNumber(own.weldMetalMPa, 'own.weldMetalMPa', range);
  for (const [less, more] of [
    ['proofMPa', 'ultimateMPa'],
    ['softProofMPa', 'softUltimateMPa'],
    ['softProofMPa', 'proofMPa'],
    ['softUltimateMPa', 'ultimateMPa'],
  ] as const)
    if (own[less] > own[more])
      throw new TemperbookError('These strengths do not go together', {
        found: `${less} ${own[less]} above ${more} ${own[more]} MPa`,
        expected: 'proof below ultimate, soft metal no stronger than the parent',
      });
  return {
    supported: true,
    strengths: [
      { on: 'yield', ...vonMises(own.proofMPa, own.softProofMPa), codeFactor: GAMMA.yield },
      { on: 'rupture', ...vonMises(own.ultimateMPa, own.softUltimateMPa), codeFactor: GAMMA.rupture },
    ],
    bands: [
      {
        withinMm: own.extentMm,
        proofKept: own.softProofMPa / own.proofMPa,
        ultimateKept: own.softUltimateMPa / own.ultimateMPa,
      },
    ],
    weld:
      own.weldMetalMPa === undefined
        ? null
        : {
            tensionMPa: own.weldMetalMPa,
            shearMPa: own.weldMetalMPa / Math.sqrt(3),
            codeFactor: GAMMA.weld,
          },
    combine: 'von Mises',
    extentMm: own.extentMm,
    bucklingClass: 'B',
    holdsAfterDays: null,
    known: 'fitted',
    source: 'own tests',
    because: [
      own.because,
      ...(own.weldMetalMPa === undefined
        ? ['No strength of the weld metal was given: it is not checked.']
        : []),
    ],
    fromMemory: [],
  };
}

/** Parent strengths a profile stands on: the code's row of a wrought metal, the standard's of a casting. */
function parentOf(section: WeldedSection, options: ResistanceOptions, thicknessMm: number) {
  if (alloySeries(options.alloy) === 'casting') return castParent(section, options);
  const { alloy, temper, process } = options;
  const row = hazKnockDown({ alloy, temper, form: section.form ?? 'profile', process, thicknessMm });
  if (!row.supported) return row;
  return {
    supported: true as const,
    proofMPa: row.row.proofMPa,
    codeSoftMPa: row.proofHazMPa,
    known: row.row.known,
    source: row.source,
    because: row.because.slice(0, 1),
  };
}
