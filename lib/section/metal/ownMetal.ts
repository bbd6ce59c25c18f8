import { requireNumber, TemperbookError } from '../../quantity';
import type { CodeAnswer } from '../codes/codeAnswer';
import type { ResistanceOptions } from '../weldedSection';
import { GAMMA, vonMises } from './codeFactors';
import type { SectionMetal } from './metalStrengths';

/** No aluminium alloy for structures is stronger than this, MPa: a larger number is ksi read as MPa or the like. */
const STRONGEST_MPA = 700;

/** Metal by one's own coupons. */
export function ownMetal({ own }: ResistanceOptions): CodeAnswer<SectionMetal> {
  if (!own)
    throw new TemperbookError("'own tests' needs the strengths that were measured", {
      expected: 'own: { proofMPa, ultimateMPa, softProofMPa, softUltimateMPa, extentMm, because }',
    });
  const range = { low: 5, high: STRONGEST_MPA };
  for (const key of ['proofMPa', 'ultimateMPa', 'softProofMPa', 'softUltimateMPa'] as const)
    requireNumber(own[key], `own.${key}`, range);
  requireNumber(own.extentMm, 'own.extentMm', { low: 1, high: 1000 });
  if (own.weldMetalMPa !== undefined) requireNumber(own.weldMetalMPa, 'own.weldMetalMPa', range);
  for (const [less, more] of [
    ['proofMPa', 'ultimateMPa'],
    ['softProofMPa', 'softUltimateMPa'],
    ['softProofMPa', 'proofMPa'],
    ['softUltimateMPa', 'ultimateMPa'],
  ] as const)
    if (own[less] > own[more])
      throw new TemperbookError('These strengths do not go together', {
        found: `${less} ${own[less]} above ${more} ${own[more]} MPa`,
        expected: 'proof below ultimate, soft metal no stronger than the parent',
      });
  return {
    supported: true,
    strengths: [
      { on: 'yield', ...vonMises(own.proofMPa, own.softProofMPa), codeFactor: GAMMA.yield },
      { on: 'rupture', ...vonMises(own.ultimateMPa, own.softUltimateMPa), codeFactor: GAMMA.rupture },
    ],
    bands: [
      {
        withinMm: own.extentMm,
        proofKept: own.softProofMPa / own.proofMPa,
        ultimateKept: own.softUltimateMPa / own.ultimateMPa,
      },
    ],
    weld:
      own.weldMetalMPa === undefined
        ? null
        : {
            tensionMPa: own.weldMetalMPa,
            shearMPa: own.weldMetalMPa / Math.sqrt(3),
            codeFactor: GAMMA.weld,
          },
    combine: 'von Mises',
    extentMm: own.extentMm,
    bucklingClass: 'B',
    holdsAfterDays: null,
    known: 'fitted',
    source: 'own tests',
    because: [
      own.because,
      ...(own.weldMetalMPa === undefined
        ? ['No strength of the weld metal was given: it is not checked.']
        : []),
    ],
    fromMemory: [],
  };
}
