import { Matrix, pseudoInverse } from 'ml-matrix';

/** 1, every x, every product of two: the terms of a quadratic surface. */
export function quadraticTerms(x: ArrayLike<number>): number[] {
  const terms = [1];
  for (let a = 0; a < x.length; a++) terms.push(x[a]!);
  for (let a = 0; a < x.length; a++) for (let b = a; b < x.length; b++) terms.push(x[a]! * x[b]!);
  return terms;
}

/** How many terms a quadratic surface over so many unknowns has. */
export const quadraticTermCount = (unknowns: number): number => ((unknowns + 1) * (unknowns + 2)) / 2;

/**
 * Quadratic surfaces through many quantities seen at the same points, by least squares: row t of the answer is the
 * coefficient of term t for every quantity.
 */
export function quadraticFit(points: readonly ArrayLike<number>[], values: readonly Float64Array[]): Matrix {
  const terms = new Matrix(points.map((x) => quadraticTerms(x)));
  return pseudoInverse(terms).mmul(new Matrix(values.map((row) => [...row])));
}

/** The quantities of a fit at a point. */
export function quadraticAt(fit: Matrix, x: ArrayLike<number>): Float64Array {
  const terms = quadraticTerms(x);
  const found = new Float64Array(fit.columns);
  for (let t = 0; t < terms.length; t++) {
    const by = terms[t]!;
    for (let j = 0; j < found.length; j++) found[j]! += by * fit.get(t, j);
  }
  return found;
}
