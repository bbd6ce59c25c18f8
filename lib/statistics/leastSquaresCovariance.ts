import { Matrix, QrDecomposition, SingularValueDecomposition } from 'ml-matrix';

/** Spread of the unknowns around a least-squares solution. */
export interface Spread {
  readonly standardErrors: Float64Array;
  readonly correlation: readonly (readonly number[])[];
  readonly conditionNumber: number;
}

/**
 * Below this share of the largest singular value a direction counts as undetermined: the derivatives themselves
 * are good to about ε^(2/3) ≈ 4e-11, and a hundred times that is still noise.
 */
const RANK_LIMIT = 4e-9;

/**
 * variance · (JᵀJ)⁻¹ by singular values of the Jacobian with its columns scaled to length 1, so that units do not
 * matter (derived: the normal equations with a singular value decomposition). Unknowns that take part in an undetermined direction get an infinite standard error.
 */
export function covarianceOf(jacobian: Matrix, variance: number): Spread {
  const n = jacobian.columns;
  const lengths = Float64Array.from({ length: n }, (_, j) => jacobian.getColumnVector(j).norm() || 1);
  const scaled = Matrix.columnVector(new Array<number>(jacobian.rows).fill(1))
    .mmul(Matrix.rowVector(Array.from(lengths, (l) => 1 / l)))
    .mul(jacobian);
  // The triangle R of QR has the singular values of the whole, and is as small as the unknowns are few.
  const { diagonal, rightSingularVectors } = new SingularValueDecomposition(
    new QrDecomposition(scaled).upperTriangularMatrix,
  );
  const largest = Math.max(...diagonal);
  const determined = diagonal.map((s) => s > RANK_LIMIT * largest);
  const lost = (j: number) =>
    diagonal.some((_, k) => !determined[k] && Math.abs(rightSingularVectors.get(j, k)) > 1e-4);

  const inverse = (a: number, b: number) =>
    diagonal.reduce(
      (sum, s, k) =>
        determined[k]
          ? sum + (rightSingularVectors.get(a, k) * rightSingularVectors.get(b, k)) / s ** 2
          : sum,
      0,
    );
  const known = Array.from({ length: n }, (_, j) => !lost(j));
  const standardErrors = Float64Array.from({ length: n }, (_, j) =>
    known[j] ? Math.sqrt(variance * inverse(j, j)) / lengths[j]! : Infinity,
  );
  const correlation = Array.from({ length: n }, (_, a) =>
    Array.from({ length: n }, (_, b) => {
      if (a === b) return 1;
      return known[a] && known[b] ? inverse(a, b) / Math.sqrt(inverse(a, a) * inverse(b, b)) : 0;
    }),
  );
  const smallest = Math.min(...diagonal);
  return { standardErrors, correlation, conditionNumber: smallest > 0 ? largest / smallest : Infinity };
}
