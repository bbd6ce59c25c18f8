import type { PropertyTable } from './alloyCard';

/** A property of a table at a temperature: the straight line between points, the end values outside. */
export function propertyAt({ tempC, value }: PropertyTable, atC: number): number {
  const above = tempC.findIndex((t) => t >= atC);
  if (above === 0) return value[0]!;
  if (above < 0) return value[value.length - 1]!;
  const share = (atC - tempC[above - 1]!) / (tempC[above]! - tempC[above - 1]!);
  return value[above - 1]! + share * (value[above]! - value[above - 1]!);
}
