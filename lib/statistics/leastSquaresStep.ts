import { Matrix, QrDecomposition } from 'ml-matrix';

/** Length of a step, each unknown measured by its scale. */
export const scaledLength = (step: Float64Array, scale: Float64Array): number =>
  Math.sqrt(step.reduce((sum, x, j) => sum + (x * scale[j]!) ** 2, 0));

/**
 * The step of the free unknowns that makes the linearised residuals r + Jδ smallest among steps whose scaled
 * length is at most `radius`: the Gauss–Newton step if short enough, else the damped one that ends within 10 %
 * of the radius (Moré 1978, section 5). J is factorised once; each trial damping solves a small system only.
 */
export function stepWithin(
  radius: number,
  jacobian: Matrix,
  residuals: Float64Array,
  free: readonly number[],
  scale: Float64Array,
): Float64Array {
  // R of [J r] holds the triangle of J and, as its last column, Qᵀr: Q itself, as long as the log, is not needed.
  const n = free.length;
  const beside = Matrix.zeros(Math.max(residuals.length, n + 1), n + 1);
  free.forEach((j, k) => {
    for (let i = 0; i < residuals.length; i++) beside.set(i, k, jacobian.get(i, j) / scale[j]!);
  });
  for (let i = 0; i < residuals.length; i++) beside.set(i, n, -residuals[i]!);
  const { upperTriangularMatrix: whole } = new QrDecomposition(beside);
  const triangle = whole.subMatrix(0, n - 1, 0, n - 1);
  const right = whole.subMatrix(0, n - 1, n, n);
  const stepFor = (logDamping: number) => {
    const small = dampedSolution(triangle, right, Math.exp(logDamping / 2));
    const step = new Float64Array(scale.length);
    free.forEach((j, k) => {
      step[j] = small.get(k, 0) / scale[j]!;
    });
    return step;
  };

  // Columns have a scaled length of at most 1, so dampings from e^-120 (none) to e^100 (any radius) suffice.
  let [low, high] = [-120, 100];
  let step = stepFor(low);
  if (scaledLength(step, scale) <= radius) return step;
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    step = stepFor(middle);
    const length = scaledLength(step, scale);
    if (Math.abs(length / radius - 1) < 0.1) return step;
    if (length > radius) low = middle;
    else high = middle;
  }
  return step;
}

function dampedSolution(triangle: Matrix, right: Matrix, rootDamping: number): Matrix {
  const n = triangle.columns;
  const stacked = new Matrix(2 * n, n).setSubMatrix(triangle, 0, 0);
  for (let k = 0; k < n; k++) stacked.set(n + k, k, rootDamping);
  return new QrDecomposition(stacked).solve(new Matrix(2 * n, 1).setSubMatrix(right, 0, 0));
}
