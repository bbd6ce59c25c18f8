import { type ColumnSample, median } from './columnSample';

/** "Load 1", "Load A": a part of a furnace's load, or a force. */
export const LOAD = /^loads?[ _.#-]*(?:\d{1,3}|[a-z])?$/i;
/** A load begins or ends where the other columns do, in their unit. */
const ALIKE = 15;
/** It warms by at least this share of what they do. */
const LEAST_SHARE = 0.5;

/** Are the readings of a load without a unit those of the temperature columns beside it, and no force? */
export function readsLikeTemperatures(load: ColumnSample, others: readonly ColumnSample[]): boolean {
  const own = rangeOf(load);
  const ranges = others.map(rangeOf);
  const middle = (pick: (range: Range) => number) => median(ranges.map(pick));
  const isAlike = (pick: (range: Range) => number) => Math.abs(pick(own) - middle(pick)) <= ALIKE;
  const highest = Math.max(...ranges.map(({ high }) => high));
  const lowest = Math.min(0, ...ranges.map(({ low }) => low));
  return (
    (isAlike(({ start }) => start) || isAlike(({ end }) => end)) &&
    own.low >= lowest - ALIKE &&
    own.high <= highest + ALIKE &&
    own.high - own.low >= LEAST_SHARE * middle(({ low, high }) => high - low)
  );
}

interface Range {
  readonly start: number;
  readonly end: number;
  readonly low: number;
  readonly high: number;
}

function rangeOf({ numbers }: ColumnSample): Range {
  const filled = numbers.filter((value) => !Number.isNaN(value));
  return {
    start: filled[0] ?? Number.NaN,
    end: filled[filled.length - 1] ?? Number.NaN,
    low: Math.min(...filled),
    high: Math.max(...filled),
  };
}
