import { MM_PER_INCH } from '../../quantity';
import type { CodeAnswer } from '../codes/codeAnswer';
import { usStrength } from '../codes/usStrength';
import { filletShearUs } from '../codes/weldMetal';
import { carriesLoad, type WeldedSection } from '../weldedSection';
import { OMEGA } from './codeFactors';
import type { ApartOptions } from './metalApart';
import type { SectionMetal } from './metalStrengths';

/** Shear yield and rupture over tension in the manual; memory. */
const US_SHEAR = 0.6;

/** Wrought metal by the Aluminum Design Manual: welded strengths within an inch. */
export function americanMetal(
  section: WeldedSection,
  options: ApartOptions,
  thicknessMm: number,
): CodeAnswer<SectionMetal> {
  const { alloy, temper, filler } = options;
  const form = section.form ?? 'profile';
  const metal = usStrength({ alloy, temper, form, filler, thicknessMm });
  if (!metal.supported) return metal;
  const fillet = filletShearUs(filler);
  const carries = section.welds.some((weld) => weld.joint === 'fillet' && carriesLoad(weld));
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
