import { requireNumber, TemperbookError } from '../../quantity';
import { normalProbability } from '../../statistics';
import type { StrengthLikelihood } from './proofLoad';

/**
 * Strain of the outer fibre of a strip bent around a former: ε = t/(2 R + t), R the former's radius, plane sections.
 *
 * @example stripBendStrain(3, 25) // 0.057
 */
export function stripBendStrain(thicknessMm: number, formerRadiusMm: number): number {
  const t = requireNumber(thicknessMm, 'thicknessMm', { low: 0.3, high: 50 });
  const r = requireNumber(formerRadiusMm, 'formerRadiusMm', { low: 0.1, high: 5000 });
  return t / (2 * r + t);
}

/** Smallest radius a strip of a given elongation should stand, mm: R = t (1/ε − 1)/2. */
export function stripBendRadiusMm(thicknessMm: number, elongationFraction: number): number {
  const t = requireNumber(thicknessMm, 'thicknessMm', { low: 0.3, high: 50 });
  const strain = requireNumber(elongationFraction, 'elongationFraction', { low: 0.001, high: 0.99 });
  return (t * (1 / strain - 1)) / 2;
}

/** A strip cut across the weld or from the part, bent in three points until it just keeps a lasting set. */
export interface StripBend {
  readonly widthMm: number;
  readonly thicknessMm: number;
  readonly spanMm: number;
  /** Highest load that left no lasting set, N. */
  readonly lastWithoutSetN: number;
  /** Lowest load that did, N. */
  readonly firstWithSetN: number;
  /** Standard uncertainty of the stress as a share; thickness counts twice in it. */
  readonly stressUncertaintyFraction: number;
}

/**
 * Strip bend as a reading of yield: outer-fibre stress σ = 3 F L/(2 b t²) at both loads; the yield lies between, with
 * the doubt of the stress: P(S) = Φ(ln(1.5 S/σ_low)/u) − Φ(ln(S/σ_high)/u). A set is seen only once the strip has
 * yielded through some depth, so the bound from below is taken 1.5 times lower (the fully plastic strip).
 * Source: elementary beam theory. It speaks of the weakest metal between the supports.
 * @throws TemperbookError for loads the wrong way round.
 */
export function stripBendLikelihood(strip: StripBend): StrengthLikelihood & {
  readonly stressMPa: readonly [low: number, high: number];
} {
  const width = requireNumber(strip.widthMm, 'widthMm', { low: 1, high: 500 });
  const t = requireNumber(strip.thicknessMm, 'thicknessMm', { low: 0.3, high: 50 });
  const span = requireNumber(strip.spanMm, 'spanMm', { low: 4 * t, high: 5000 });
  const doubt = requireNumber(strip.stressUncertaintyFraction, 'stressUncertaintyFraction', {
    low: 0.005,
    high: 0.5,
  });
  const stress = (loadN: number): number =>
    (3 * requireNumber(loadN, 'A load in N', { low: 0, high: 1e7 }) * span) / (2 * width * t * t);
  const low = stress(strip.lastWithoutSetN);
  const high = stress(strip.firstWithSetN);
  if (low >= high)
    throw new TemperbookError('The strip kept a set at a load below one that left none', {
      found: `${strip.lastWithoutSetN} N without, ${strip.firstWithSetN} N with`,
      remedy: 'Write the highest load without a set and the lowest with one',
    });
  const above = (strengthMPa: number, bound: number): number =>
    bound === 0 ? 1 : normalProbability(Math.log(strengthMPa / bound) / doubt);
  // Fully plastic over first yield of a rectangle.
  const shape = 1.5;
  return {
    speaksOf: 'yield',
    likelihood: (strengthMPa) =>
      strengthMPa <= 0 ? 0 : Math.max(0, above(strengthMPa, low / shape) - above(strengthMPa, high)),
    stressMPa: [low, high],
    proves: [
      `The weakest metal between the supports yields between ${(low / shape).toFixed(0)} and ${high.toFixed(0)} MPa.`,
    ],
    provesNot: [
      'Nothing of metal outside the strip, nor of fatigue.',
      'A strip that bends far without cracking shows ductility, not strength: soft metal bends best.',
    ],
  };
}
