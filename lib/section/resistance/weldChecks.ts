import type { SectionMetal } from '../metal/metalStrengths';
import { propertiesOf } from '../shape/moments';
import type { SectionBody } from '../shape/sectionBody';
import type { SectionWeld, WeldedSection } from '../weldedSection';
import { perimeterFillets } from './perimeterFillets';
import { filletCheck, flowCheck, type LoadableCheck, metalCheck, type ShearStress } from './sectionCheck';
import type { PlateJoint } from './shearFlow';
import type { Thinned } from './thinned';

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
export function partWayChecks(
  { welds }: WeldedSection,
  metal: SectionMetal,
  strips: (metal: SectionMetal) => Thinned,
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

/** Fillets that join plates of the section, and the soft metal at their legs, under shear flow. */
export function flowChecks(joint: PlateJoint, metal: SectionMetal, european: boolean): LoadableCheck[] {
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
export function weldChecks(
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
