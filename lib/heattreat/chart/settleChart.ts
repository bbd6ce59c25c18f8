import { type ReadOptions, settleWays, type ThermalLog, type UndecidedReading } from '../../log';
import type { ChartCheck } from './checkChart';

/** A chart that was checked in every way in which its files may be meant. */
export interface SettledChart {
  /** As its files are likeliest meant; its notes say what made no difference. */
  readonly check: ChartCheck;
  /** The reading the answers hang on, and of which of the files; absent when every way leads to the same. */
  readonly undecided?: UndecidedReading & { readonly of: number };
}

/**
 * Checks a chart, or the charts of one load, in every way in which the files may be meant.
 * @param read Reads the k-th file with other options.
 * @param wordsOf What must agree; the sentence of the check unless you say.
 * @throws TemperbookError as `check` does for the likeliest way.
 */
export function settleChart(
  logs: readonly ThermalLog[],
  read: (k: number, options: ReadOptions) => ThermalLog,
  check: (logs: readonly ThermalLog[]) => ChartCheck,
  wordsOf: (check: ChartCheck) => string = ({ sentence }) => sentence.replace(/\.$/, ''),
): SettledChart {
  const { logs: closed, same, undecided } = settleWays(logs, read, (ways) => wordsOf(check(ways)));
  const found = check(closed);
  return { check: { ...found, notes: [...found.notes, ...same] }, ...(undecided ? { undecided } : {}) };
}
