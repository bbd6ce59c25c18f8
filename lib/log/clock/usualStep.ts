import { median } from '../columns/columnSample';

/** Middle of the steps that go forward, looked at in up to 4096 places. */
export function usualStep(values: Float64Array): number {
  const every = Math.max(1, Math.floor(values.length / 4096));
  const steps: number[] = [];
  for (let i = 1; i < values.length; i += every) {
    const step = values[i]! - values[i - 1]!;
    if (step > 0) steps.push(step);
  }
  // Differences of decimal times carry binary dust in their last digits.
  return steps.length === 0 ? 0 : Number(median(steps).toPrecision(9));
}
