import { requireNumber, TemperbookError } from '../../quantity';
import { normalProbability } from '../../statistics';

/** A proof load as a reading of the strength at the place it stresses. */
export interface ProofLoad {
  /** Nominal stress at the place under the load, MPa, from the same section that is sized. */
  readonly stressMPa: number;
  /** Standard uncertainty of that stress as a share: load cell, lever, section, model. 0.05 is a good shop's. */
  readonly stressUncertaintyFraction: number;
  /**
   * What was seen: 'held' without lasting set, 'set' (a lasting set was measured after unloading), or 'broke'.
   * A set that could not have been seen is no 'held': leave the reading out.
   */
  readonly outcome: 'held' | 'set' | 'broke';
}

/** What a reading of a load says of a strength at its place. */
export interface StrengthLikelihood {
  /** Which strength it speaks of. */
  readonly speaksOf: 'yield' | 'ultimate';
  /** Chance of what was seen if the strength at that place were so, MPa → 0…1. */
  readonly likelihood: (strengthMPa: number) => number;
  readonly proves: readonly string[];
  readonly provesNot: readonly string[];
}

/**
 * Likelihood of a proof load's outcome: with true stress log-normal about its nominal,
 * P(held | yield S) = Φ(ln(S/σ)/u); 'set' and 'broke' are the complement, 'broke' of the ultimate strength.
 * Multiply a draw's weight by it; it never exceeds 1, so a load proves a lower bound and no more.
 * Source: reliability of proof-loaded structures, elementary; common practice for a proof load 1.25 to 1.5 times the
 * working load (no source).
 * @throws TemperbookError for a stress or doubt that cannot be, or an outcome nobody can see.
 * @example proofLoadLikelihood({ stressMPa: 100, stressUncertaintyFraction: 0.05, outcome: 'held'
 *   }).likelihood(100) // 0.5
 * @example proofLoadLikelihood({ stressMPa: 100, stressUncertaintyFraction: 0.05, outcome: 'held'
 *   }).likelihood(110) // 0.972
 */
export function proofLoadLikelihood(reading: ProofLoad): StrengthLikelihood {
  const stress = requireNumber(reading.stressMPa, 'stressMPa', { low: 1, high: 700 });
  const doubt = requireNumber(reading.stressUncertaintyFraction, 'stressUncertaintyFraction', {
    low: 0.005,
    high: 0.5,
  });
  const { outcome } = reading;
  if (outcome !== 'held' && outcome !== 'set' && outcome !== 'broke')
    throw new TemperbookError('A proof load holds, leaves a set or breaks', {
      found: String(outcome),
      expected: 'held, set or broke',
    });
  const speaksOf = outcome === 'broke' ? 'ultimate' : 'yield';
  const above = (strengthMPa: number): number =>
    strengthMPa <= 0 ? 0 : normalProbability(Math.log(strengthMPa / stress) / doubt);
  return {
    speaksOf,
    likelihood: outcome === 'held' ? above : (strengthMPa) => 1 - above(strengthMPa),
    proves:
      outcome === 'held'
        ? [`The ${speaksOf} strength where it is stressed is not far below ${stress.toFixed(0)} MPa.`]
        : [`The ${speaksOf} strength where it gave way is not far above ${stress.toFixed(0)} MPa.`],
    provesNot: [
      'Nothing of places the load does not stress, nor of another direction.',
      'Nothing of fatigue: a crack may grow at a load far below this one.',
      ...(outcome === 'held'
        ? [
            'A soft casting passes a proof load below its lowered yield: only a load above the yield that is needed tells.',
          ]
        : []),
    ],
  };
}

/** A strength as known before a reading: log-normal by its median and standard uncertainty as a share. */
export interface StrengthBelief {
  readonly medianMPa: number;
  readonly uncertaintyFraction: number;
}

/** Chance that a strength is at least what is needed, before and after a reading. */
export interface ProofChance {
  readonly before: number;
  readonly after: number;
  /** Chance of seeing what was seen, by the belief before. */
  readonly ofOutcome: number;
}

/**
 * Bayes' rule on a log-normal belief, by 2000 equal steps over ±6 standard deviations (to 1e-4). For a part with
 * draws
 * use the likelihood on each draw instead.
 */
export function proofLoadChance(reading: ProofLoad, belief: StrengthBelief, neededMPa: number): ProofChance {
  const { likelihood } = proofLoadLikelihood(reading);
  const median = requireNumber(belief.medianMPa, 'medianMPa', { low: 1, high: 700 });
  const spread = requireNumber(belief.uncertaintyFraction, 'uncertaintyFraction', { low: 0.005, high: 1 });
  requireNumber(neededMPa, 'neededMPa', { low: 1, high: 700 });
  const steps = 2000;
  let [all, seen, seenAbove] = [0, 0, 0];
  for (let k = 0; k < steps; k++) {
    const z = -6 + (12 * (k + 0.5)) / steps;
    const weight = Math.exp((-z * z) / 2);
    const strength = median * Math.exp(spread * z);
    const share = weight * likelihood(strength);
    all += weight;
    seen += share;
    if (strength >= neededMPa) seenAbove += share;
  }
  if (seen / all < 1e-9)
    throw new TemperbookError('What was seen could not have happened by what was believed', {
      found: `${reading.outcome} at ${reading.stressMPa} MPa`,
      remedy: 'One of the two is wrong: check the load, the section and the strength that was assumed',
    });
  return {
    before: 1 - normalProbability(Math.log(neededMPa / median) / spread),
    after: seenAbove / seen,
    ofOutcome: seen / all,
  };
}
