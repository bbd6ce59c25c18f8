/**
 * The terms of a surface over x: 1, every x, every product of two, the cubes of some. Cubes are for what is known to a
 * factor only and does much: a clamp or an arc levels off at both ends of its band, and a parabola cannot.
 */
export function surfaceTerms(x: ArrayLike<number>, cubed: readonly number[]): number[] {
  const terms = [1];
  for (let a = 0; a < x.length; a++) terms.push(x[a]!);
  for (let a = 0; a < x.length; a++) for (let b = a; b < x.length; b++) terms.push(x[a]! * x[b]!);
  for (const a of cubed) terms.push(x[a]! ** 3);
  return terms;
}

/** How many terms a surface over so many unknowns has before its cubes. */
export const quadraticTermCount = (unknowns: number): number => ((unknowns + 1) * (unknowns + 2)) / 2;
