import type { AlloyCard, EvidenceRange } from '../../alloy';
import type { AlloyLike, OverageingShape } from '../../kinetics';
import { resolveAlloy, temperCurve } from '../../kinetics';
import { TemperbookError } from '../../quantity';
import { type FittedUnknown, type FitUnknown, leastSquares } from '../../statistics';
import { type OverageingRow, overageingEvidence } from '../evidence/overageingEvidence';
import { rowDose, rowResidual } from '../residuals/overageingResiduals';

/**
 * A fitted constant; low and high are one standard error away, for times in the logarithm. Where computed rows
 * are among the facts, the band of the time factor they were divided by adds to a time's as squares.
 */
export interface FittedConstant {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** A fit of the over-ageing curve with its errors. */
export interface OverageingFit {
  readonly softenTimeS: FittedConstant;
  /** Absent for a peak-aged temper: its gain is 0 by practice, not fitted. */
  readonly gainFraction?: FittedConstant;
  readonly riseTimeS?: FittedConstant;
  readonly evidence: EvidenceRange;
  readonly rows: number;
  /** Sum of squared residuals in standard errors; about rows − constants for an honest fit. */
  readonly sumOfSquares: number;
  /** Correlation of the unknowns, in the order soften, gain, rise. */
  readonly correlation: readonly (readonly number[])[];
}

/**
 * Fits the over-ageing curve of an alloy's T6 to the measured facts: maximum likelihood, tests that only give
 * a side counted as such (`censoredResidual`). Unknown are the logarithm of the coarsening time and, where
 * practice stops before the peak, the gain and the logarithm of its time; the floor, the activation energy and the power −1/3
 * are not. The start values do not depend on the card's constants, so that the fit stands on the data alone.
 * @param rows measured facts instead of the kit's own; only those marked `fit` count.
 * @throws TemperbookError when there are fewer facts than unknowns.
 */
export function fitOverageingCurve(alloy: AlloyLike, rows?: readonly OverageingRow[]): OverageingFit {
  const card = resolveAlloy(alloy, 'fit of the over-ageing curve');
  const facts = (rows ?? overageingEvidence(card.designation)).filter((row) => row.use === 'fit');
  const { entry } = temperCurve(card, 'T6');
  const doses = facts.map((row) => rowDose(card, row).nominal);
  const middle = Math.exp(doses.reduce((sum, d) => sum + Math.log(d), 0) / Math.max(doses.length, 1));
  const unknowns: FitUnknown[] = [{ name: 'ln soften', start: Math.log(middle) }];
  if (entry.underAged)
    unknowns.push(
      { name: 'gain', start: 0.5, low: 0 },
      { name: 'ln rise', start: Math.log(Math.min(...doses) / 2) },
    );
  if (facts.length < unknowns.length)
    throw new TemperbookError(`Too few facts to fit the over-ageing curve of ${card.designation}`, {
      found: `${facts.length}`,
      expected: `at least ${unknowns.length}`,
    });

  const shape = (p: ArrayLike<number>): OverageingShape =>
    entry.underAged
      ? { softenS: Math.exp(p[0]!), gain: p[1]!, riseS: Math.exp(p[2]!) }
      : { softenS: Math.exp(p[0]!), gain: 0, riseS: 1 };
  const fit = leastSquares(
    (p) => Float64Array.from(facts, (row) => rowResidual(card, row, shape(p))),
    unknowns,
    { noise: 'unit' },
  );
  const { value: factor, low: slowest, high: fastest } = card.overageing.timeFactor;
  const leansOnModel = facts.some((row) => row.computed);
  const fast = leansOnModel ? Math.log(fastest / factor) : 0;
  const slow = leansOnModel ? Math.log(factor / slowest) : 0;
  const time = ({ value, standardError }: FittedUnknown): FittedConstant => ({
    value: Math.exp(value),
    low: Math.exp(value - Math.hypot(standardError, fast)),
    high: Math.exp(value + Math.hypot(standardError, slow)),
  });
  const [soften, gain, rise] = fit.unknowns;
  return {
    softenTimeS: time(soften!),
    ...(gain && rise ? { gainFraction: share(gain), riseTimeS: time(rise) } : {}),
    evidence: evidenceRange(card, facts),
    rows: facts.length,
    sumOfSquares: fit.residualSumOfSquares,
    correlation: fit.correlation,
  };
}

const share = ({ value, standardError }: FittedUnknown): FittedConstant => ({
  value,
  low: Math.max(0, value - standardError),
  high: value + standardError,
});

/** What the measured (not computed) facts of a fit cover. */
function evidenceRange(card: AlloyCard, facts: readonly OverageingRow[]): EvidenceRange {
  const measured = facts.filter((row) => !row.computed);
  const temps = measured.flatMap((row) => row.exposure.map((soak) => soak.tempC));
  return {
    minC: Math.min(...temps),
    maxC: Math.max(...temps),
    longestDoseS: Math.max(...measured.map((row) => rowDose(card, row).nominal)),
  };
}
