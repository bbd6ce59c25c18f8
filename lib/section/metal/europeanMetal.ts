import type { CodeAnswer } from '../codes/codeAnswer';
import { hazKnockDown } from '../codes/hazKnockDown';
import { weldMetal } from '../codes/weldMetal';
import { carriesLoad, type WeldedSection } from '../weldedSection';
import { GAMMA, vonMises } from './codeFactors';
import type { ApartOptions } from './metalApart';
import type { SectionMetal } from './metalStrengths';

/** Wrought metal by EN 1999-1-1 tables 3.2 and 8.8. */
export function europeanMetal(
  section: WeldedSection,
  options: ApartOptions,
  thicknessMm: number,
): CodeAnswer<SectionMetal> {
  const { alloy, temper, process, filler } = options;
  const form = section.form ?? 'profile';
  const soft = hazKnockDown({ alloy, temper, form, process, thicknessMm });
  if (!soft.supported) return soft;
  const carries = section.welds.some(carriesLoad);
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
