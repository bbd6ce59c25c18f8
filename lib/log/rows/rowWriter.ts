import { ABSENT, codeOf, TRUSTED } from '../faults/faultCodes';
import { type Cell, readCell } from '../layout/cell';
import type { LogTable } from './logTable';
import { CHANNEL, type RowLayout } from './rowLayout';

/** Where a column's number goes, when not to a channel (0 and up). */
export const TO_CLOCK = -1;
/** See `TO_CLOCK`. */
export const TO_REFERENCE = -2;

const NOT_A_NUMBER = codeOf('not a number');
const MISSING = codeOf('missing field');
const MOST_REMEMBERED = 4096;

/** Writes fields and whole rows into a table, and keeps the account of the rows that cannot be used. */
export class RowWriter {
  /** Words come again and again. */
  private readonly memo = new Map<string, Cell>();

  constructor(
    private readonly layout: RowLayout,
    private readonly table: LogTable,
    private readonly intervalS: number | undefined,
  ) {}

  /** Writes a field that is no plain number into the row in work. */
  store(target: number, text: string, n: number): void {
    let cell = this.memo.get(text);
    if (!cell) {
      cell = readCell(text, this.layout.decimal);
      if (this.memo.size < MOST_REMEMBERED) this.memo.set(text, cell);
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
  take(clock: number, fields: number, extra: boolean, row: number, offset: number): boolean {
    const { table, layout, intervalS } = this;
    const n = table.length;
    const { least, most, usual } = layout;
    let time = clock;
    if (intervalS !== undefined) {
      if (!this.holdsReading(Math.min(fields, layout.roles.length), n)) {
        this.clear(n);
        return false;
      }
      // A rejected row took its time all the same.
      time = (n + table.rejected) * intervalS;
    } else if (Number.isNaN(clock)) {
      this.clear(n);
      return false;
    }
    if (fields < least || extra) {
      const many = extra
        ? `the row has more than the ${most} fields that belong; which one is too many cannot be known, so none is used`
        : `the row has ${fields} of ${usual} fields; which one is missing cannot be known, so none is used`;
      table.reject({ row, offset, kind: 'missing field', column: '', reason: many });
      this.clear(n);
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
  clear(n: number): void {
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
