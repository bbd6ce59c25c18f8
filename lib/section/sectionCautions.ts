import { alloySeries } from './codes/alloySeries';
import type { WeldedResistance } from './resistance/weldedResistance';
import { isSlender } from './shape/localBuckling';

/**
 * What a static size does not show: fatigue with the detail class it falls in, buckling with its clause, cracks. No
 * life is given. Detail classes: IIW-1823-07 (A. Hobbacher, 2008), from memory.
 */
export function sectionCautions(resistance: WeldedResistance): string[] {
  const { section, options, localClasses, reachMm } = resistance;
  const slender = localClasses.filter(isSlender);
  const thinned = localClasses.filter((wall) => wall.class === 4 && !isSlender(wall));
  const casting = alloySeries(options.alloy) === 'casting';
  const across = section.welds.filter(({ lies }) => lies === 'across');
  return [
    ...(section.welds.length > 0
      ? [
          `Fatigue is not checked. ${detailOf(section.welds)} A stronger temper does not help there: work to EN 1999-1-3 or the code that applies.`,
        ]
      : []),
    'Buckling of the member is not checked (EN 1999-1-1 cl. 6.3): its length and its ends are not known here.',
    ...(slender.length > 0
      ? [
          `Local buckling: ${[...new Set(slender.map(({ wall }) => wall))].join(', ')} would buckle before yielding where compressed (class 4, cl. 6.1.4; limits of a 1999 draft and from memory). Strengths here do not hold for it: ${[...new Set(slender.map(({ why }) => why))].join('; ')}.`,
        ]
      : thinned.length > 0
        ? [
            `Local buckling: ${[...new Set(thinned.map(({ wall }) => wall))].join(', ')} ${thinned.length > 1 ? 'are' : 'is'} of class 4 and counted with ${Math.round(100 * Math.min(...thinned.map(({ effectiveShare }) => effectiveShare!)))} % of the thickness under compression (a lecture of 1999 on the draft; a later edition may differ).`,
          ]
        : localClasses.length === 0
          ? ['Local buckling of a bar or an outline is not classed: hold a compressed edge or check it.']
          : []),
    ...(across.length > 0 && reachMm === null
      ? [
          'How far the soft zone reaches along the member is not given: measure hardness before metal is thinned.',
        ]
      : []),
    'Cracks, pores and lack of fusion are not seen by any of this: look, and test by dye or X-ray.',
    ...(casting ? ['A casting varies within itself: the strength is that of sound metal.'] : []),
  ];
}

function detailOf(welds: WeldedResistance['section']['welds']): string {
  if (welds.some(({ lies, joint }) => lies === 'across' && joint === 'fillet'))
    return 'IIW detail: fillet weld root, stress in the throat, FAT 12, among the lowest there are.';
  if (welds.some(({ lies }) => lies === 'across'))
    return 'IIW detail: one-sided butt weld, FAT 12 where the root was not checked, FAT 28 where it was.';
  if (welds.some(({ lies }) => lies === 'part-way')) return 'IIW detail: transverse attachment, FAT 28.';
  return 'IIW detail: the ends of a longitudinal weld or attachment, FAT 20.';
}
