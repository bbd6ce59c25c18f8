import { CR, LF, lineEnd, nextLine, splitFields, wholeLines } from '../bytes/lines';
import type { LogText } from '../bytes/logText';
import type { ClockReader } from '../clock/clockReader';
import type { LogTable } from './logTable';
import { CHANNEL, CLOCK, DATE, REFERENCE, type RowLayout, SKIP } from './rowLayout';
import { RowWriter, TO_CLOCK, TO_REFERENCE } from './rowWriter';

const TAB = 9;
const SPACE = 32;
const QUOTE = 34;
const ZERO = 48;
const NO_BYTE = -1;
const NO_NUMBER = -3;
const PLUS = 43;
const MINUS = 45;
const POWERS = Float64Array.from({ length: 23 }, (_, k) => 10 ** k);
/** Whole numbers of so many digits, and powers of ten up to 22, are exact, so that one division rounds once. */
const EXACT_DIGITS = 15;

/** What is known before the first row is read. */
export interface ReadGivens {
  /** With no clock in the file: time from row to row, s. */
  readonly intervalS: number | undefined;
  /** Told where in the file the reader is, every few chunks. */
  readonly onChunk: (at: number) => void;
}

/**
 * Reads rows of readings into a table. Plain numbers are read digit by digit from the bytes; anything else in
 * a field becomes a string and goes through `readCell`; a row with quotes, or parted by blanks, is split as a
 * string. All three give the same table.
 */
export class RowReader {
  private readonly delimiter: number;
  private readonly decimal: number;
  private readonly targets: Int32Array;
  private readonly writer: RowWriter;

  constructor(
    private readonly text: LogText,
    private readonly layout: RowLayout,
    private readonly clock: ClockReader,
    private readonly table: LogTable,
    private readonly given: ReadGivens,
  ) {
    this.writer = new RowWriter(layout, table, given.intervalS);
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
    let place = { at: from, row };
    while (place.at < this.text.length) {
      // The engine makes its best code of what is called often, not of one long loop.
      let lines = wholeLines(this.text, place.at);
      const hasEnd = lines.length > 0;
      if (!hasEnd) lines = this.text.piece(place.at, this.text.length);
      const end = place.at + lines.length;
      place =
        isPlain && hasEnd
          ? this.readPlain(lines, place.at, place.row)
          : this.readSplit(lines, place.at, place.row);
      this.given.onChunk(place.at);
      if (place.at < end) break;
    }
    return place;
  }

  /** Reads whole lines that stand at `base` in the text; stops short at one that is no row. */
  private readPlain(lines: Buffer, base: number, firstRow: number): { at: number; row: number } {
    // A plain array is read faster than a Buffer.
    const bytes = new Uint8Array(lines.buffer, lines.byteOffset, lines.length);
    const { delimiter, decimal, targets, table } = this;
    const { intervalS } = this.given;
    const { roles, least, most, absent } = this.layout;
    const { cells } = table;
    const width = roles.length;
    const { timesS, perS } = this.clock;
    // An imported name is looked up at every use.
    const toClock = TO_CLOCK;
    const lf = LF;
    const cr = CR;
    // Nothing special to look after: the whole of a row's account is to write it down.
    const isOrdinary = intervalS === undefined && absent.length === 0;
    const tab = delimiter === TAB ? SPACE : TAB;
    let at = 0;
    let row = firstRow;
    while (at < bytes.length) {
      const start = at;
      if (table.length === table.clock.length) table.grow();
      const n = table.length;
      let column = 0;
      let extra = false;
      let clockNumber = Number.NaN;
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
            digits > 0 && digits <= EXACT_DIGITS && (byte === delimiter || byte === lf || byte === cr);
          if (isPlain) {
            const size = whole / POWERS[places]!;
            const value = negative ? -size : size;
            if (target >= 0) cells[target]![n] = value;
            else if (target === toClock) clockNumber = value;
            else table.reference![n] = value;
          } else {
            while (byte !== delimiter && byte !== lf && byte !== cr) byte = bytes[++at]!;
            if (target === toClock) {
              clockFrom = fieldFrom;
              clockTo = at;
            } else
              this.writer.store(
                target,
                at > fieldFrom ? this.text.toText(lines.subarray(fieldFrom, at)).trim() : '',
                n,
              );
          }
        } else {
          while (byte !== delimiter && byte !== lf && byte !== cr) byte = bytes[++at]!;
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
        this.writer.clear(n);
        const to = lineEnd(bytes, start);
        if (!this.takeLine(lines.subarray(start, to), row, base + start)) return { at: base + start, row };
        at = nextLine(bytes, to);
        row++;
        continue;
      }
      const isBlank = column === 1 && isOnlySpaces(bytes, start, at);
      const next = byte === cr && bytes[at + 1] === lf ? at + 2 : at + 1;
      if (!isBlank) {
        let clock: number;
        if (Number.isNaN(clockNumber))
          clock = this.clock.fromBytes(lines, clockFrom, clockTo, dateFrom, dateTo);
        else clock = perS > 0 ? (clockNumber * timesS) / perS : this.clock.fromNumber(clockNumber);
        if (isOrdinary && column >= least && !extra && !Number.isNaN(clock)) {
          table.clock[n] = clock;
          table.row[n] = row;
          table.offset[n] = base + start;
          table.length = n + 1;
        } else if (!this.writer.take(clock, column, extra, row, base + start))
          return { at: base + start, row };
      }
      at = next;
      row++;
    }
    return { at: base + at, row };
  }

  /** As `readPlain`, of lines parted by blanks, which are never plain, and of a last one without an end. */
  private readSplit(lines: Buffer, base: number, firstRow: number): { at: number; row: number } {
    let row = firstRow;
    let at = 0;
    while (at < lines.length) {
      const to = lineEnd(lines, at);
      if (!this.takeLine(lines.subarray(at, to), row, base + at)) break;
      at = nextLine(lines, to);
      row++;
    }
    return { at: base + at, row };
  }

  /** Reads one line as a string; false when it is no row. */
  private takeLine(line: Buffer, row: number, offset: number): boolean {
    const { roles, most } = this.layout;
    const text = this.text.toText(line);
    if (text.trim() === '') return true;
    if (this.table.length === this.table.clock.length) this.table.grow();
    const fields = splitFields(text, this.layout.delimiter);
    let clock = '';
    let date = '';
    let extra = false;
    for (let column = 0; column < fields.length; column++) {
      const role = column < roles.length ? roles[column]! : SKIP;
      const field = fields[column]!;
      if (role === CHANNEL || role === REFERENCE)
        this.writer.store(this.targets[column]!, field, this.table.length);
      else if (role === CLOCK) clock = field;
      else if (role === DATE) date = field;
      else if (column >= most && field !== '') extra = true;
    }
    return this.writer.take(this.clock.fromText(clock, date), fields.length, extra, row, offset);
  }
}

function isOnlySpaces(bytes: Uint8Array, from: number, to: number): boolean {
  for (let i = from; i < to; i++) if (bytes[i] !== SPACE) return false;
  return true;
}
