import type { Verdict } from '../decision';
import { lastAtOrBefore } from '../history';
import type { ThermalLog } from '../log';
import type { StrengthTrack } from '../strength';
import { type Frame, loadDanfo } from './files/loadDanfo';
import type { TableRow } from './table';

/** A reading as one row: time in s, the channel, °C. */
export type ReadingRow = TableRow & {
  readonly time: number;
  readonly channel: string;
  readonly tempC: number;
};

/** The same with what was kept of the yield strength by then: the middle, 5 and 95 %, as fractions. */
export type JudgedReadingRow = ReadingRow & {
  readonly yieldKept: number;
  readonly low: number;
  readonly high: number;
};

/**
 * One row for each trusted reading of each channel: `time` (s), `channel`, `tempC` (to 0.01 °C). With the verdict of that
 * log also `yieldKept`, `low` and `high` (fractions, to 0.0001) by the time of the reading; then only channels that were
 * judged have rows. Every field of every row is filled. Readings left out are in `faultRows`.
 */
export function tidyRows(log: ThermalLog): ReadingRow[];
export function tidyRows(log: ThermalLog, verdict: Verdict): JudgedReadingRow[];
export function tidyRows({ channels }: ThermalLog, verdict?: Verdict): ReadingRow[] {
  return channels.flatMap(({ name, history }) => {
    const judged = verdict?.channels.find((channel) => channel.name === name);
    if (verdict !== undefined && judged === undefined) return [];
    return Array.from(history.timeS, (timeS, i) => ({
      time: timeS,
      channel: name,
      tempC: rounded(history.tempC[i]!, 2),
      ...(judged && keptAt(judged.track, timeS)),
    }));
  });
}

/**
 * A log as a data frame of danfojs-node, one row a reading: the columns of `tidyRows`. To look at, group, sort and export;
 * whatever is worked out belongs in the kit, before the frame is made.
 * @throws TemperbookError where danfojs-node is not installed.
 */
export function toDataFrame(log: ThermalLog, verdict?: Verdict): Frame {
  const { DataFrame } = loadDanfo();
  return new DataFrame(verdict ? tidyRows(log, verdict) : tidyRows(log));
}

/** The track at a time, straight between its points. */
function keptAt({ timeS, nominal, low, high }: StrengthTrack, atS: number) {
  const before = Math.min(Math.max(0, lastAtOrBefore(timeS, atS)), timeS.length - 2);
  const share = (atS - timeS[before]!) / (timeS[before + 1]! - timeS[before]!);
  const inside = Math.min(1, Math.max(0, share));
  const between = (values: Float64Array) =>
    rounded(values[before]! + inside * (values[before + 1]! - values[before]!), 4);
  return { yieldKept: between(nominal), low: between(low), high: between(high) };
}

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));
