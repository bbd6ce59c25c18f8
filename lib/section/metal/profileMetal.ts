import { formatPercent, type HowKnown, requireNumber, TemperbookError } from '../../quantity';
import type { CodeAnswer } from '../codes/codeAnswer';
import type { KeptAtDistance, ResistanceOptions } from '../weldedSection';
import type { SectionMetal, SoftBand } from './metalStrengths';

interface Parent {
  readonly proofMPa: number;
  /** What the code gives for the soft zone, where it does. */
  readonly codeSoftMPa?: number;
  readonly known: HowKnown;
}

/**
 * Yield by a modelled profile of the soft zone, at the low end of its band: between two points the lower of both,
 * nearer than the first the lowest of all, beyond the last the last. Nothing of rupture follows from yield kept, so
 * there is no rupture basis. Where the code answers too and is lower, the answer says so.
 * @throws TemperbookError for a profile that is missing, out of order, or not a share of yield.
 */
export function profileMetal(
  { profile }: ResistanceOptions,
  parent: CodeAnswer<Parent>,
): CodeAnswer<SectionMetal> {
  const points = checkProfile(profile);
  if (!parent.supported) return parent;
  const { proofMPa, codeSoftMPa } = parent;
  const kept = points.map(({ keptFraction }) => Math.min(1, keptFraction.low));
  const lowest = Math.min(...kept);
  const bands: SoftBand[] = points.map(({ distanceMm }, i) => {
    const share = i === 0 ? lowest : Math.min(kept[i - 1]!, kept[i]!);
    return { withinMm: distanceMm, proofKept: share, ultimateKept: 0 };
  });
  const beyond = kept[kept.length - 1]!;
  const softMPa = lowest * proofMPa;
  return {
    supported: true,
    strengths: [
      {
        on: 'yield',
        parentMPa: proofMPa,
        softMPa,
        shearParentMPa: proofMPa / Math.sqrt(3),
        shearSoftMPa: softMPa / Math.sqrt(3),
        codeFactor: 1.1,
      },
    ],
    bands: beyond < 1 ? [...bands, { withinMm: Infinity, proofKept: beyond, ultimateKept: 0 }] : bands,
    weld: null,
    combine: 'von Mises',
    extentMm: points[points.length - 1]!.distanceMm,
    bucklingClass: 'B',
    holdsAfterDays: null,
    known: 'fitted',
    source: `a modelled profile of the soft zone on the parent strength of ${parent.source}`,
    because: [
      ...parent.because,
      `The model keeps at least ${formatPercent(lowest)} of the yield at the low end of its band: ${softMPa.toFixed(0)} MPa.`,
      ...(codeSoftMPa === undefined
        ? ['No code gives a strength to hold this against: measure hardness or break a coupon.']
        : softMPa > codeSoftMPa
          ? [
              `ABOVE THE CODE: the model keeps ${softMPa.toFixed(0)} MPa where EN 1999-1-1 gives ${codeSoftMPa.toFixed(0)} MPa. Size by the code unless a test shows otherwise.`,
            ]
          : [
              `EN 1999-1-1 gives ${codeSoftMPa.toFixed(0)} MPa there: where it is softest the model is not above it.`,
            ]),
      'Rupture and weld metal do not follow from yield kept: ask a code or your own tests.',
    ],
    fromMemory: parent.known === 'memory' ? ['the parent strength'] : [],
  };
}

function checkProfile(profile: readonly KeptAtDistance[] | undefined): readonly KeptAtDistance[] {
  if (!profile || profile.length === 0)
    throw new TemperbookError("'soft-zone profile' needs the profile", {
      found: profile ? 'no points' : 'nothing',
      expected: 'profile: [{ distanceMm, keptFraction: { nominal, low, high } }, …]',
    });
  for (const [i, { distanceMm, keptFraction }] of profile.entries()) {
    requireNumber(distanceMm, `distanceMm of point ${i + 1}`, { low: 0, high: 5000 });
    for (const end of ['low', 'nominal', 'high'] as const)
      requireNumber(keptFraction?.[end], `keptFraction.${end} of point ${i + 1}`, { low: 0.01, high: 1.5 });
    if (i > 0 && distanceMm <= profile[i - 1]!.distanceMm)
      throw new TemperbookError('The points of a profile go outward from the weld', {
        found: `point ${i + 1} at ${distanceMm} mm after ${profile[i - 1]!.distanceMm} mm`,
      });
  }
  return profile;
}
