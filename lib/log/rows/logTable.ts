import type { FaultKind } from '../faultKind';

/** A row that is not used at all. */
export interface Reject {
  readonly row: number;
  /** Byte of the file its line starts at. */
  readonly offset: number;
  readonly kind: FaultKind;
  readonly column: string;
  readonly reason: string;
  /** What stood there, where the line itself is no more in the text. */
  readonly value?: string;
  /** No row of readings that took its time: a word at the end of the file, a part of a header. */
  readonly isNoRow?: true;
}

/** Rejected rows that follow each other for one reason. */
export interface RejectRun extends Reject {
  lastRow: number;
  rows: number;
  reason: string;
}

/** With more runs than this, rows of one kind that follow each other share a run whatever their reasons. */
const MOST_RUNS = 1000;
const MANY_REASONS = 'the rows are no rows of readings, each for a reason of its own';

/** A place from which the file starts over with a header of its own. */
export interface BlockStart {
  /** Index of the block's first row in the table. */
  readonly at: number;
  readonly row: number;
  /** What its header says of its start, µs from 1970 on its wall clock. */
  readonly startUs?: number;
  /** Field of each channel in the block's rows, −1 for none. */
  readonly fields: readonly number[];
}

/**
 * Rows as parsed, column by column, growing as the file is read: one clock, one value and one mark for each
 * channel, and where in the file the row stands.
 */
export class LogTable {
  length = 0;
  clock: Float64Array;
  row: Uint32Array;
  offset: Uint32Array;
  readonly cells: Float64Array[];
  /** Fault code of each reading; 0 is trusted. */
  readonly marks: Uint8Array[];
  /** Cold-end readings, for channels in mV. */
  reference?: Float64Array;
  /** Rejected rows, in runs; `rejected` counts the rows. */
  readonly rejects: RejectRun[] = [];
  rejected = 0;
  readonly blocks: BlockStart[] = [];

  constructor(channels: number, capacity: number, withReference: boolean) {
    this.clock = new Float64Array(capacity);
    this.row = new Uint32Array(capacity);
    this.offset = new Uint32Array(capacity);
    this.cells = Array.from({ length: channels }, () => new Float64Array(capacity));
    this.marks = Array.from({ length: channels }, () => new Uint8Array(capacity));
    if (withReference) this.reference = new Float64Array(capacity);
  }

  /** Takes a row into the account of those not used. */
  reject(refused: Reject): void {
    const { row, kind, column, reason, isNoRow } = refused;
    this.rejected++;
    const last = this.rejects[this.rejects.length - 1];
    if (
      last &&
      last.lastRow === row - 1 &&
      last.kind === kind &&
      last.column === column &&
      last.isNoRow === isNoRow
    ) {
      const isMany = this.rejects.length > MOST_RUNS;
      if (last.reason === reason || isMany) {
        if (last.reason !== reason) last.reason = MANY_REASONS;
        last.lastRow = row;
        last.rows++;
        return;
      }
    }
    this.rejects.push({ ...refused, lastRow: row, rows: 1 });
  }

  /** Makes room for at least one more row. */
  grow(): void {
    const capacity = Math.ceil(this.clock.length * 1.5) + 64;
    this.clock = longer(this.clock, capacity);
    this.row = longer(this.row, capacity);
    this.offset = longer(this.offset, capacity);
    for (let k = 0; k < this.cells.length; k++) {
      this.cells[k] = longer(this.cells[k]!, capacity);
      this.marks[k] = longer(this.marks[k]!, capacity);
    }
    if (this.reference) this.reference = longer(this.reference, capacity);
  }

  /** Keeps rows in the given order of their indices; the others are dropped. */
  select(order: Uint32Array): void {
    const pick = <T extends Float64Array | Uint32Array | Uint8Array>(from: T, to: T): T => {
      for (let i = 0; i < order.length; i++) to[i] = from[order[i]!]!;
      return to;
    };
    this.clock = pick(this.clock, new Float64Array(order.length));
    this.row = pick(this.row, new Uint32Array(order.length));
    this.offset = pick(this.offset, new Uint32Array(order.length));
    for (let k = 0; k < this.cells.length; k++) {
      this.cells[k] = pick(this.cells[k]!, new Float64Array(order.length));
      this.marks[k] = pick(this.marks[k]!, new Uint8Array(order.length));
    }
    if (this.reference) this.reference = pick(this.reference, new Float64Array(order.length));
    this.length = order.length;
  }
}

function longer<T extends Float64Array | Uint32Array | Uint8Array>(from: T, capacity: number): T {
  const to = new (from.constructor as new (length: number) => T)(capacity);
  to.set(from as never);
  return to;
}
