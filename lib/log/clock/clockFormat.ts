import { TemperbookError } from '../../quantity';
import { type ColumnSample, median } from '../columns/columnSample';
import { statedInterval } from '../logStatements';
import type { Reading } from '../reading';
import type { ClockFormat } from '../readOptions';
import { epochOf } from './epochOf';
import { packedFormat } from './packedTime';
import { parseTime, US_PER_S } from './stamp';

/** Units of elapsed time: seconds are value × `timesS` / `perS`. */
export const ELAPSED: Readonly<Record<string, readonly [timesS: number, perS: number, word: string]>> = {
  s: [1, 1, 'seconds'],
  ms: [1, 1000, 'milliseconds'],
  min: [60, 1, 'minutes'],
  h: [3600, 1, 'hours'],
  d: [86_400, 1, 'days'],
};

/** The format that a clock's column has by itself: its unit, its size, its steps. */
export function formatOf(
  { column, kind, numbers, texts }: ColumnSample,
  reading: Reading,
): ClockFormat | 'd' {
  const { file } = reading;
  if (kind === 'stamp' || kind === 'date') return 'stamp';
  if (kind === 'time') return timeForm(column.unit?.symbol, texts);
  if (column.unit && column.unit.symbol in ELAPSED) return column.unit.symbol as ClockFormat | 'd';
  const middle = median(numbers);
  const packed = packedFormat(numbers);
  if (packed) return packed;
  if (epochOf(middle)) return 'epoch s';
  const first = numbers.find((value) => !Number.isNaN(value)) ?? 0;
  const step = median(numbers.subarray(1).map((value, i) => value - numbers[i]!));
  const digits = Math.max(...texts.slice(0, 50).map((text) => text.split(/[.,]/)[1]?.length ?? 0));
  if (first >= 20_000 && middle < 80_000 && step < 0.05 && digits >= 3) return 'spreadsheet days';
  if (digits >= 5 && step > 0 && step < 0.01 && texts.length >= 10 && middle < 1 && first >= 0)
    throw new TemperbookError('The time column could hold seconds or fractions of a day', {
      file,
      column: column.name,
      found: `"${texts[0]}", "${texts[1]}"`,
      remedy: 'Say which, as option clock.format: "s" or "spreadsheet days"',
    });
  return 's';
}

/** The format in which the clock's steps are those the header gives as its interval. */
export function statedFormat(
  { column, kind, numbers, texts }: ColumnSample,
  preamble: readonly string[],
): { readonly format: ClockFormat; readonly line: string } | undefined {
  if (column.unit) return undefined;
  const stated = statedInterval(preamble.map((text) => ({ text, row: 0 })));
  if (!stated) return undefined;
  const steps = (values: readonly number[]) => median(values.slice(1).map((value, i) => value - values[i]!));
  const fits = (step: number) => Math.abs(step - stated.intervalS) <= 0.02 * stated.intervalS;
  if (kind === 'time' && isTwoParts(texts)) {
    const inForm = (form: 'h:m:s' | 'm:s') =>
      steps(texts.slice(0, 100).map((text) => (parseTime(text, form)?.us ?? Number.NaN) / US_PER_S));
    const format = (['h:m:s', 'm:s'] as const).find((form) => fits(inForm(form)));
    return format && { format, line: stated.words };
  }
  if (kind !== 'number' || epochOf(median(numbers)) || packedFormat(numbers)) return undefined;
  const step = steps([...numbers.subarray(0, 100)]);
  const format = (['s', 'ms', 'min', 'h'] as const).find((unit) => {
    const [timesS, perS] = ELAPSED[unit]!;
    return fits((step * timesS) / perS);
  });
  return format && { format, line: stated.words };
}

/** Is all of it written as two numbers with a colon? */
export const isTwoParts = (texts: readonly string[]): boolean => {
  const filled = texts.filter((text) => text.includes(':'));
  return filled.length > 0 && filled.every((text) => /^\d+:\d+(?:[.,]\d+)?$/.test(text));
};

/** Two parts are minutes and seconds when they have a fraction, when the unit says so, or when no day has such hours. */
function timeForm(unit: string | undefined, texts: readonly string[]): 'h:m:s' | 'm:s' {
  if (unit === 'h:m:s' || unit === 'm:s') return unit;
  if (!isTwoParts(texts)) return 'h:m:s';
  const filled = texts.filter((text) => text.includes(':'));
  return filled.some((text) => /[.,]/.test(text) || Number(text.split(':')[0]) > 23) ? 'm:s' : 'h:m:s';
}
