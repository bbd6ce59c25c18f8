import type { Verdict } from '../decision';
import { formatPercent, formatTemp } from '../quantity';
import type { Frame } from './files/loadDanfo';
import { type TableRow, tableOf } from './table';

/** One weld among many: finished, rounded figures, every field filled. */
export type WeldRow = TableRow & {
  readonly log: string;
  readonly group: string;
  readonly verdict: 'kept' | 'uncertain' | 'lost';
  /** Low end (5 %) of the yield kept at the worst place, fraction to 0.001. */
  readonly lowestKept: number;
  /** Hottest reading, whole °C. */
  readonly peakC: number;
  readonly passes: number;
  /** Hottest metal a pass started on, whole °C; the start of the log where no pass was found. */
  readonly hottestInterpassC: number;
};

/**
 * A verdict as one row among many welds, for a data frame or a table. A place of which nothing is known (`notJudged`,
 * `blind`) shows in the word only: the word is that of the whole part.
 * @param group what the weld is to be grouped by: a bench, a month
 */
export function weldRow(log: string, { verdict, channels }: Verdict, group: string): WeldRow {
  const passes = channels.flatMap((channel) => channel.passes);
  const starts = channels.map(({ exposure }) => exposure.history.tempC[0] ?? 0);
  return {
    log,
    group,
    verdict,
    lowestKept: Number(Math.min(...channels.map((channel) => channel.yieldKeptFraction.low)).toFixed(3)),
    peakC: Math.round(Math.max(...channels.map(({ peakC }) => peakC.nominal))),
    passes: Math.max(0, ...channels.map((channel) => channel.passes.length)),
    hottestInterpassC: Math.round(
      Math.max(...(passes.length > 0 ? passes.map(({ interpassC }) => interpassC) : starts)),
    ),
  };
}

/** What a column of welds holds, in words, and how a reader is told a number of it; of what is no number, the words alone. */
const IN_WORDS: Readonly<Record<string, readonly [heading: string, tell?: (value: number) => string]>> = {
  log: ['Log'],
  group: ['Group'],
  verdict: ['Verdict'],
  lowestKept: ['Yield kept, low end', (value) => formatPercent(value)],
  peakC: ['Hottest reading', (value) => formatTemp(value)],
  passes: ['Passes', (value) => String(Number(value.toFixed(1)))],
  hottestInterpassC: ['Hottest interpass', (value) => formatTemp(value)],
};

/**
 * A data frame of `weldRow`s, or the mean of its groups, as a reader takes it: headings in words, values with their
 * units. Any other column is as `frameRows` has it.
 */
export const weldFrameRows = (frame: Pick<Frame, 'columns' | 'values' | 'index'>): TableRow[] =>
  frameRows(frame).map((row) =>
    Object.fromEntries(
      Object.entries(row).map(([column, value]) => {
        const [, name = '', mean] = /^(.*?)(_mean)?$/.exec(column) ?? [];
        const [heading, tell] = IN_WORDS[name] ?? [name];
        return [
          mean === undefined ? heading : `${heading}, mean`,
          tell && typeof value === 'number' ? tell(value) : value,
        ];
      }),
    ),
  );

/** A data frame as rows that `showTable` and `exportTable` take; a named index comes first. Numbers to four digits. */
export function frameRows({
  columns,
  values,
  index,
}: Pick<Frame, 'columns' | 'values' | 'index'>): TableRow[] {
  const isNamed = index.some((name) => typeof name === 'string');
  const rows = values.map((row, i) =>
    Object.fromEntries([
      ...(isNamed ? [['', String(index[i])]] : []),
      ...columns.map((column, k) => [column, shown([row].flat()[k])]),
    ]),
  );
  tableOf(rows);
  return rows;
}

const shown = (value: unknown) =>
  typeof value === 'number' ? Number(value.toPrecision(4)) : (value as TableRow[string]);
