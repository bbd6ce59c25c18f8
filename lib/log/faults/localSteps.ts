import { at, type Trace } from './trace';

/** Steps looked at on either side. */
const REACH = 8;
/** Share of the steps around that are no larger than the size told. */
const QUIET_SHARE = 0.3;

/** How a trace moves around a place, K per sample. */
export interface LocalSteps {
  /** Middle step, with its sign. */
  readonly trend: number;
  /** Size of a quiet step: three in ten are no larger. */
  readonly size: number;
}

/**
 * Steps of a trace around positions [from, to], those into, inside and out of it left out. A low share of them,
 * not the mean, tells their size, so that other spikes nearby do not hide this one.
 */
export function localSteps(trace: Trace, from: number, to: number): LocalSteps {
  const steps: number[] = [];
  for (let j = Math.max(1, from - REACH); j < from; j++) steps.push(at(trace, j) - at(trace, j - 1));
  for (let j = to + 2; j < Math.min(trace.count, to + 2 + REACH); j++)
    steps.push(at(trace, j) - at(trace, j - 1));
  if (steps.length === 0) return { trend: 0, size: 0 };
  const trend = steps.sort((a, b) => a - b)[steps.length >> 1]!;
  const sizes = steps.map(Math.abs).sort((a, b) => a - b);
  return { trend, size: sizes[Math.floor(sizes.length * QUIET_SHARE)]! };
}
