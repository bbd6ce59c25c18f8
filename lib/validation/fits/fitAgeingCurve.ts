import type { AlloyLike } from '../../kinetics';
import { type AgeingShape, ageingShape, resolveAlloy } from '../../kinetics';
import { TemperbookError } from '../../quantity';
import { leastSquares } from '../../statistics';
import { type AgeingRow, ageingEvidence } from '../evidence/ageingEvidence';
import { ageingRowResidual } from '../residuals/ageingResiduals';

/** A fitted constant; low and high are one standard error away in its logarithm. */
interface FittedTerm {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** A calibration of the ageing curve with its errors. */
export interface AgeingFit {
  readonly maxStrengthMPa: FittedTerm;
  readonly peakTimeS: FittedTerm;
  readonly precipitationRatio: FittedTerm;
  /** Root mean square of measured minus curve over the fitted yields, no less than their own doubt, MPa. */
  readonly scatterMPa: number;
  readonly rows: number;
  readonly sumOfSquares: number;
}

/**
 * Fits the three constants of the ageing curve that the measured facts can carry: how strong, how fast, and how
 * long precipitation takes beside the peak time (this one with a prior of 0.05, a factor 2 wide, from fits to
 * the precipitate model). Solvus, activation energy and the solid-solution terms are taken from the card.
 * @param rows measured facts instead of the kit's own; only those marked `fit` count.
 */
export function fitAgeingCurve(alloy: AlloyLike, rows?: readonly AgeingRow[]): AgeingFit {
  const card = resolveAlloy(alloy, 'fit of the ageing curve');
  const facts = (rows ?? ageingEvidence(card.designation)).filter((row) => row.use === 'fit');
  if (!card.ageing || facts.length < 3)
    throw new TemperbookError(`The ageing curve of ${card.designation} cannot be fitted`, {
      found: card.ageing ? `${facts.length} facts` : 'a card without an "ageing" section',
      expected: 'at least 3 facts and the constants that are not fitted',
    });
  const fixed = ageingShape(card.ageing);
  const shape = (p: ArrayLike<number>): AgeingShape => ({
    ...fixed,
    maxStrengthMPa: Math.exp(p[0]!),
    peakTimeS: Math.exp(p[1]!),
    precipitationRatio: Math.exp(p[2]!),
  });
  const fit = leastSquares(
    (p) => Float64Array.from(facts, (row) => ageingRowResidual(row, shape(p)).residual),
    [
      { name: 'ln strength', start: Math.log(200) },
      { name: 'ln peak time', start: Math.log(100_000) },
      {
        name: 'ln precipitation ratio',
        start: Math.log(0.05),
        prior: { value: Math.log(0.05), standardError: Math.log(2) },
      },
    ],
    { noise: 'unit' },
  );
  const [strength, peakTime, ratio] = fit.unknowns.map(
    ({ value, standardError }): FittedTerm => ({
      value: Math.exp(value),
      low: Math.exp(value - standardError),
      high: Math.exp(value + standardError),
    }),
  );
  const end = shape(fit.unknowns.map(({ value }) => value));
  const yields = facts.flatMap((row) => (row.measured.kind === 'yield' ? [{ row, ...row.measured }] : []));
  const mean = (squares: number[]): number => squares.reduce((sum, d) => sum + d, 0) / squares.length;
  const misses = yields.map(({ row, yieldMPa }) => (yieldMPa - ageingRowResidual(row, end).nominal) ** 2);
  const doubts = yields.map(({ standardError }) => standardError ** 2);
  return {
    maxStrengthMPa: strength!,
    peakTimeS: peakTime!,
    precipitationRatio: ratio!,
    scatterMPa: Math.sqrt(Math.max(mean(misses), mean(doubts))),
    rows: facts.length,
    sumOfSquares: fit.residualSumOfSquares,
  };
}
