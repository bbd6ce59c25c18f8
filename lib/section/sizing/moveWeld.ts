import { type Judged, requireNumber } from '../../quantity';
import { type CodeAnswer, unsupported } from '../codes/codeAnswer';
import { sectionFactor } from '../resistance/sectionFactor';
import { type ForceLoad, type LoadCase, loadCases, type SectionLoad } from '../resistance/sectionLoad';
import { weldedResistance } from '../resistance/weldedResistance';
import type { WeldedSection } from '../weldedSection';
import type { SizeOptions } from './sizeSection';

/** Where along the member a weld may lie. */
export interface WeldPlace {
  /** Least distance from the place the loads are given for, mm: 0 where the weld may stay; null where none will do. */
  readonly distanceMm: number | null;
  readonly factorThere: Judged | null;
  /** Factor of the metal without a weld at the place of the loads. */
  readonly factorUnwelded: Judged;
}

/**
 * Moving a weld along the member to where bending is less. Moments fall by the shear force per mm from the place of
 * the loads, as in an arm loaded at its end; axial force, shear and torsion stay. The metal without a weld must reach
 * the factor at the place of the loads, and the soft zone of the moved weld must end before it: the distance is never
 * less than its reach.
 */
export function moveWeld(
  section: WeldedSection,
  loads: SectionLoad | readonly SectionLoad[],
  options: SizeOptions & { readonly withinMm: number },
): CodeAnswer<WeldPlace> {
  const { factor, on, codeFactors = false } = options;
  const withinMm = requireNumber(options.withinMm, 'withinMm', { low: 1, high: 20_000 });
  const welded = weldedResistance(section, options);
  if (!welded.supported) return welded;
  const bare = weldedResistance({ ...section, welds: [] }, options);
  if (!bare.supported) return bare;
  if (welded.reachMm === null)
    return unsupported(
      'How far the soft zone reaches along the member is not given by the code here.',
      'Measure a hardness traverse and give extentMm',
    );
  const cases = loadCases(loads, welded.full);
  const basis = { on, codeFactors, onlyAsked: codeFactors };
  const at = (distanceMm: number): Judged =>
    sectionFactor(
      welded,
      cases.map((c) => movedBy(c, distanceMm)),
      basis,
    ).factor;
  const factorUnwelded = sectionFactor(
    bare,
    cases.map((c) => movedBy(c, 0)),
    basis,
  ).factor;
  const found = (distanceMm: number | null): CodeAnswer<WeldPlace> => ({
    supported: true,
    distanceMm,
    factorThere: distanceMm === null ? null : at(distanceMm),
    factorUnwelded,
    source: welded.source,
    because: [
      'Moments fall along the member by the shear force per mm.',
      distanceMm === null
        ? factorUnwelded.low < factor
          ? 'The metal does not reach the factor at the place of the loads even without a weld.'
          : `No place within ${withinMm} mm reaches the factor.`
        : `The soft zone ends ${welded.reachMm?.toFixed(0)} mm from the weld.`,
    ],
  });
  if (at(0).low >= factor) return found(0);
  if (factorUnwelded.low < factor) return found(null);
  // Moments fall in a straight line and shear stays, so the factor only rises until the smallest moment is past.
  let [no, yes] = [0, withinMm];
  if (at(withinMm).low < factor) return found(null);
  while (yes - no > 0.01) {
    const middle = (no + yes) / 2;
    if (at(middle).low >= factor) yes = middle;
    else no = middle;
  }
  return found(Math.max(yes, welded.reachMm));
}

function movedBy(c: LoadCase, distanceMm: number): SectionLoad {
  const fall = (moment: number, shear: number): number =>
    Math.sign(moment) * Math.max(0, Math.abs(moment) - Math.abs(shear) * distanceMm);
  const { name, doubtFraction } = c;
  const forces: ForceLoad = {
    axialN: c.axialN,
    shearXN: c.shearXN,
    shearYN: c.shearYN,
    torsionNmm: c.torsionNmm,
    momentXNmm: fall(c.momentXNmm, c.shearYN),
    momentYNmm: fall(c.momentYNmm, c.shearXN),
  };
  return { name, doubtFraction, ...forces };
}
