import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { TemperbookError } from '../../quantity';
import type { Calibration } from './calibration';

/** How many standard errors they lie from the fitted values: about 95 of 100. */
const ERRORS = 2;

/**
 * Values as far from the fitted ones as the log allows: two standard errors either way along each of the fit's
 * independent directions. Run the model with each: the effects of the pairs on any result are independent of one
 * another, so they add as squares, and what the log cannot tell apart moves together as it must. The directions
 * are those of the correlation matrix R = V Λ Vᵀ, so the k-th pair is value ± 2 σ √λₖ vₖ. Values stay within the
 * band of the fit, and so within its bounds.
 * @throws TemperbookError when the log does not determine a value.
 */
export function farthestFits<Name extends string>({
  names,
  values,
  standardErrors,
  correlation,
}: Calibration<Name>): [less: Record<Name, number>, more: Record<Name, number>][] {
  const known = names as readonly Name[];
  for (const name of known)
    if (!Number.isFinite(standardErrors[name]))
      throw new TemperbookError(`The log does not determine ${name}: nothing can be predicted from it`, {
        remedy: 'Fix it at a value you know, or give it a prior',
      });
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(
    new Matrix(correlation.map((row) => [...row])),
    { assumeSymmetric: true },
  );
  const shifted = (k: number, errors: number): Record<Name, number> => {
    const away = errors * Math.sqrt(Math.max(0, realEigenvalues[k]!));
    const entries = known.map((name, j): [Name, number] => {
      const { nominal, low, high } = values[name];
      const value = nominal + away * standardErrors[name] * eigenvectorMatrix.get(j, k);
      return [name, Math.min(high, Math.max(low, value))];
    });
    return Object.fromEntries(entries) as Record<Name, number>;
  };
  return known.map((_, k) => [shifted(k, -ERRORS), shifted(k, ERRORS)]);
}
