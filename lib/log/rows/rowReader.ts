import { lineAt, splitFields } from '../bytes/lines';
import type { LogText } from '../bytes/logText';
import type { ClockReader } from '../clock/clockReader';
import type { LogTable } from './logTable';
import { CHANNEL, CLOCK, DATE, REFERENCE, type RowLayout, SKIP } from './rowLayout';
import { RowWriter, TO_CLOCK, TO_REFERENCE } from './rowWriter';

const TAB = 9;
const LF = 10;
const CR = 13;
const SPACE = 32;
const QUOTE = 34;
const ZERO = 48;
const NO_BYTE = -1;
const NO_NUMBER = -3;
/** Bytes read at one call: the engine makes its best code of what is called often, not of one long loop. */
const CHUNK_BYTES = 32_768;
const PLUS = 43;
const MINUS = 45;
const POWERS = Float64Array.from({ length: 23 }, (_, k) => 10 ** k);
/** Whole numbers of so many digits, and powers of ten up to 22, are exact, so that one division rounds once. */
const EXACT_DIGITS = 15;

/** What is known before the first row is read. */
export interface ReadGivens {
  /** Behind the last line that has a line end. */
  readonly lastEnd: number;
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
  /** The text's bytes as a plain array, which the engine reads faster than a Buffer. */
  private readonly bytes: Uint8Array;
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
    let place = { at: from, row };
    while (isPlain && place.at < this.given.lastEnd) {
      const until = Math.min(place.at + CHUNK_BYTES, this.given.lastEnd);
      place = this.readPlain(place.at, place.row, until);
      this.given.onChunk(place.at);
      if (place.at < until) return place;
    }
    // Lines parted by blanks are never plain, and the last line may have no end.
    while (place.at < this.text.bytes.length) {
      const next = this.readLine(place.at, place.row);
      if (next < 0) break;
      place = { at: next, row: place.row + 1 };
    }
    return place;
  }

  /** Reads the lines that start before `until`; stops short of it at a line that is no row. */
  private readPlain(from: number, firstRow: number, until: number): { at: number; row: number } {
    const { bytes, delimiter, decimal, targets, table } = this;
    const { intervalS } = this.given;
    const { roles, least, most, absent } = this.layout;
    const { cells } = table;
    const width = roles.length;
    const { timesS, perS } = this.clock;
    const toClock = TO_CLOCK;
    // Nothing special to look after: the whole of a row's account is to write it down.
    const isOrdinary = intervalS === undefined && absent.length === 0;
    const tab = delimiter === TAB ? SPACE : TAB;
    let at = from;
    let row = firstRow;
    while (at < until) {
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
            digits > 0 && digits <= EXACT_DIGITS && (byte === delimiter || byte === LF || byte === CR);
          if (isPlain) {
            const size = whole / POWERS[places]!;
            const value = negative ? -size : size;
            if (target >= 0) cells[target]![n] = value;
            else if (target === toClock) clockNumber = value;
            else table.reference![n] = value;
          } else {
            while (byte !== delimiter && byte !== LF && byte !== CR) byte = bytes[++at]!;
            if (target === toClock) {
              clockFrom = fieldFrom;
              clockTo = at;
            } else this.writer.store(target, at > fieldFrom ? this.text.decode(fieldFrom, at).trim() : '', n);
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
        this.writer.clear(n);
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
        if (Number.isNaN(clockNumber)) clock = this.clock.fromBytes(clockFrom, clockTo, dateFrom, dateTo);
        else clock = perS > 0 ? (clockNumber * timesS) / perS : this.clock.fromNumber(clockNumber);
        if (isOrdinary && column >= least && !extra && !Number.isNaN(clock)) {
          table.clock[n] = clock;
          table.row[n] = row;
          table.offset[n] = start;
          table.length = n + 1;
        } else if (!this.writer.take(clock, column, extra, row, start)) return { at: start, row };
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
      if (role === CHANNEL || role === REFERENCE)
        this.writer.store(this.targets[column]!, field, this.table.length);
      else if (role === CLOCK) clock = field;
      else if (role === DATE) date = field;
      else if (column >= most && field !== '') extra = true;
    }
    return this.writer.take(this.clock.fromText(clock, date), fields.length, extra, row, from)
      ? line.next
      : -1;
  }
}

function isOnlySpaces(bytes: Uint8Array, from: number, to: number): boolean {
  for (let i = from; i < to; i++) if (bytes[i] !== SPACE) return false;
  return true;
}
