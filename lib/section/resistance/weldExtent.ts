import { alloySeries } from '../codes/alloySeries';
import { type CodeAnswer, unsupported } from '../codes/codeAnswer';
import { hazExtent } from '../codes/hazExtent';
import type { SectionMetal } from '../metal/metalStrengths';
import type { ResistanceOptions, SectionWeld, WeldedSection } from '../weldedSection';

/** Extent of one weld's zone, mm; null where the whole section is soft; an answer where there is none. */
export function weldExtent(
  weld: SectionWeld,
  options: ResistanceOptions,
  metal: SectionMetal,
  thicknessMm: number,
): number | null | CodeAnswer<never> {
  if (weld.lies === 'across') return null;
  if (metal.extentMm !== null) return metal.extentMm;
  if (metal.bands.length === 0) return 0;
  const answer = codeExtent(weld, options, thicknessMm);
  return answer.supported ? answer.extentMm : answer;
}

function codeExtent(
  weld: SectionWeld,
  { alloy, process, interpassC }: ResistanceOptions,
  thicknessMm: number,
) {
  const paths = weld.heatPathsMm ?? Array<number>(weld.joint === 'butt' ? 2 : 3).fill(thicknessMm);
  const answer = hazExtent({ alloy, process, joint: weld.joint, heatPathsMm: paths, interpassC });
  if (answer.supported) return answer;
  return unsupported(answer.why, `${answer.remedy}; give what was measured as extentMm`);
}

/** Reach of the soft zone along the member from a weld that lies across. */
export function weldReach(
  section: WeldedSection,
  options: ResistanceOptions,
  metal: SectionMetal,
  thicknessMm: number,
): number | null {
  if (section.welds.length === 0 || metal.extentMm !== null) return metal.extentMm;
  if (alloySeries(options.alloy) === 'casting') return null;
  const reaches = section.welds.map((weld) => codeExtent(weld, options, thicknessMm));
  const known = reaches.flatMap((answer) => (answer.supported ? [answer.extentMm] : []));
  return known.length === reaches.length ? Math.max(...known) : null;
}
