import type { BasisStrength, SectionMetal } from '../metal/metalStrengths';
import { addMoments, type Moments, propertiesOf } from '../shape/moments';
import type { SectionBody } from '../shape/sectionBody';
import { shearStressPerN } from '../shape/shear';
import { type SofteningWeld, softMetal } from '../shape/softMetal';
import type { Torsion } from '../shape/torsion';
import type { ResistanceOptions, SectionWeld, WeldedSection } from '../weldedSection';
import { perimeterFillets } from './perimeterFillets';
import { filletCheck, type LoadableCheck, metalCheck, type ShearStress } from './sectionCheck';

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
): LoadableCheck[] {
  const { combine } = metal;
  const european = code !== 'Aluminum Design Manual' && code !== 'AASHTO LTS';
  const across = section.welds.filter(({ lies }) => lies === 'across');
  const ofStrength = (strength: BasisStrength): LoadableCheck[] => {
    const { on, parentMPa, softMPa, codeFactor } = strength;
    const kept = on === 'rupture' ? 'ultimateKept' : 'proofKept';
    const strips = thinned(body, metal, kept, (withinMm) =>
      softenAll(withinMm, ({ lies }) => lies !== 'across'),
    );
    const away = metalCheck(
      {
        name:
          strips.softest < 1
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
      strips.moments,
      propertiesOf(strips.moments),
      strips.softest,
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
  const own = (name: string, strengthMPa: number, shearMPa: number, codeFactor: number) => ({
    name,
    on: 'rupture' as const,
    askedByCode: true,
    clause: european ? '8.6.3' : 'section rule',
    strengthMPa,
    shearMPa,
    codeFactor,
  });
  if (weld.joint === 'butt') {
    if (!metal.weld) return [];
    const { tensionMPa, shearMPa, codeFactor } = metal.weld;
    return [
      metalCheck(
        own('weld metal of the butt weld', tensionMPa, shearMPa, codeFactor),
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
    own('soft metal at the leg of the fillet', rupture.softMPa, rupture.shearSoftMPa, rupture.codeFactor),
    perimeterFillets(section.shape, body, throatMm * Math.SQRT2),
    rule,
  );
  if (!metal.weld) return [bond];
  const { tensionMPa, shearMPa, codeFactor } = metal.weld;
  const throat = filletCheck(
    own('throat of the fillet', tensionMPa, shearMPa, codeFactor),
    perimeterFillets(section.shape, body, throatMm),
    rule,
  );
  return [throat, bond];
}

/** Shear of a load on full metal; what a direction costs is worked out once, and only if it is loaded. */
export function shearOf(body: SectionBody, torsion: Torsion | null): ShearStress {
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
    if (torsionNmm !== 0) tau += torsion ? Math.abs(torsionNmm) * torsion.stressPerNmm : Infinity;
    return tau;
  };
}
