import { TemperbookError } from '../../quantity';
import { type LineSpan, lineAt, type SampleLine, splitFields } from '../bytes/lines';
import type { LogText } from '../bytes/logText';
import type { Reading } from '../reading';
import { type Dialect, isRowLike } from './dialect';
import { fieldClass, isValue } from './fieldClass';
import { parseUnit, splitName, type Unit } from './units';

/** A column as the header tells it. */
export interface HeaderColumn {
  readonly index: number;
  /** As it stands in the file, or "column 3" where the file has no name. */
  readonly name: string;
  /** The name without its unit. */
  readonly stem: string;
  readonly unit?: Unit;
  readonly named: boolean;
}

/** The lines above the readings, understood. */
export interface Header {
  readonly columns: readonly HeaderColumn[];
  /** Fields of the names row in lower case, to know it again further down; empty when there is none. */
  readonly names: readonly string[];
  /** The other lines: operator, date, device. */
  readonly preamble: readonly string[];
  readonly notes: readonly string[];
}

/** The header's lines and the first line of readings. */
export interface HeaderLines {
  readonly lines: readonly SampleLine[];
  readonly firstRow: LineSpan;
}

const LOOK_AHEAD = 5;

/**
 * Finds where the readings begin: the first line that is a row of readings and is followed by such rows, or
 * stands right under a names row. Headers may have any length.
 */
export function findHeader(text: LogText, dialect: Dialect, reading: Reading): HeaderLines {
  const { file } = reading;
  const lines: SampleLine[] = [];
  let line: LineSpan = { row: 0, from: 0, to: 0, next: 0 };
  while (line.next < text.length) {
    line = lineAt(text, line.next, line.row + 1);
    const own = text.decode(line.from, line.to);
    if (own.trim() === '') continue;
    if (isDataRow(own, dialect)) {
      const above = lines[lines.length - 1];
      if (rowsFollow(text, line, dialect) || (above && isNamesRow(fieldsOf(above, dialect), dialect)))
        return { lines, firstRow: line };
    }
    lines.push({ row: line.row, text: own });
  }
  throw new TemperbookError('The file has a header but no rows of readings under it', {
    file,
    row: line.row,
    found: `"${(lines[lines.length - 1]?.text ?? '').slice(0, 60)}" as its last line`,
    remedy: 'Export the log again, with its readings',
  });
}

const fieldsOf = ({ text }: SampleLine, { delimiter }: Dialect) => headerFields(text, delimiter);

/** Fields of a header line; a comment sign in front is no part of the first name. */
function headerFields(text: string, delimiter: string): string[] {
  return splitFields(text.replace(/^\s*(?:#|%|\/\/)\s*/, ''), delimiter);
}

/** Half the usual width is enough: a first row may be short, and must not pass for a header line. */
function isDataRow(text: string, { delimiter, width }: Dialect): boolean {
  const fields = splitFields(text, delimiter);
  return fields.length * 2 >= width && (width === 1 || fields.length > 1) && isRowLike(fields);
}

function rowsFollow(text: LogText, first: LineSpan, dialect: Dialect): boolean {
  let seen = 0;
  let rows = 0;
  let line = first;
  while (seen < LOOK_AHEAD && line.next < text.length) {
    line = lineAt(text, line.next, line.row + 1);
    const own = text.decode(line.from, line.to);
    if (own.trim() === '') continue;
    seen++;
    if (isDataRow(own, dialect)) rows++;
  }
  return rows * 2 > seen;
}

/** Text first, enough fields for the row, and no readings among them; whole numbers may be channel numbers. */
function isNamesRow(fields: readonly string[], { width }: Dialect): boolean {
  const filled = fields.filter((field) => field !== '');
  if (filled.length === 0 || filled.length * 2 < width || (width > 1 && filled.length < 2)) return false;
  if (isValue(fieldClass(filled[0]!))) return false;
  const numbers = filled.filter((field) => isValue(fieldClass(field)));
  return numbers.length === 0 || (width > 2 && numbers.every((field) => /^\d{1,4}$/.test(field)));
}

const bare = (field: string) => /^[([{<](.*)[)\]}>]$/.exec(field)?.[1] ?? field;

/** Every filled field is a unit, or a dash for none. */
export function isUnitsRow(fields: readonly string[], width: number): boolean {
  const filled = fields.filter((field) => field !== '');
  const units = filled.filter((field) => parseUnit(bare(field)));
  return (
    filled.length > 0 &&
    (width === 1 || filled.length > 1 || filled.length * 2 >= width) &&
    units.length === filled.length &&
    filled.some((field) => /\p{L}/u.test(field))
  );
}

/** What stands in a units row over a column that has none. */
const isNoUnit = (field: string) => /^(?:-+|1|n\/a|none)?$/i.test(field);

const isWireRow = (fields: readonly string[]) =>
  fields.some((field) => /^type[ _-]?[BEJKNRST]$/i.test(field)) &&
  fields.every((field) => field === '' || /^(?:tc |wire |sensor )?type(?:[ _-]?[BEJKNRST])?:?$/i.test(field));

/**
 * Reads names and units from the lines above the readings: the units row may stand under or over the names
 * row, either may be missing.
 */
export function readHeader(
  lines: readonly SampleLine[],
  dialect: Dialect,
  firstFields: readonly string[],
): Header {
  const notes: string[] = [];
  const tail = lines.slice(-4);
  const rows = tail.map((line) => ({ line, fields: fieldsOf(line, dialect) }));
  while (rows.length > 0 && isWireRow(rows[rows.length - 1]!.fields)) rows.pop();
  const take = (test: (fields: readonly string[]) => boolean) =>
    rows.length > 0 && test(rows[rows.length - 1]!.fields) ? rows.pop() : undefined;
  const isUnits = (fields: readonly string[]) => isUnitsRow(fields, dialect.width);
  const isNames = (fields: readonly string[]) => isNamesRow(fields, dialect) && !isUnits(fields);
  let unitsRow = take(isUnits);
  const namesRow = take(isNames);
  const order = unitsRow ? 'under' : 'over';
  unitsRow ??= namesRow && take(isUnits);

  const names = namesRow ? fitNames(namesRow.line.text, namesRow.fields, dialect, firstFields) : undefined;
  if (namesRow && !names)
    notes.push(
      `The names in row ${namesRow.line.row} do not fit the ${dialect.width} columns under them, so they are not used: columns go by number ("#2" is the second).`,
    );
  if (namesRow && names)
    notes.push(
      `Column names come from row ${namesRow.line.row}${unitsRow ? `, units from row ${unitsRow.line.row} ${order} it` : ''}.`,
    );
  else if (unitsRow) notes.push(`Units come from row ${unitsRow.line.row}; the columns have no names.`);
  else if (!namesRow) notes.push('The file has no names over its columns; they go by number.');
  const preamble = lines.length - (namesRow ? 1 : 0) - (unitsRow ? 1 : 0);
  if (preamble > 0)
    notes.push(
      `${preamble} other header line${preamble === 1 ? ' was' : 's were'} read over, up to row ${lines[lines.length - 1]!.row}.`,
    );
  return {
    columns: nameColumns(names, unitsRow?.fields, dialect.width),
    names: (names ?? []).map((name) => name.toLowerCase()),
    preamble: lines
      .filter((line) => line !== namesRow?.line && line !== unitsRow?.line)
      .map(({ text }) => text),
    notes,
  };
}

/** Makes names fit the columns: blanks inside names of a blank-parted file, a date and a time under one name. */
function fitNames(
  text: string,
  fields: readonly string[],
  { delimiter, width }: Dialect,
  firstFields: readonly string[],
): readonly string[] | undefined {
  if (fields.length >= width && delimiter !== ' ') return fields;
  const tries = [fields];
  if (delimiter === ' ') {
    tries.push(
      text
        .replace(/^\s*(?:#|%|\/\/)\s*/, '')
        .trim()
        .split(/\t+|\s{2,}/)
        .map(bare),
    );
    tries.push(joinBlanks(fields));
  }
  for (const names of tries) {
    if (names.length === width) return names;
    if (
      names.length === width - 1 &&
      fieldClass(firstFields[0] ?? '') === 'date' &&
      fieldClass(firstFields[1] ?? '') === 'time'
    )
      return [names[0]!, `${names[0]} (time)`, ...names.slice(1)];
  }
  const unnamed = firstFields.slice(fields.length).every((field) => field === '');
  return unnamed && fields.length < width ? fields : undefined;
}

/** "TC 1 (°C)" came apart at its blanks: numbers and brackets belong to the word before them. */
function joinBlanks(fields: readonly string[]): string[] {
  const names: string[] = [];
  for (const field of fields)
    if (names.length > 0 && /^(?:[([{<].*|\d{1,3})$/.test(field)) names[names.length - 1] += ` ${field}`;
    else names.push(field);
  return names;
}

function nameColumns(
  names: readonly string[] | undefined,
  units: readonly string[] | undefined,
  width: number,
): HeaderColumn[] {
  const seen = new Map<string, number>();
  const columns = Array.from({ length: Math.max(width, names?.length ?? 0) }, (_, index) => {
    const written = names?.[index] ?? '';
    const once = written === '' ? `column ${index + 1}` : written;
    const times = (seen.get(once) ?? 0) + 1;
    seen.set(once, times);
    const name = times === 1 ? once : `${once} [${times}]`;
    return { index, name, named: written !== '', parts: splitName(name) };
  });
  const stems = columns.map(({ name }) => /^(.*[\s_.-])[A-Z]$/.exec(name)?.[1]);
  return columns.map(({ index, name, named, parts }) => {
    // "Probe A, Probe B, Probe C": the last letter numbers the probes and is no unit.
    const stem = stems[index];
    const isSeries =
      stem !== undefined && stems.some((other, i) => other === stem && columns[i]!.name !== name);
    const inName = isSeries ? { stem: name } : parts;
    const inRow = bare(units?.[index] ?? '');
    const unit =
      ('unit' in inName ? inName.unit : undefined) ?? (isNoUnit(inRow) ? undefined : parseUnit(inRow));
    return { index, name, stem: inName.stem, ...(unit ? { unit } : {}), named };
  });
}
