import { type ReadOptions, settleWays, type ThermalLog, type UndecidedReading } from '../log';
import { judge } from './judge';
import type { JudgeOptions } from './judgeOptions';
import type { Verdict } from './verdict';
import { VERDICT_IN_WORDS } from './wording';

/** A log whose open readings were judged one way and the other. */
export interface SettledLog {
  /** Read in the likeliest way; nothing in it is open. */
  readonly log: ThermalLog;
  /** Readings that made no difference, in sentences; they stand in the log's notes as well. */
  readonly same: readonly string[];
  /** The reading that must be settled first; absent when every way of reading leads to the same words. */
  readonly undecided?: UndecidedReading;
}

/**
 * Judges a log in every way in which its file may be meant. Where all lead to the same word for the part and for each
 * probe, the likeliest is taken and a note says so; where they do not, `undecided` names the reading it hangs on.
 * @param read Reads the same file with other options.
 * @throws TemperbookError as `judge` does for the likeliest way.
 */
export function settleReadings(
  log: ThermalLog,
  read: (options: ReadOptions) => ThermalLog,
  options: JudgeOptions,
): SettledLog {
  const { logs, same, undecided } = settleWays(
    [log],
    (_, other) => read(other),
    ([closed]) => wordsOf(judge(closed!, options)),
  );
  return { log: logs[0]!, same, ...(undecided ? { undecided } : {}) };
}

/** The words that must agree: the part's, and each probe's where it is another. */
function wordsOf({ verdict, channels, notJudged }: Verdict): string {
  const others = [
    ...channels
      .filter((channel) => channel.verdict !== verdict)
      .map((channel) => `${VERDICT_IN_WORDS[channel.verdict]} at ${channel.name}`),
    ...notJudged.map(({ name }) => `${name} not judged`),
  ];
  return [VERDICT_IN_WORDS[verdict], ...(others.length > 0 ? [`(${others.join('; ')})`] : [])].join(' ');
}
