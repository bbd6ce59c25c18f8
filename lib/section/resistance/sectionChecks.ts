import type { BasisStrength, SectionMetal } from '../metal/metalStrengths';
import type { LocalClass } from '../shape/localBuckling';
import { addMoments, propertiesOf } from '../shape/moments';
import type { SectionBody } from '../shape/sectionBody';
import type { PlacedWeld, SofteningWeld } from '../shape/softMetal';
import { partMoments } from '../shape/wall';
import type { ResistanceOptions, SectionWeld, WeldedSection } from '../weldedSection';
import { type LoadableCheck, metalCheck, type ShearStress, whenCompressed } from './sectionCheck';
import { plateJoints } from './shearFlow';
import { thinned } from './thinned';
import { flowChecks, partWayChecks, weldChecks } from './weldChecks';

type PlacedSectionWeld = PlacedWeld & { readonly weld: SectionWeld };

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
