/** 1, every x, every product of two: the terms of a quadratic surface. */
export function quadraticTerms(x: ArrayLike<number>): number[] {
  const terms = [1];
  for (let a = 0; a < x.length; a++) terms.push(x[a]!);
  for (let a = 0; a < x.length; a++) for (let b = a; b < x.length; b++) terms.push(x[a]! * x[b]!);
  return terms;
}

/** How many terms a quadratic surface over so many unknowns has, (n + 1)(n + 2)/2: derived by counting. */
export const quadraticTermCount = (unknowns: number): number => ((unknowns + 1) * (unknowns + 2)) / 2;
