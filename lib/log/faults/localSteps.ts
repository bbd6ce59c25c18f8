/** Steps looked at on either side. */
const REACH = 4;

/** How a trace moves around a place: middle step with its sign, and middle size of a step, K per sample. */
export interface LocalSteps {
  readonly trend: number;
  readonly size: number;
}

/**
 * Middle of the steps between trusted readings around positions [from, to] of `rows`, those into, inside and
 * out of it left out. The middle, not the mean, so that another spike nearby does not hide this one.
 */
export function localSteps(
  tempC: Float64Array,
  rows: Uint32Array,
  count: number,
  from: number,
  to: number,
): LocalSteps {
  const steps: number[] = [];
  for (let j = Math.max(1, from - REACH); j < from; j++) steps.push(tempC[rows[j]!]! - tempC[rows[j - 1]!]!);
  for (let j = to + 2; j < Math.min(count, to + 2 + REACH); j++)
    steps.push(tempC[rows[j]!]! - tempC[rows[j - 1]!]!);
  if (steps.length === 0) return { trend: 0, size: 0 };
  const middle = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1]!;
  return { trend: middle([...steps]), size: middle(steps.map(Math.abs)) };
}
