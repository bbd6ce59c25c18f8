import { TemperbookError } from '../../quantity';
import { readCell } from '../layout/cell';
import { type FieldClass, fieldClass } from '../layout/fieldClass';
import type { HeaderColumn } from '../layout/header';

/** A column with a few hundred of its fields, from which its use is decided. */
export interface ColumnSample {
  readonly column: HeaderColumn;
  readonly texts: readonly string[];
  /** The same fields as numbers, NaN where there is none. */
  readonly numbers: Float64Array;
  /** Units glued to the numbers. */
  readonly glued: ReadonlySet<string>;
  /** What most filled fields are, error words apart; 'empty' when there are none. */
  readonly kind: FieldClass;
}

/** Lays sampled rows out by column. */
export function columnSamples(
  columns: readonly HeaderColumn[],
  rows: readonly (readonly string[])[],
  decimal: '.' | ',',
): ColumnSample[] {
  return columns.map((column) => {
    const texts = rows.map((row) => row[column.index] ?? '');
    const glued = new Set<string>();
    const numbers = Float64Array.from(texts, (text) => {
      const cell = readCell(text, decimal);
      if (!('value' in cell)) return Number.NaN;
      if (cell.unit !== undefined) glued.add(cell.unit);
      return cell.value;
    });
    return { column, texts, numbers, glued, kind: majority(texts) };
  });
}

function majority(texts: readonly string[]): FieldClass {
  const counts = new Map<FieldClass, number>();
  for (const text of texts) {
    const kind = fieldClass(text);
    if (kind !== 'empty') counts.set(kind, (counts.get(kind) ?? 0) + 1);
  }
  // Words for "no reading" say nothing of the column unless it holds nothing else.
  if (counts.size > 1) counts.delete('token');
  let best: FieldClass = 'empty';
  for (const [kind, count] of counts) if (count > (counts.get(best) ?? 0)) best = kind;
  return best;
}

/** Finds the column an option speaks of, by its name with or without the unit, or as "#3". */
export function findColumn<T extends { readonly column: HeaderColumn }>(
  samples: readonly T[],
  reference: string,
  option: string,
  file: string,
): T {
  const wanted = reference.trim().toLowerCase();
  const numbered = /^#(\d+)$/.exec(wanted);
  const found = numbered
    ? samples[Number(numbered[1]) - 1]
    : (samples.find(({ column }) => column.name.toLowerCase() === wanted) ??
      samples.find(({ column }) => column.stem.toLowerCase() === wanted));
  if (found) return found;
  throw new TemperbookError(`Option "${option}" names a column the file does not have`, {
    file,
    column: reference,
    expected: `one of ${samples.map(({ column }) => `"${column.name}"`).join(', ')}, or "#1" to "#${samples.length}"`,
  });
}

/** Share of the steps between filled neighbours that do not go down. */
export function risingShare(numbers: ArrayLike<number>): number {
  let steps = 0;
  let rising = 0;
  let last = Number.NaN;
  for (let i = 0; i < numbers.length; i++) {
    const value = numbers[i]!;
    if (Number.isNaN(value)) continue;
    if (!Number.isNaN(last)) {
      steps++;
      if (value >= last) rising++;
    }
    last = value;
  }
  return steps === 0 ? 1 : rising / steps;
}

/** Middle value; NaN of nothing. NaNs are left out. */
export function median(values: Iterable<number>): number {
  const sorted = Float64Array.from(values)
    .filter((value) => !Number.isNaN(value))
    .sort();
  return sorted.length === 0 ? Number.NaN : sorted[sorted.length >> 1]!;
}
