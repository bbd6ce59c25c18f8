import type { OpenReading, ReadOptions, ThermalLog, WayToRead } from '../log';
import { TemperbookError } from '../quantity';
import { judge } from './judge';
import type { JudgeOptions } from './judgeOptions';
import type { Verdict } from './verdict';
import { VERDICT_IN_WORDS } from './wording';

/** One way to read a file, and the words it leads to: more than one while another reading is open under it. */
export interface JudgedWay extends WayToRead {
  readonly verdicts: readonly string[];
}

/** An open reading on which the word hangs. */
export interface UndecidedReading {
  readonly file: string;
  readonly reading: OpenReading;
  /** The likeliest first. */
  readonly ways: readonly JudgedWay[];
}

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
  if (log.openReadings.length === 0) return { log, same: [] };
  const { verdicts: _, ...settled } = judgeWays(log, read, options, new Set());
  return settled;
}

/** Every way differs, so somebody must say: an error that names the option, its values and where each leads. */
export function undecidedError({ file, reading, ways }: UndecidedReading): TemperbookError {
  return new TemperbookError(`${reading.because} The word hangs on it`, {
    file,
    found: ways.map((way) => `${way.words}: ${way.verdicts.join(', or ')}`).join('; '),
    expected: 'one of them said',
    remedy: `Say which by option ${reading.option}, as reading options ${ways.map((way) => `${JSON.stringify(ownOptions(way, reading))} for ${way.words}`).join(', or ')}`,
  });
}

interface JudgedWays extends SettledLog {
  readonly verdicts: readonly string[];
}

function judgeWays(
  log: ThermalLog,
  read: (options: ReadOptions) => ThermalLog,
  options: JudgeOptions,
  settled: ReadonlySet<string>,
): JudgedWays {
  const reading = log.openReadings.find(({ because }) => !settled.has(because));
  if (!reading) {
    const closed = { ...log, openReadings: [] };
    return { log: closed, same: [], verdicts: [wordsOf(judge(closed, options))] };
  }
  const under = new Set([...settled, reading.because]);
  const ways = [reading.taken, ...reading.other];
  const answers = ways.map(({ options: readOptions }, k): JudgedWays => {
    try {
      return judgeWays(read(readOptions), read, options, under);
    } catch (error) {
      if (k > 0 && error instanceof TemperbookError)
        return { log, same: [], verdicts: [`cannot be judged: ${error.message}`] };
      throw error;
    }
  });
  const best = answers[0]!;
  const verdicts = [...new Set(answers.flatMap((answer) => answer.verdicts))];
  if (verdicts.length > 1) {
    // Where all ways leave the same choice, the choice is another reading's.
    const isSame = answers.every((answer) => answer.verdicts.join() === best.verdicts.join());
    const judged = ways.map((way, k) => ({ ...way, verdicts: answers[k]!.verdicts }));
    const own = { file: log.source.name, reading, ways: judged };
    return { ...best, verdicts, undecided: (isSame && best.undecided) || own };
  }
  const others = reading.other.map(({ words }) => words).join(' or ');
  const note = `${reading.because} It is read as ${reading.taken.words}; read as ${others} the word is the same.`;
  return { log: { ...best.log, notes: [...best.log.notes, note] }, same: [note, ...best.same], verdicts };
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

/** The part of a way's options that settles the reading: what is to be said. */
function ownOptions({ options }: WayToRead, { option }: OpenReading): ReadOptions {
  const [key] = option.split('.') as [keyof ReadOptions];
  return { [key]: options[key] };
}
