import { normalQuantile } from '../../../statistics';

/** Step of each dimension of the R sequence: powers of 1/φ, φ the positive root of x^(d+1) = x + 1. */
function steps(dimensions: number): number[] {
  let phi = 2;
  for (let k = 0; k < 60; k++) phi = (1 + phi) ** (1 / (dimensions + 1));
  return Array.from({ length: dimensions }, (_, k) => phi ** -(k + 1));
}

/**
 * Standard normal scores, evenly spread in all dimensions together: the additive recurrence R_d.
 * Source: M. Roberts, The unreasonable effectiveness of quasirandom sequences (2018).
 */
export function scoreSequence(count: number, dimensions: number): number[][] {
  const step = steps(dimensions);
  return Array.from({ length: count }, (_, i) =>
    step.map((s) => normalQuantile(Math.min(1 - 1e-9, Math.max(1e-9, (0.5 + (i + 1) * s) % 1)))),
  );
}
