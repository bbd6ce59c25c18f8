import { TemperbookError } from '../quantity';
import type { ReadOptions } from './readOptions';
import type { OpenReading, ThermalLog, WayToRead } from './thermalLog';

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

/** Logs whose open readings were judged one way and the other. */
export interface SettledLogs {
  /** Read in the likeliest way; nothing in them is open. */
  readonly logs: readonly ThermalLog[];
  /** Readings that made no difference, in sentences; they stand in the logs' notes as well. */
  readonly same: readonly string[];
  /** The reading that must be settled first, and of which of the logs; absent when every way leads to the same words. */
  readonly undecided?: UndecidedReading & { readonly of: number };
}

interface JudgedWays extends SettledLogs {
  readonly verdicts: readonly string[];
}

/**
 * Judges logs in every way in which their files may be meant. Where all lead to the same words, the likeliest is taken and a
 * note says so; where they do not, `undecided` names the reading it hangs on.
 * @param read Reads the k-th file with other options.
 * @param wordsOf The words that must agree, of logs in which nothing is open.
 * @throws TemperbookError as `wordsOf` does for the likeliest way.
 */
export function settleWays(
  logs: readonly ThermalLog[],
  read: (k: number, options: ReadOptions) => ThermalLog,
  wordsOf: (logs: readonly ThermalLog[]) => string,
): SettledLogs {
  if (logs.every(({ openReadings }) => openReadings.length === 0)) return { logs, same: [] };
  const judgeWays = (open: readonly ThermalLog[], settled: readonly ReadonlySet<string>[]): JudgedWays => {
    const of = open.findIndex(({ openReadings }, k) =>
      openReadings.some((one) => !settled[k]!.has(one.because)),
    );
    if (of < 0) {
      const closed = open.map((log) => ({ ...log, openReadings: [] }));
      return { logs: closed, same: [], verdicts: [wordsOf(closed)] };
    }
    const reading = open[of]!.openReadings.find(({ because }) => !settled[of]!.has(because))!;
    const under = settled.map((told, k) => (k === of ? new Set([...told, reading.because]) : told));
    const ways = [reading.taken, ...reading.other];
    const answers = ways.map(({ options }, k): JudgedWays => {
      try {
        return judgeWays(
          open.map((log, j) => (j === of ? read(of, options) : log)),
          under,
        );
      } catch (error) {
        if (k > 0 && error instanceof TemperbookError)
          return { logs: open, same: [], verdicts: [`cannot be judged: ${error.message}`] };
        throw error;
      }
    });
    const best = answers[0]!;
    const verdicts = [...new Set(answers.flatMap((answer) => answer.verdicts))];
    if (verdicts.length > 1) {
      // Where all ways leave the same choice, the choice is another reading's.
      const isSame = answers.every((answer) => answer.verdicts.join() === best.verdicts.join());
      const judged = ways.map((way, k) => ({ ...way, verdicts: answers[k]!.verdicts }));
      const own = { of, file: open[of]!.source.name, reading, ways: judged };
      return { ...best, verdicts, undecided: (isSame && best.undecided) || own };
    }
    const others = reading.other.map(({ words }) => words).join(' or ');
    const note = `${reading.because} It is read as ${reading.taken.words}; read as ${others} the word is the same.`;
    return {
      logs: best.logs.map((log, k) => (k === of ? { ...log, notes: [...log.notes, note] } : log)),
      same: [note, ...best.same],
      verdicts,
    };
  };
  const { verdicts: _, ...found } = judgeWays(
    logs,
    logs.map(() => new Set<string>()),
  );
  return found;
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

/** The part of a way's options that settles the reading: what is to be said. */
function ownOptions({ options }: WayToRead, { option }: OpenReading): ReadOptions {
  const [key] = option.split('.') as [keyof ReadOptions];
  return { [key]: options[key] };
}
