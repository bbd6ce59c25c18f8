import { TemperbookError } from '../../quantity';
import { median } from '../columns/columnSample';
import type { Reading } from '../reading';
import type { LogTable } from '../rows/logTable';
import { rejectRows, shiftBreaks } from '../rows/rejectRows';

/** Up to this share of rows with the stamp of the row before, equal rows are copies, not a coarse clock. */
const COPIES_SHARE = 0.02;

/**
 * Gives rows that share a stamp, because the clock is coarser than the rows are quick, times of their own:
 * on one regular line when every stamp agrees with it within the clock's own step, else evenly inside the
 * step. Few rows that repeat the row before in every value are copies and are rejected.
 * @throws TemperbookError when all rows have one stamp.
 */
export function rebuildStamps(
  table: LogTable,
  breaks: readonly number[],
  perS: number,
  reading: Reading,
): number[] {
  const { file, notes } = reading;
  const repeats: number[] = [];
  for (let i = 1; i < table.length; i++) if (table.clock[i] === table.clock[i - 1]) repeats.push(i);
  if (repeats.length === 0) return [...breaks];
  if (repeats.length === table.length - 1 && table.length > 1)
    throw new TemperbookError('Every row has the same time', {
      file,
      row: table.row[0]!,
      found: `${table.length} rows with one stamp`,
      remedy: 'Say how far apart the rows are, as option intervalS in seconds',
    });
  let moved = [...breaks];
  if (repeats.length <= Math.max(1, COPIES_SHARE * table.length)) {
    const copies = repeats.filter((i) => table.cells.every((cells) => Object.is(cells[i], cells[i - 1])));
    if (copies.length > 0) {
      rejectRows(table, copies, 'the row repeats the one before, time and readings alike');
      notes.push(
        `${rows(copies.length)} that repeat${copies.length === 1 ? 's' : ''} the row before in time and readings ${copies.length === 1 ? 'is' : 'are'} not used.`,
      );
      moved = shiftBreaks(moved, copies);
    }
    if (copies.length === repeats.length) return moved;
  }
  const shared = `${rows(repeats.length)} share${repeats.length === 1 ? 's' : ''} the stamp of the row before, as the clock is coarser than the rows are quick`;
  const step = moved.length === 0 ? regularStep(table) : undefined;
  if (step !== undefined) {
    const { clock, length } = table;
    const first = clock[0]!;
    for (let i = 1; i < length; i++) clock[i] = first + i * step;
    notes.push(
      `${shared}; the rows come regularly, so their times are rebuilt ${Number((step / perS).toPrecision(6))} s apart.`,
    );
  } else {
    spread(table);
    notes.push(`${shared}; rows of one stamp are spread evenly inside it.`);
  }
  return moved;
}

/** Step of a straight line of times from which no stamp is further than the clock's step there. */
function regularStep({ clock, length }: LogTable): number | undefined {
  const first = clock[0]!;
  const mean = (clock[length - 1]! - first) / (length - 1);
  const coarse = clock[length - 1]! - clock[distinctBefore(clock, length - 1)]!;
  // The ends leave the step open by one step of the clock; within that it is likely a round number.
  const near = (step: number) => Math.abs(step - mean) * (length - 1) <= coarse * 1.001;
  const rounded = [1, 2, 3, 4, 5].map((digits) => Number(mean.toPrecision(digits)));
  const candidates = [usualShare(clock, length), ...rounded, mean].filter(near);
  return candidates.find((step) => isOnLine(clock, length, step));
}

/** The clock's usual step, shared among the usual number of rows in it. */
function usualShare(clock: Float64Array, length: number): number {
  const sizes: number[] = [];
  const steps: number[] = [];
  for (let i = 0; i < length && sizes.length < 4096; ) {
    let next = i + 1;
    while (next < length && clock[next] === clock[i]) next++;
    // The first and the last stamp may be cut short.
    if (i > 0 && next < length) {
      sizes.push(next - i);
      steps.push(clock[next]! - clock[i]!);
    }
    i = next;
  }
  return median(steps) / median(sizes);
}

function isOnLine(clock: Float64Array, length: number, step: number): boolean {
  const first = clock[0]!;
  let before = 0;
  for (let i = 0; i < length; ) {
    let next = i + 1;
    while (next < length && clock[next] === clock[i]) next++;
    const after = next < length ? clock[next]! - clock[i]! : before;
    const allowed = Math.max(before, after) * 1.001;
    for (let k = i; k < next; k++) if (Math.abs(first + k * step - clock[k]!) > allowed) return false;
    before = after;
    i = next;
  }
  return true;
}

function distinctBefore(clock: Float64Array, at: number): number {
  let i = at;
  while (i > 0 && clock[i] === clock[at]) i--;
  return i;
}

/** Puts the rows of one stamp evenly between it and the next; inside the step before where the next is further. */
function spread({ clock, length }: LogTable): void {
  let before = Number.POSITIVE_INFINITY;
  for (let i = 0; i < length; ) {
    let next = i + 1;
    while (next < length && clock[next] === clock[i]) next++;
    const after = next < length ? clock[next]! - clock[i]! : before;
    const room = Math.min(before, after);
    const start = clock[i]!;
    for (let k = i + 1; k < next; k++) clock[k] = start + (room * (k - i)) / (next - i);
    before = after;
    i = next;
  }
}

const rows = (n: number) => `${n} row${n === 1 ? '' : 's'}`;
