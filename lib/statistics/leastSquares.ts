import { Matrix } from 'ml-matrix';
import { requireNumber, TemperbookError } from '../quantity';
import { covarianceOf } from './leastSquaresCovariance';
import {
  type Derivative,
  type Derived,
  differentiate,
  minimise,
  sumOfSquares,
} from './leastSquaresIteration';

/** One unknown of a fit. */
export interface FitUnknown {
  readonly name: string;
  readonly start: number;
  /** Bounds the fit never leaves. */
  readonly low?: number;
  readonly high?: number;
  /** What was known before: a normal distribution, its value within the bounds. Counts as one more reading. */
  readonly prior?: { readonly value: number; readonly standardError: number };
  /**
   * Step of the numerical derivative, in the unit of the unknown: one-sided, for a slow model whose own error is
   * larger than rounding. Default: central difference at ε^(1/3) of the value.
   */
  readonly derivativeStep?: number;
}

/** One unknown after the fit. */
export interface FittedUnknown {
  readonly name: string;
  readonly value: number;
  /** Standard error from the curvature at the solution; `Infinity` when the readings do not determine it. */
  readonly standardError: number;
  /** The bound the value came to rest on, when it did. The standard errors are then only indicative. */
  readonly atBound?: 'low' | 'high';
}

/** Where the fit ended and how sure it is. */
export interface LeastSquaresFit {
  readonly unknowns: readonly FittedUnknown[];
  /** Residuals at the solution, without the rows of the priors. */
  readonly residuals: Float64Array;
  /** Sum of the squares of `residuals`. */
  readonly residualSumOfSquares: number;
  /** √(sum of squares / degrees of freedom), the priors counted as readings; 0 when no freedom is left. */
  readonly residualStandardDeviation: number;
  readonly degreesOfFreedom: number;
  /** Row by row in the order of `unknowns`; NaN-free, 0 beside an undetermined unknown. */
  readonly correlation: readonly (readonly number[])[];
  /** Largest over smallest singular value of the Jacobian with columns scaled to length 1. */
  readonly conditionNumber: number;
  /** Names of unknowns the readings cannot determine at all. */
  readonly undetermined: readonly string[];
  /** The derivative the standard errors are of, without the rows of the priors: for a fit of nearly the same. */
  readonly derived: Derived;
  readonly converged: boolean;
  /** Why the iterations ended, one sentence. */
  readonly ending: string;
  readonly iterations: number;
  /** Times the model was run. */
  readonly evaluations: number;
}

/** How a fit is run. */
export interface LeastSquaresOptions {
  /**
   * 'estimated' (default): all residuals share one unknown noise, estimated from them. 'unit': each residual is
   * already divided by its known standard error. Priors need 'unit'.
   */
  readonly noise?: 'estimated' | 'unit';
  readonly maxIterations?: number;
  /** Ends when a step changes every unknown by less than this fraction; default 1e-10. */
  readonly tolerance?: number;
  /** Ends, too, when a step would lower the sum of squares by less than this share; default `tolerance` squared. */
  readonly trifle?: number;
  /** Ends, too, when a step would go no further than this many standard errors in any direction; default 0. */
  readonly withinErrors?: number;
  /**
   * 'each step' (default). For a slow model 'kept': taken anew only where a step does not do what the derivative says,
   * and before the end where it was taken more than a standard error away. 'kept to the end' does without the latter,
   * for a fit that another one goes on from: its standard errors are rough.
   */
  readonly derivative?: Derivative;
  /** What a derivative that is kept begins with: that of a fit of nearly the same model to the same readings. */
  readonly derived?: Derived;
  /** Called after each accepted step, so that a long fit can show that it is alive. */
  readonly onStep?: (iteration: number, sumOfSquares: number) => void;
}

/**
 * Nonlinear least squares: the unknowns that make the sum of squared residuals smallest, by Levenberg–Marquardt
 * within a trust region, unknowns scaled by their largest Jacobian column so far (J. J. Moré, Lecture Notes in
 * Mathematics 630, 1978, 105-116). Steps by QR factorisation, never by normal equations. Bounds hold by
 * projection: an unknown on its bound that wants to leave is held there.
 *
 * Covariance is s² (JᵀJ)⁻¹, or (JᵀJ)⁻¹ with unit noise, from the Jacobian at the solution.
 * Checked against 19 nonlinear sets of NIST StRD from both starting points (test/published).
 *
 * @param model unknowns, in the order given → residuals (reading minus prediction), always equally many. A
 * non-finite residual marks a place the fit turns back from.
 * @throws TemperbookError on no unknowns, fewer readings than unknowns, a start or a prior outside its bounds,
 * or a model that gives no number at the start.
 */
export function leastSquares(
  model: (values: Float64Array) => Float64Array,
  unknowns: readonly FitUnknown[],
  options: LeastSquaresOptions = {},
): LeastSquaresFit {
  const { noise = 'estimated', maxIterations = 1000, tolerance = 1e-10, onStep } = options;
  const { withinErrors = 0, derivative = 'each step', derived } = options;
  // Rounding is no reason to go on.
  const { trifle = Math.max(tolerance ** 2, 1e-14) } = options;
  checkUnknowns(unknowns, noise);
  const priors = unknowns.flatMap(({ prior }, index) => (prior ? [{ index, ...prior }] : []));
  let evaluations = 0;
  const withPriors = (values: Float64Array): Float64Array => {
    evaluations++;
    const readings = model(values);
    const all = new Float64Array(readings.length + priors.length);
    all.set(readings);
    priors.forEach(({ index, value, standardError }, k) => {
      all[readings.length + k] = (value - values[index]!) / standardError;
    });
    return all;
  };
  const withPriorRows = (jacobian: Matrix): Matrix => {
    const all = Matrix.zeros(jacobian.rows + priors.length, jacobian.columns).setSubMatrix(jacobian, 0, 0);
    priors.forEach(({ index, standardError }, k) => {
      all.set(jacobian.rows + k, index, -1 / standardError);
    });
    return all;
  };

  const end = minimise(withPriors, unknowns, {
    maxIterations,
    tolerance,
    trifle,
    withinErrors,
    derivative,
    derived: derived && { ...derived, jacobian: withPriorRows(derived.jacobian) },
    noise,
    onStep,
  });
  const rows = end.residuals.length;
  const last =
    derivative !== 'each step' && end.derived
      ? end.derived
      : {
          jacobian: differentiate(withPriors, unknowns, end.values, end.residuals),
          values: end.values,
        };
  const degreesOfFreedom = rows - unknowns.length;
  const variance = degreesOfFreedom > 0 ? sumOfSquares(end.residuals) / degreesOfFreedom : 0;
  const spread = covarianceOf(last.jacobian, noise === 'unit' ? 1 : variance);
  const residuals = end.residuals.slice(0, rows - priors.length);
  return {
    unknowns: unknowns.map((u, j) => ({
      name: u.name,
      value: end.values[j]!,
      standardError: spread.standardErrors[j]!,
      ...(end.values[j] === u.low ? { atBound: 'low' as const } : {}),
      ...(end.values[j] === u.high ? { atBound: 'high' as const } : {}),
    })),
    residuals,
    residualSumOfSquares: sumOfSquares(residuals),
    residualStandardDeviation: Math.sqrt(variance),
    degreesOfFreedom,
    correlation: spread.correlation,
    conditionNumber: spread.conditionNumber,
    undetermined: unknowns.filter((_, j) => spread.standardErrors[j] === Infinity).map((u) => u.name),
    derived: {
      ...last,
      jacobian: last.jacobian.subMatrix(0, residuals.length - 1, 0, unknowns.length - 1),
    },
    converged: end.converged,
    ending: end.ending,
    iterations: end.iterations,
    evaluations,
  };
}

function checkUnknowns(unknowns: readonly FitUnknown[], noise: 'estimated' | 'unit'): void {
  if (unknowns.length === 0) throw new TemperbookError('A fit needs at least one unknown', { found: 'none' });
  for (const { name, start, low = -Infinity, high = Infinity, prior } of unknowns) {
    if (!(low < high))
      throw new TemperbookError(`The bounds of ${name} leave no room to fit it`, {
        found: `${low} to ${high}`,
        remedy: 'Widen the bounds, or leave it out of the fit',
      });
    requireNumber(start, `The starting value of ${name}`, { low, high });
    if (!prior) continue;
    requireNumber(prior.value, `The prior value of ${name}`, { low, high });
    requireNumber(prior.standardError, `The standard error of the prior of ${name}`, {
      low: Number.MIN_VALUE,
    });
    if (noise !== 'unit')
      throw new TemperbookError(`The prior of ${name} cannot be weighed against readings of unknown noise`, {
        remedy: "Divide the residuals by their standard error and say noise: 'unit'",
      });
  }
}
