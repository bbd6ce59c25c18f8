import { type Cell, readCell } from './cell';
import type { ClockReader } from './clockReader';
import { ABSENT, codeOf, TRUSTED } from './faultCodes';
import { lineAt, splitFields } from './lines';
import type { LogTable } from './logTable';
import type { LogText } from './logText';
import { CHANNEL, CLOCK, DATE, REFERENCE, type RowLayout, SKIP } from './rowLayout';

const TAB = 9;
const LF = 10;
const CR = 13;
const SPACE = 32;
const QUOTE = 34;
const ZERO = 48;
const NO_BYTE = -1;
const PLUS = 43;
const MINUS = 45;
const POWERS = Float64Array.from({ length: 23 }, (_, k) => 10 ** k);
/** Whole numbers of so many digits, and powers of ten up to 22, are exact, so that one division rounds once. */
const EXACT_DIGITS = 15;
/** Where the number of a column goes: a channel from 0 on, or one of these. */
const TO_CLOCK = -1;
const TO_REFERENCE = -2;
const NO_NUMBER = -3;
const NOT_A_NUMBER = codeOf('not a number');
const MISSING = codeOf('missing field');

/**
 * Reads rows of readings into a table. Plain numbers are read digit by digit from the bytes; anything else in
 * a field becomes a string and goes through `readCell`; a row with quotes, or parted by blanks, is split as a
 * string. All three give the same table.
 */
export class RowReader {
  private readonly memo = new Map<string, Cell>();
  /** The text's bytes as a plain array, which the engine reads faster than a Buffer. */
  private readonly bytes: Uint8Array;
  private readonly delimiter: number;
  private readonly decimal: number;
  private readonly targets: Int32Array;

  constructor(
    private readonly text: LogText,
    private readonly layout: RowLayout,
    private readonly clock: ClockReader,
    private readonly table: LogTable,
    private readonly given: {
      /** Behind the last line that has a line end. */
      readonly lastEnd: number;
      /** With no clock in the file: time from row to row, s. */
      readonly intervalS: number | undefined;
    },
  ) {
    const { buffer, byteOffset, length } = text.bytes;
    this.bytes = new Uint8Array(buffer, byteOffset, length);
    this.delimiter = layout.delimiter.charCodeAt(0);
    this.targets = Int32Array.from(layout.roles, (role, column) => {
      if (role === CHANNEL) return layout.channel[column]!;
      if (role === REFERENCE) return TO_REFERENCE;
      return role === CLOCK && clock.isNumber ? TO_CLOCK : NO_NUMBER;
    });
    // Between commas a decimal comma can only stand in quotes, and those are read as strings.
    this.decimal = layout.decimal === layout.delimiter ? NO_BYTE : layout.decimal.charCodeAt(0);
  }

  /**
   * Reads on from the line at `from` until the end, or until a line that is no row because its clock cannot
   * be read. Returns where it stopped.
   */
  read(from: number, row: number): { readonly at: number; readonly row: number } {
    const isPlain = this.layout.delimiter !== ' ';
    const stop = isPlain ? this.readPlain(from, row) : { at: from, row };
    let { at } = stop;
    let line = stop.row;
    // Lines parted by blanks are never plain, and the last line may have no end.
    while (at < this.text.bytes.length && (!isPlain || at >= this.given.lastEnd)) {
      const next = this.readLine(at, line);
      if (next < 0) break;
      at = next;
      line++;
    }
    return { at, row: line };
  }

  private readPlain(from: number, firstRow: number): { at: number; row: number } {
    const { bytes, delimiter, decimal, targets, table } = this;
    const { lastEnd, intervalS } = this.given;
    const { roles, least, most, absent } = this.layout;
    const { cells } = table;
    const width = roles.length;
    const clockIsNumber = this.clock.isNumber;
    const { timesS, perS } = this.clock;
    // Nothing special to look after: the whole of a row's account is to write it down.
    const isOrdinary = intervalS === undefined && absent.length === 0;
    const tab = delimiter === TAB ? SPACE : TAB;
    let at = from;
    let row = firstRow;
    while (at < lastEnd) {
      const start = at;
      if (table.length === table.clock.length) table.grow();
      const n = table.length;
      let column = 0;
      let extra = false;
      let clockNumber = Number.NaN;
      let clockText: string | undefined;
      let clockFrom = 0;
      let clockTo = 0;
      let dateFrom = 0;
      let dateTo = 0;
      let byte: number;
      for (;;) {
        byte = bytes[at]!;
        while (byte === SPACE || byte === tab) byte = bytes[++at]!;
        if (byte === QUOTE) break;
        const fieldFrom = at;
        const target = column < width ? targets[column]! : NO_NUMBER;
        if (target !== NO_NUMBER) {
          let negative = false;
          if (byte === MINUS) {
            negative = true;
            at++;
          } else if (byte === PLUS) at++;
          const digitsFrom = at;
          let whole = 0;
          let digit = (bytes[at]! - ZERO) >>> 0;
          for (; digit < 10; digit = (bytes[++at]! - ZERO) >>> 0) whole = whole * 10 + digit;
          let digits = at - digitsFrom;
          let places = 0;
          if (bytes[at] === decimal) {
            const placesFrom = ++at;
            digit = (bytes[at]! - ZERO) >>> 0;
            for (; digit < 10; digit = (bytes[++at]! - ZERO) >>> 0) whole = whole * 10 + digit;
            places = at - placesFrom;
            digits += places;
          }
          byte = bytes[at]!;
          while (byte === SPACE) byte = bytes[++at]!;
          const isPlain =
            digits > 0 && digits <= EXACT_DIGITS && (byte === delimiter || byte === LF || byte === CR);
          if (isPlain) {
            const size = whole / POWERS[places]!;
            const value = negative ? -size : size;
            if (target >= 0) cells[target]![n] = value;
            else if (target === TO_CLOCK) clockNumber = value;
            else table.reference![n] = value;
          } else {
            while (byte !== delimiter && byte !== LF && byte !== CR) byte = bytes[++at]!;
            const text = at > fieldFrom ? this.text.decode(fieldFrom, at).trim() : '';
            if (target === TO_CLOCK) clockText = text;
            else this.store(target, text, n);
          }
        } else {
          while (byte !== delimiter && byte !== LF && byte !== CR) byte = bytes[++at]!;
          const role = column < width ? roles[column]! : SKIP;
          if (role === CLOCK) {
            clockFrom = fieldFrom;
            clockTo = at;
          } else if (role === DATE) {
            dateFrom = fieldFrom;
            dateTo = at;
          } else if (column >= most && at > fieldFrom) extra = true;
        }
        column++;
        if (byte !== delimiter) break;
        at++;
      }
      if (byte === QUOTE) {
        this.clearMarks(n);
        const next = this.readLine(start, row);
        if (next < 0) return { at: start, row };
        at = next;
        row++;
        continue;
      }
      const isBlank = column === 1 && isOnlySpaces(bytes, start, at);
      const next = byte === CR && bytes[at + 1] === LF ? at + 2 : at + 1;
      if (!isBlank) {
        let clock: number;
        if (clockText !== undefined) clock = this.clock.fromText(clockText, '');
        else if (!clockIsNumber) clock = this.clock.fromBytes(clockFrom, clockTo, dateFrom, dateTo);
        else if (perS > 0) clock = (clockNumber * timesS) / perS;
        else clock = this.clock.fromNumber(clockNumber);
        if (isOrdinary && column >= least && !extra && !Number.isNaN(clock)) {
          table.clock[n] = clock;
          table.row[n] = row;
          table.offset[n] = start;
          table.length = n + 1;
        } else if (!this.commit(clock, column, extra, row, start)) return { at: start, row };
      }
      at = next;
      row++;
    }
    return { at, row };
  }

  /** Reads one line as a string; returns where the next one starts, or −1 when it is no row. */
  private readLine(from: number, row: number): number {
    const { roles, most } = this.layout;
    const line = lineAt(this.text.bytes, from, row);
    const text = this.text.decode(line.from, line.to);
    if (text.trim() === '') return line.next;
    if (this.table.length === this.table.clock.length) this.table.grow();
    const fields = splitFields(text, this.layout.delimiter);
    let clock = '';
    let date = '';
    let extra = false;
    for (let column = 0; column < fields.length; column++) {
      const role = column < roles.length ? roles[column]! : SKIP;
      const field = fields[column]!;
      if (role === CHANNEL || role === REFERENCE) this.store(this.targets[column]!, field, this.table.length);
      else if (role === CLOCK) clock = field;
      else if (role === DATE) date = field;
      else if (column >= most && field !== '') extra = true;
    }
    return this.commit(this.clock.fromText(clock, date), fields.length, extra, row, from) ? line.next : -1;
  }

  private store(target: number, text: string, n: number): void {
    let cell = this.memo.get(text);
    if (!cell) {
      cell = readCell(text, this.layout.decimal);
      if (this.memo.size < 4096) this.memo.set(text, cell);
    }
    if (target === TO_REFERENCE) {
      this.table.reference![n] = 'value' in cell ? cell.value : Number.NaN;
      return;
    }
    const agrees = 'value' in cell && (cell.unit === undefined || cell.unit === this.layout.units[target]);
    this.table.cells[target]![n] = 'value' in cell && agrees ? cell.value : Number.NaN;
    if (!agrees) this.table.marks[target]![n] = 'fault' in cell ? codeOf(cell.fault) : NOT_A_NUMBER;
  }

  /** Takes a row into the account; false when it is no row. */
  private commit(clock: number, fields: number, extra: boolean, row: number, offset: number): boolean {
    const { table, layout } = this;
    const { intervalS } = this.given;
    const n = table.length;
    const { least, most, usual } = layout;
    let time = clock;
    if (intervalS !== undefined) {
      if (!this.holdsReading(Math.min(fields, layout.roles.length), n)) {
        this.clearMarks(n);
        return false;
      }
      // A rejected row took its time all the same.
      time = (n + table.rejects.length) * intervalS;
    } else if (Number.isNaN(clock)) {
      this.clearMarks(n);
      return false;
    }
    if (fields < least || extra) {
      const many = extra
        ? `the row has more than the ${most} fields that belong; which one is too many cannot be known, so none is used`
        : `the row has ${fields} of ${usual} fields; which one is missing cannot be known, so none is used`;
      table.rejects.push({ row, offset, kind: 'missing field', column: '', reason: many });
      this.clearMarks(n);
      return true;
    }
    for (const k of layout.absent) {
      table.cells[k]![n] = Number.NaN;
      table.marks[k]![n] = ABSENT;
    }
    table.clock[n] = time;
    table.row[n] = row;
    table.offset[n] = offset;
    table.length = n + 1;
    return true;
  }

  /** Marks are written for faults only, so a place in the table that was tried in vain is wiped. */
  private clearMarks(n: number): void {
    for (const marks of this.table.marks) marks[n] = TRUSTED;
  }

  /** Without a clock, a line is a row when any of its channels holds a number or a word for none. */
  private holdsReading(columns: number, n: number): boolean {
    const { roles, channel } = this.layout;
    for (let column = 0; column < columns; column++) {
      if (roles[column] !== CHANNEL) continue;
      const mark = this.table.marks[channel[column]!]![n]!;
      if (mark !== NOT_A_NUMBER && mark !== MISSING) return true;
    }
    return false;
  }
}

function isOnlySpaces(bytes: Uint8Array, from: number, to: number): boolean {
  for (let i = from; i < to; i++) if (bytes[i] !== SPACE) return false;
  return true;
}
