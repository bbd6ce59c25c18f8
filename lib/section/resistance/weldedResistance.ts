import { requireNumber, TemperbookError } from '../../quantity';
import { alloySeries } from '../codes/alloySeries';
import type { CodeAnswer } from '../codes/codeAnswer';
import { metalApart } from '../metal/metalApart';
import type { SectionMetal } from '../metal/metalStrengths';
import { sectionMetal } from '../metal/sectionMetal';
import { type LocalClass, localClasses } from '../shape/localBuckling';
import { type Point, propertiesOf, type SectionProperties } from '../shape/moments';
import { sectionBody } from '../shape/sectionBody';
import { shapeThicknessMm } from '../shape/sectionShape';
import { placeWeld, type SofteningWeld, softMetal } from '../shape/softMetal';
import { torsionOf } from '../shape/torsion';
import type { Torsion } from '../shape/torsionConstants';
import type { ResistanceOptions, SectionWeld, WeldedSection } from '../weldedSection';
import { aboveTheCode } from './aboveTheCode';
import type { LoadableCheck } from './sectionCheck';
import { sectionChecks } from './sectionChecks';
import { shearOf } from './shearOf';
import { weldExtent, weldReach } from './weldExtent';

/** What a welded section resists, check by check, without any factor unless it says so. */
export interface WeldedResistance {
  readonly section: WeldedSection;
  readonly options: ResistanceOptions;
  readonly thicknessMm: number;
  readonly checks: readonly LoadableCheck[];
  readonly metal: SectionMetal;
  /** Full metal. */
  readonly full: SectionProperties;
  /** Of full metal; worked out when first asked for. */
  readonly torsion: Torsion;
  /** Area softened by the welds, mm². */
  readonly softAreaMm2: number;
  /** Soft metal as polygons, for drawing. */
  readonly softPolygons: () => (readonly Point[])[];
  /** How far the soft zone reaches along the member, mm; null where no code says. */
  readonly reachMm: number | null;
  /** Class of every wall if compressed. */
  readonly localClasses: readonly LocalClass[];
  /** Extent of the soft zone by weld, mm; null for welds that lie across. */
  readonly extentsMm: readonly (number | null)[];
}

/**
 * Resistance of a section with soft zones. Metal within the extent of a weld counts with reduced thickness ρ t, and
 * stress on it is held against the parent's strength (EN 1999-1-1 cl. 6.2.3, 6.2.5; in the US the weighted average
 * of the manual, which is the same for tension and never above it in bending). Beside a weld that lies across, all
 * metal has the printed soft strength; butt weld metal (full penetration) and fillet throats are checked too.
 *
 * 'Yield beside the weld' is not asked by the codes for a weld across, whose short zone may yield; it counts on the
 * basis of yield all the same. Linear stress; the largest shear is taken at the place of the largest normal stress.
 * Strengths are characteristic. Not checked: buckling, fatigue, cracks; see `sectionCautions`.
 *
 * Unsupported, and so answered: welded castings but by AASHTO LTS, a profile or own tests; rows the tables here do not
 * hold; an extent the code does not give (TIG above 6 mm) unless `extentMm` was measured.
 *
 * Worked example (ours, from the clauses): 120 × 6 mm of 6061-T6, MIG along its middle: A = 595.2 mm², 142.8 kN
 * characteristic, 129.9 kN over 1.1.
 * @throws TemperbookError for dimensions, welds or strengths that cannot be.
 */
export function weldedResistance(
  section: WeldedSection,
  given: ResistanceOptions,
): CodeAnswer<WeldedResistance> {
  const options = metalApart(given);
  const body = sectionBody(section.shape);
  checkWelds(section);
  const thicknessMm = shapeThicknessMm(section.shape);
  const metal = sectionMetal(section, options, thicknessMm);
  if (!metal.supported) return metal;

  const extents = section.welds.map((weld) => weldExtent(weld, options, metal, thicknessMm));
  const missing = extents.find((e) => typeof e === 'object' && e !== null);
  if (missing) return missing as CodeAnswer<never>;
  const extentsMm = extents as (number | null)[];

  const placed = section.welds.map((weld) => ({ weld, ...placeWeld(body, weld) }));
  const soften = (withinMm: number | null, filter: (weld: SectionWeld) => boolean): SofteningWeld[] =>
    placed.flatMap((p, i) => {
      if (!filter(p.weld)) return [];
      const extentMm = withinMm ?? extentsMm[i] ?? 0;
      // The free-edge rule is the European code's.
      const edgeRuleMm = options.code === 'EN 1999-1-1' && Number.isFinite(extentMm) ? 3 * extentMm : 0;
      return [{ ...p, extentMm: Math.min(extentMm, 1e5), edgeRuleMm }];
    });
  const full = propertiesOf(body.moments);
  let known: Torsion | undefined;
  const torsion = (): Torsion => {
    known ??= torsionOf(section.shape, body);
    return known;
  };
  const classes = localClasses(section.shape, body, {
    proofMPa: metal.strengths[0]!.parentMPa,
    bucklingClass: metal.bucklingClass,
    welded: section.welds.length > 0,
    reduces: options.code === 'EN 1999-1-1' && alloySeries(options.alloy) !== 'casting',
  });
  const checks = sectionChecks(
    section,
    options,
    metal,
    body,
    soften,
    shearOf(body, torsion),
    placed,
    classes,
  );
  const outermost = metal.bands[metal.bands.length - 1]?.withinMm ?? null;
  const soft = softMetal(
    body,
    soften(outermost, () => true),
  );
  const reach = weldReach(section, options, metal, thicknessMm);
  return {
    supported: true,
    section,
    options,
    thicknessMm,
    checks,
    metal,
    full,
    get torsion() {
      return torsion();
    },
    softAreaMm2: section.welds.length > 0 ? soft.moments.area : 0,
    softPolygons: section.welds.length > 0 ? soft.polygons : () => [],
    reachMm: reach,
    localClasses: classes,
    extentsMm,
    source: metal.source,
    because: [
      ...metal.because,
      ...softSentences(section, extentsMm, soft.moments.area, full.areaMm2),
      ...uncheckedWelds(section, checks),
      ...(options.code === 'soft-zone profile' && alloySeries(options.alloy) !== 'casting'
        ? aboveTheCode(checks, weldedResistance(section, { ...options, code: 'EN 1999-1-1' }))
        : []),
    ],
  };
}

function softSentences(
  { welds }: WeldedSection,
  extentsMm: readonly (number | null)[],
  softMm2: number,
  fullMm2: number,
): string[] {
  if (welds.length === 0) return ['No weld: no soft zone.'];
  const whole = welds.some(({ lies }) => lies === 'across');
  const found = extentsMm.filter((mm): mm is number => mm !== null);
  return [
    ...(whole ? ['A weld lies across the section: all of it is soft there.'] : []),
    ...(found.length > 0
      ? [
          `The soft zone reaches ${[...new Set(found.map((mm) => mm.toFixed(0)))].join(' and ')} mm from the weld.`,
        ]
      : []),
    ...(!whole && softMm2 > 0.999 * fullMm2
      ? ['The soft zone is wider than the part: all of it is soft.']
      : []),
    ...(welds.some(({ lies, joint }) => lies !== 'along' && joint === 'butt')
      ? ['The butt weld is taken as fully penetrated.']
      : []),
  ];
}

/** Welds whose own load is not known or not checked, in words. */
function uncheckedWelds({ welds }: WeldedSection, checks: readonly LoadableCheck[]): string[] {
  const along = welds.filter(({ lies, joint }) => lies === 'along' && joint === 'fillet');
  const checked = checks.some(({ name }) => name.startsWith('shear flow'));
  const partWay = welds.filter(({ lies }) => lies === 'part-way');
  return [
    ...(along.length > 0 && along.some(({ throatMm }) => throatMm === undefined)
      ? ['A fillet along the member without a throat (throatMm) is not checked for shear flow.']
      : []),
    ...(along.length > 0 && along.every(({ throatMm }) => throatMm !== undefined) && !checked
      ? [
          'Shear flow in the fillets is not checked: no part of the section hangs on them alone, or no strength of the weld metal is given; see `filletGroup`.',
        ]
      : []),
    ...(partWay.some(({ joint }) => joint === 'fillet')
      ? ['A part-way fillet carries what hangs on it, which is not part of these loads: ask `filletGroup`.']
      : []),
    ...(partWay.some(({ joint }) => joint === 'butt') &&
    !checks.some(({ name }) => name.includes('part-way butt weld'))
      ? ['The metal of a part-way butt weld is not checked: no strength of its own is given here.']
      : []),
  ];
}

function checkWelds({ welds }: WeldedSection): void {
  if (!Array.isArray(welds))
    throw new TemperbookError('A section needs its list of welds', {
      expected: 'welds: [] where there is none',
    });
  for (const [i, { joint, lies, throatMm }] of welds.entries()) {
    if (joint !== 'butt' && joint !== 'fillet')
      throw new TemperbookError(`Weld ${i + 1} is of no known joint`, {
        found: String(joint),
        expected: 'butt or fillet',
      });
    if (lies === 'across' && joint === 'fillet' && throatMm === undefined)
      throw new TemperbookError(`Weld ${i + 1} carries the section and needs its throat`, {
        expected: 'throatMm: 0.707 of the leg',
      });
    if (throatMm !== undefined) requireNumber(throatMm, `throatMm of weld ${i + 1}`, { low: 0.5, high: 50 });
  }
}
