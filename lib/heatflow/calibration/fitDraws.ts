import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { requireNumber, TemperbookError } from '../../quantity';
import { seededRandom } from '../../statistics';
import type { Calibration, CalibrationUnknown } from './calibration';

/**
 * Plausible values of what was fitted, all as far from the fitted ones and from one another as the log allows: normal
 * with the fit's covariance R = V Λ Vᵀ scaled by the standard errors, so that what the log cannot tell apart moves
 * together. A value beyond the bounds of its unknown is drawn again. Same seed, same draws; a longer list begins with
 * the shorter one.
 * @throws TemperbookError when the log does not determine a value.
 */
export function fitDraws<Name extends string>(
  { names, values, standardErrors, correlation }: Calibration<Name>,
  count: number,
  seed = 1,
  bounds: Partial<Record<Name, Pick<CalibrationUnknown, 'low' | 'high'>>> = {},
): Record<Name, number>[] {
  requireNumber(count, 'The number of draws', { low: 1, high: 1e6 });
  const known = names as readonly Name[];
  for (const name of known)
    if (!Number.isFinite(standardErrors[name]))
      throw new TemperbookError(`The log does not determine ${name}: nothing can be drawn from it`, {
        remedy: 'Fix it at a value you know, or give it a prior',
      });
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(
    new Matrix(correlation.map((row) => [...row])),
    { assumeSymmetric: true },
  );
  const random = seededRandom(seed);
  const draw = (): Record<Name, number> => {
    const along = realEigenvalues.map((value) => Math.sqrt(Math.max(0, value)) * random.normal());
    const entries = known.map((name, j): [Name, number] => {
      const away = along.reduce((sum, size, k) => sum + size * eigenvectorMatrix.get(j, k), 0);
      return [name, values[name].nominal + standardErrors[name] * away];
    });
    return Object.fromEntries(entries) as Record<Name, number>;
  };
  const isWithin = (drawn: Record<Name, number>) =>
    known.every((name) => {
      const { low = -Infinity, high = Infinity } = bounds[name] ?? {};
      return drawn[name] >= low && drawn[name] <= high;
    });
  return Array.from({ length: count }, () => {
    for (let again = 0; again < MOST_TRIES; again++) {
      const drawn = draw();
      if (isWithin(drawn)) return drawn;
    }
    throw new TemperbookError('The fit rests so hard on its bounds that nothing can be drawn within them', {
      remedy: 'Widen the bounds, or check the plan: its warnings say which value rests on one',
    });
  });
}

const MOST_TRIES = 1000;
