import { requireNumber } from '../quantity';
import type { ConformityLimits } from './conformity';
import { normalProbability } from './normalDistribution';

/** What is known of parts before one of them is measured, and how well it will be measured. */
export interface MeasuredParts {
  /** Mean and standard deviation of the parts, normal. */
  readonly mean: number;
  readonly standardDeviation: number;
  /** Standard uncertainty of the measurement, normal. */
  readonly standardUncertainty: number;
}

/** Chances of a wrong decision, before measuring. */
export interface DecisionRisks {
  /** A part outside its limits is accepted (consumer's risk). */
  readonly falseAccept: number;
  /** A part within its limits is not (producer's risk). */
  readonly falseReject: number;
}

/** Parts are followed to so many standard deviations, in so many steps: the rest is under 1e-12. */
const REACH = 8;
const STEPS = 4000;

/**
 * Chances of a wrong decision when a part is accepted within the acceptance limits and should lie within the limits of its
 * requirement: ∫ p(x) P(measured accepted | x) dx over the x that do not conform, and the reverse.
 * Source: JCGM 106:2012, clause 9.5, eqs (19) and (20).
 * @throws TemperbookError for a spread or an uncertainty that is not above 0.
 */
export function decisionRisks(
  { mean, standardDeviation, standardUncertainty: u }: MeasuredParts,
  limits: ConformityLimits,
  acceptance: ConformityLimits,
): DecisionRisks {
  requireNumber(mean, 'Mean of the parts');
  requireNumber(standardDeviation, 'Standard deviation of the parts', { low: Number.MIN_VALUE });
  requireNumber(u, 'Standard uncertainty', { low: Number.MIN_VALUE });
  const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY } = limits;
  const accepted = (x: number): number =>
    (acceptance.upper === undefined ? 1 : normalProbability((acceptance.upper - x) / u)) -
    (acceptance.lower === undefined ? 0 : normalProbability((acceptance.lower - x) / u));
  // Steps end at the limits, so that none holds parts of both sorts.
  const edges = [-REACH, ...[lower, upper].map((limit) => (limit - mean) / standardDeviation), REACH]
    .map((z) => Math.min(REACH, Math.max(-REACH, z)))
    .sort((a, b) => a - b);
  let falseAccept = 0;
  let falseReject = 0;
  for (let part = 0; part + 1 < edges.length; part++) {
    const [from, to] = [edges[part]!, edges[part + 1]!];
    for (let k = 0; k < STEPS && to > from; k++) {
      const [a, b] = [from + ((to - from) * k) / STEPS, from + ((to - from) * (k + 1)) / STEPS];
      const x = mean + (standardDeviation * (a + b)) / 2;
      const share = normalProbability(b) - normalProbability(a);
      if (x < lower || x > upper) falseAccept += share * accepted(x);
      else falseReject += share * (1 - accepted(x));
    }
  }
  return { falseAccept, falseReject };
}
