import type { BasisStrength, SectionMetal } from '../metal/metalStrengths';
import type { LocalClass } from '../shape/localBuckling';
import { addMoments, type Moments, propertiesOf } from '../shape/moments';
import type { SectionBody } from '../shape/sectionBody';
import { shearStressPerN } from '../shape/shear';
import { type PlacedWeld, type SofteningWeld, softMetal } from '../shape/softMetal';
import type { Torsion } from '../shape/torsionConstants';
import { partMoments } from '../shape/wall';
import type { ResistanceOptions, SectionWeld, WeldedSection } from '../weldedSection';
import { perimeterFillets } from './perimeterFillets';
import {
  filletCheck,
  flowCheck,
  type LoadableCheck,
  metalCheck,
  type ShearStress,
  whenCompressed,
} from './sectionCheck';
import { type PlateJoint, plateJoints } from './shearFlow';

type PlacedSectionWeld = PlacedWeld & { readonly weld: SectionWeld };

/** Metal with each band of softness thinned to its share. */
function thinned(
  body: SectionBody,
  metal: SectionMetal,
  kept: 'proofKept' | 'ultimateKept',
  soften: (withinMm: number | null) => SofteningWeld[],
): { readonly moments: Moments; readonly softest: number } {
  let moments = body.moments;
  let inner: Moments | null = null;
  let softest = 1;
  for (const band of metal.bands) {
    const welds = soften(band.withinMm);
    if (welds.length === 0) break;
    const within = softMetal(body, welds).moments;
    const ring = inner ? addMoments(within, inner, -1) : within;
    moments = addMoments(moments, ring, band[kept] - 1);
    if (ring.area > 1e-9) softest = Math.min(softest, band[kept]);
    inner = within;
  }
  return { moments, softest };
}

/** Every check of a section: its metal on each basis, the zone beside a weld across, weld metal. */
export function sectionChecks(
  section: WeldedSection,
  { code }: ResistanceOptions,
  metal: SectionMetal,
  body: SectionBody,
  softenAll: (withinMm: number | null, filter: (weld: SectionWeld) => boolean) => SofteningWeld[],
  shear: ShearStress,
  placed: readonly PlacedSectionWeld[],
  classes: readonly LocalClass[],
): LoadableCheck[] {
  const { combine } = metal;
  const european = code !== 'Aluminum Design Manual' && code !== 'AASHTO LTS';
  const across = section.welds.filter(({ lies }) => lies === 'across');
  const strips = (withinMm: number | null) => softenAll(withinMm, ({ lies }) => lies !== 'across');
  const ofStrength = (strength: BasisStrength): LoadableCheck[] => {
    const { on, parentMPa, softMPa, codeFactor } = strength;
    const kept = on === 'rupture' ? 'ultimateKept' : 'proofKept';
    const thin = thinned(body, metal, kept, strips);
    const away = metalCheck(
      {
        name:
          thin.softest < 1
            ? `${on} of the section with its soft strips`
            : `${on} of the section away from welds`,
        on,
        askedByCode: true,
        clause: european ? (on === 'yield' ? '6.2.3, 6.2.5' : '6.2.3') : 'section rule',
        strengthMPa: parentMPa,
        shearMPa: strength.shearParentMPa,
        codeFactor,
      },
      body,
      thin.moments,
      propertiesOf(thin.moments),
      thin.softest,
      shear,
      combine,
    );
    if (across.length === 0) return [away];
    const beside = metalCheck(
      {
        name: `${on} of the soft zone beside the weld`,
        on,
        askedByCode: on !== 'yield',
        clause: european ? '8.6.3' : 'section rule',
        strengthMPa: softMPa,
        shearMPa: strength.shearSoftMPa,
        codeFactor,
      },
      body,
      body.moments,
      propertiesOf(body.moments),
      1,
      shear,
      combine,
    );
    return [away, beside];
  };
  return [
    ...metal.strengths.flatMap(ofStrength),
    ...across.flatMap((weld) => weldChecks(section, weld, metal, body, shear, european)),
    ...partWayChecks(
      section,
      metal,
      (own) => thinned(body, own, 'ultimateKept', strips),
      body,
      shear,
      european,
    ),
    ...bucklingChecks(metal, body, classes, shear),
    ...plateJoints(body, placed).flatMap((joint) => flowChecks(joint, metal, european)),
  ];
}

/** What a check of weld metal, or of the bond beside it, is called and held against. */
const weldBase = (
  name: string,
  european: boolean,
  { tensionMPa, shearMPa, codeFactor }: NonNullable<SectionMetal['weld']>,
) => ({
  name,
  on: 'rupture' as const,
  askedByCode: true,
  clause: european ? '8.6.3' : 'section rule',
  strengthMPa: tensionMPa,
  shearMPa,
  codeFactor,
});

/**
 * Weld metal of part-way butt welds: the section once more with its soft metal no stronger than the weld metal, which
 * is on the safe side for soft metal beside other welds.
 */
function partWayChecks(
  { welds }: WeldedSection,
  metal: SectionMetal,
  strips: (metal: SectionMetal) => ReturnType<typeof thinned>,
  body: SectionBody,
  shear: ShearStress,
  european: boolean,
): LoadableCheck[] {
  const rupture = metal.strengths.find(({ on }) => on === 'rupture');
  const { weld } = metal;
  if (!weld || !rupture || !welds.some(({ lies, joint }) => lies === 'part-way' && joint === 'butt'))
    return [];
  const weldShare = Math.min(1, weld.tensionMPa / rupture.parentMPa);
  const { moments, softest } = strips({
    ...metal,
    bands: metal.bands.map((band) => ({ ...band, ultimateKept: Math.min(band.ultimateKept, weldShare) })),
  });
  const parent = {
    tensionMPa: rupture.parentMPa,
    shearMPa: rupture.shearParentMPa,
    codeFactor: Math.max(weld.codeFactor, rupture.codeFactor),
  };
  return [
    metalCheck(
      weldBase('weld metal of the part-way butt weld', european, parent),
      body,
      moments,
      propertiesOf(moments),
      softest,
      shear,
      metal.combine,
    ),
  ];
}

/** Yield of a compressed section whose slender walls count with reduced thickness; no matter of tension. */
function bucklingChecks(
  metal: SectionMetal,
  body: SectionBody,
  classes: readonly LocalClass[],
  shear: ShearStress,
): LoadableCheck[] {
  const slender = classes.flatMap(({ class: local, at, effectiveShare }) =>
    local === 4 && effectiveShare !== null ? [{ wall: body.walls[at]!, share: effectiveShare }] : [],
  );
  const proof = metal.strengths.find(({ on }) => on === 'yield');
  if (slender.length === 0 || !proof) return [];
  const moments = slender.reduce(
    (sum, { wall, share }) => addMoments(sum, partMoments(wall, [0, 1]), share - 1),
    body.moments,
  );
  return metal.strengths.map(({ on }) =>
    whenCompressed(
      metalCheck(
        {
          name: 'yield with its slender walls thinned',
          on,
          askedByCode: true,
          clause: '6.1.5',
          strengthMPa: proof.parentMPa,
          shearMPa: proof.shearParentMPa,
          codeFactor: proof.codeFactor,
        },
        body,
        moments,
        propertiesOf(moments),
        Math.min(...slender.map(({ share }) => share)),
        shear,
        metal.combine,
      ),
    ),
  );
}

/** Fillets that join plates of the section, and the soft metal at their legs, under shear flow. */
function flowChecks(joint: PlateJoint, metal: SectionMetal, european: boolean): LoadableCheck[] {
  const rupture = metal.strengths.find(({ on }) => on === 'rupture');
  if (!rupture || !metal.weld) return [];
  const at = `at (${joint.atMm.map((mm) => Number(mm.toFixed(1))).join(', ')}) mm`;
  const soft = {
    tensionMPa: rupture.softMPa,
    shearMPa: rupture.shearSoftMPa,
    codeFactor: rupture.codeFactor,
  };
  return [
    flowCheck(weldBase(`shear flow in the fillets ${at}`, european, metal.weld), joint),
    flowCheck(weldBase(`shear flow at the legs of the fillets ${at}`, european, soft), {
      ...joint,
      throatsMm: Math.SQRT2 * joint.throatsMm,
    }),
  ];
}

/** Weld metal and the bond beside it where a weld carries the section's load. */
function weldChecks(
  section: WeldedSection,
  weld: SectionWeld,
  metal: SectionMetal,
  body: SectionBody,
  shear: ShearStress,
  european: boolean,
): LoadableCheck[] {
  const rupture = metal.strengths.find(({ on }) => on === 'rupture');
  if (!rupture) return [];
  if (weld.joint === 'butt') {
    if (!metal.weld) return [];
    return [
      metalCheck(
        weldBase('weld metal of the butt weld', european, metal.weld),
        body,
        body.moments,
        propertiesOf(body.moments),
        1,
        shear,
        metal.combine,
      ),
    ];
  }
  const throatMm = weld.throatMm!;
  const rule = european ? 'combined' : 'vector sum';
  const bond = filletCheck(
    weldBase('soft metal at the leg of the fillet', european, {
      tensionMPa: rupture.softMPa,
      shearMPa: rupture.shearSoftMPa,
      codeFactor: rupture.codeFactor,
    }),
    perimeterFillets(section.shape, body, throatMm * Math.SQRT2),
    rule,
  );
  if (!metal.weld) return [bond];
  const throat = filletCheck(
    weldBase('throat of the fillet', european, metal.weld),
    perimeterFillets(section.shape, body, throatMm),
    rule,
  );
  return [throat, bond];
}

/** Shear of a load on full metal; what a direction costs is worked out once, and only if it is loaded. */
export function shearOf(body: SectionBody, torsion: () => Torsion): ShearStress {
  const known = new Map<'x' | 'y', number>();
  const perN = (direction: 'x' | 'y'): number => {
    const value = known.get(direction) ?? shearStressPerN(body, direction);
    known.set(direction, value);
    return value;
  };
  return ({ shearXN, shearYN, torsionNmm }) => {
    let tau = 0;
    if (shearXN !== 0) tau += Math.abs(shearXN) * perN('x');
    if (shearYN !== 0) tau += Math.abs(shearYN) * perN('y');
    if (torsionNmm !== 0) tau += Math.abs(torsionNmm) * torsion().stressPerNmm;
    return tau;
  };
}
