/** One term of a surface: the directions whose product it is; none is the constant, one twice its square. */
export type SurfaceTerm = readonly number[];

/**
 * The terms of a surface: a constant, every direction, squares and products of two of those that are curved, and what is
 * named beyond.
 */
export function surfaceTerms(
  curved: readonly boolean[],
  beyond: readonly SurfaceTerm[],
): readonly SurfaceTerm[] {
  const all = [...curved.keys()];
  const bent = all.filter((a) => curved[a]);
  return [[], ...all.map((a) => [a]), ...bent.flatMap((a, i) => bent.slice(i).map((b) => [a, b])), ...beyond];
}

/** The values of terms at a point. */
export const termsAt = (terms: readonly SurfaceTerm[], x: ArrayLike<number>): number[] =>
  terms.map((term) => term.reduce((product, a) => product * x[a]!, 1));
