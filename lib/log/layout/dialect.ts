import { TemperbookError } from '../../quantity';
import { type SampleLine, splitFields } from '../bytes/lines';
import type { Reading } from '../reading';
import type { ReadOptions } from '../readOptions';
import { decimalMark } from './decimalMark';
import { type FieldClass, fieldClass, isTyped, isValue } from './fieldClass';

type Delimiter = NonNullable<ReadOptions['delimiter']>;

/** How fields are parted and numbers written, once for the whole file. */
export interface Dialect {
  readonly delimiter: Delimiter;
  readonly decimal: '.' | ',';
  /** Fields of an ordinary data row. */
  readonly width: number;
  readonly notes: readonly string[];
}

const DELIMITERS: readonly Delimiter[] = [',', ';', '\t', ' '];
const DELIMITER_NAMES: Readonly<Record<Delimiter, string>> = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  ' ': 'spaces',
};

/** Could these fields be a row of readings? Most are numbers, stamps or error words, and the first is a value. */
export const isRowLike = (fields: readonly string[]): boolean => shareTyped(fields.map(fieldClass)) >= 0.5;

/** Share of filled fields that are numbers, stamps or error words; 0 when the first of them is no value. */
function shareTyped(kinds: readonly FieldClass[]): number {
  const filled = kinds.filter((kind) => kind !== 'empty');
  if (filled.length === 0 || !isValue(filled[0]!)) return 0;
  return filled.filter(isTyped).length / filled.length;
}

interface Candidate {
  readonly delimiter: Delimiter;
  readonly width: number;
  readonly rows: readonly (readonly string[])[];
  readonly score: number;
}

/**
 * Decides delimiter, decimal mark and row width from sample lines: the delimiter under which most lines are
 * rows of readings of one width, the decimal mark by what stands inside their numbers.
 * @throws TemperbookError when no line is a row of readings.
 */
export function sniffDialect(
  lines: readonly SampleLine[],
  reading: Reading,
  delimiter = reading.options.delimiter,
): Dialect {
  const { file, options } = reading;
  const tried = (delimiter ? [delimiter] : delimitersIn(lines)).map((d) => candidate(lines, d));
  const best = tried.reduce((a, b) => (b.score > a.score ? b : a));
  if (best.rows.length === 0)
    throw new TemperbookError('No row of readings was found', {
      file,
      ...(lines[0]?.row ? { row: lines[0].row } : {}),
      found: `"${(lines[0]?.text ?? '').slice(0, 60)}" and ${lines.length - 1} more lines without rows of numbers`,
      expected: 'rows with a time and temperatures, parted by commas, semicolons, tabs or spaces',
      remedy: 'Export the readings as well as the header, as text or CSV',
    });
  const {
    mark: decimal,
    why,
    isOpen,
  } = options.decimal ? { mark: options.decimal, why: 'as you said', isOpen: false } : decimalMark(best.rows);
  if (isOpen) {
    const other = decimal === ',' ? '.' : ',';
    reading.open.push({
      of: 'decimal mark',
      option: 'decimal',
      because: `Every ${decimal === ',' ? 'comma' : 'point'} in a number has three digits after it.`,
      taken: { words: 'the mark of the fraction', options: { ...options, decimal } },
      other: [{ words: 'the mark of the thousands', options: { ...options, decimal: other } }],
    });
  }
  const marks = `${DELIMITER_NAMES[best.delimiter]}${options.delimiter ? ' (as you said)' : ''}`;
  const parted =
    best.width === 1 ? 'Each row holds one field' : `Fields are parted by ${marks}, ${best.width} to a row`;
  return {
    delimiter: best.delimiter,
    decimal,
    width: best.width,
    notes: [`${parted}; the decimal mark is a ${decimal === '.' ? 'point' : 'comma'} (${why}).`],
  };
}

/** Delimiters that any line has, and the first that none has: under it, as under the others, a line is one field. */
function delimitersIn(lines: readonly SampleLine[]): Delimiter[] {
  const isIn = (delimiter: Delimiter) =>
    lines.some(({ text }) => text.includes(delimiter) || (delimiter === ' ' && text.includes('\t')));
  const absent = DELIMITERS.find((delimiter) => !isIn(delimiter));
  return DELIMITERS.filter((delimiter) => delimiter === absent || isIn(delimiter));
}

function candidate(lines: readonly SampleLine[], delimiter: Delimiter): Candidate {
  const rows = lines
    .map(({ text }) => splitFields(text, delimiter))
    .map((fields) => ({ fields, typed: shareTyped(fields.map(fieldClass)) }))
    .filter(({ typed }) => typed >= 0.5);
  const counts = new Map<number, number>();
  for (const { fields } of rows) counts.set(fields.length, (counts.get(fields.length) ?? 0) + 1);
  const [width, most] = [...counts].reduce(
    (best, next) => (next[1] > best[1] || (next[1] === best[1] && next[0] > best[0]) ? next : best),
    [0, 0],
  );
  const ofWidth = rows.filter(({ fields }) => fields.length === width);
  // "00 295" may be a number with its thousands apart, but is more likely two fields.
  const isJoined = (fields: readonly string[]) =>
    fields.some((field) => /\d\s\d/.test(field) && !field.includes(':'));
  const typed = ofWidth.reduce((sum, row) => sum + row.typed * (isJoined(row.fields) ? 0.5 : 1), 0);
  // Two fields are better than one, more than two are no better than two.
  return {
    delimiter,
    width,
    rows: ofWidth.map(({ fields }) => fields),
    score: most === 0 ? 0 : typed * (width > 1 ? 2 : 1),
  };
}
