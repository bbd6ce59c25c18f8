import { TemperbookError } from '../../quantity';
import { type ColumnSample, findColumn, median, risingShare } from '../columns/columnSample';
import { isClockName } from '../layout/units';
import type { Reading } from '../reading';
import { epochOf } from './epochOf';

/** The clock's columns, before their format is settled. */
export interface ClockChoice {
  readonly clock?: ColumnSample;
  readonly date?: ColumnSample;
  /** Other clocks in the file. */
  readonly others: readonly ColumnSample[];
}

/**
 * Columns that hold a clock of any kind, in the order of the file. A column of numbers must go forward all
 * along, unless `lenient`: then a name or a unit of time is enough.
 */
function clockColumns(
  samples: readonly ColumnSample[],
  mapped: ReadonlySet<ColumnSample>,
  lenient: boolean,
): ColumnSample[] {
  const noNames = samples.every(({ column }) => !column.named);
  return samples.filter((sample, index) => {
    const { column, kind, numbers } = sample;
    if (mapped.has(sample)) return false;
    if (kind === 'stamp' || kind === 'time' || kind === 'date') return true;
    if (kind !== 'number' || (!lenient && risingShare(numbers) < 0.9)) return false;
    if (column.unit) return column.unit.quantity === 'time';
    if (isClockName(column.stem)) return true;
    if (lenient) return false;
    if (epochOf(median(numbers)) !== undefined) return true;
    return noNames && index === 0 && samples.length > 1 && isStrictlyRising(numbers);
  });
}

function isStrictlyRising(numbers: ArrayLike<number>): boolean {
  for (let i = 1; i < numbers.length; i++) if (!(numbers[i]! > numbers[i - 1]!)) return false;
  return numbers.length > 1;
}

/** Picks the clock: the first of the columns that tell rows apart about as well as the best does. */
export function chooseClock(
  samples: readonly ColumnSample[],
  mapped: ReadonlySet<ColumnSample>,
  preamble: readonly string[],
  reading: Reading,
): ClockChoice {
  const { file, options } = reading;
  const forward = clockColumns(samples, mapped, false);
  const found = forward.length > 0 ? forward : clockColumns(samples, mapped, true);
  if (options.intervalS !== undefined) return { others: found };
  const asked = options.clock?.column;
  if (asked !== undefined) {
    const [date, clock] = (typeof asked === 'string' ? [undefined, asked] : asked).map(
      (name) => name && findColumn(samples, name, 'clock.column', file),
    ) as [ColumnSample | undefined, ColumnSample];
    return { clock, ...(date ? { date } : {}), others: found.filter((s) => s !== clock && s !== date) };
  }
  const withTime = found.filter(({ kind }) => kind !== 'date');
  const distinct = ({ texts }: ColumnSample) => new Set(texts).size;
  const most = Math.max(0, ...withTime.map(distinct));
  const clock = withTime.find((sample) => distinct(sample) * 2 >= most) ?? found[0];
  const date =
    clock?.kind === 'time'
      ? found.find(({ kind, column }) => kind === 'date' && column !== clock.column)
      : undefined;
  if (clock)
    return { clock, ...(date ? { date } : {}), others: found.filter((s) => s !== clock && s !== date) };
  const hint = preamble.find(
    (line) => /interval|period|sampl\w* (?:rate|time)|abtast/i.test(line) && /\d/.test(line),
  );
  const heads = hint === undefined ? '' : ` (the header says "${hint.trim().slice(0, 60)}")`;
  throw new TemperbookError('No column holds the time', {
    file,
    found: `columns ${samples.map(({ column }) => `"${column.name}"`).join(', ')}`,
    expected: 'a column of seconds, of clock times or of dates with times',
    remedy: `Say how far apart the rows are, as option intervalS in seconds${heads}, or name the time column as option clock.column`,
  });
}
