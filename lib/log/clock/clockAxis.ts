import { TemperbookError } from '../../quantity';
import type { Reading } from '../reading';
import type { LogTable } from '../rows/logTable';
import { rejectRows, shiftBreaks } from '../rows/rejectRows';
import { type ClockPlan, ELAPSED_START_S } from './clockPlan';
import { rebuildStamps } from './rebuildStamps';
import { springForward } from './springForward';
import { US_PER_S } from './stamp';
import { unwrapClock } from './unwrapClock';
import { usualStep } from './usualStep';

/** The time of every row. */
export interface ClockAxis {
  /** Strictly increasing, s: from the file's own zero for an elapsed clock, else from the first row. */
  readonly timeS: Float64Array;
  /** Usual time between rows, s. */
  readonly intervalS: number;
  /** Rows (by index, ascending) after which the recording was started anew: the time between is unknown. */
  readonly breaks: readonly number[];
  /** What the clock shows at the first row, s, for clocks without a date. */
  readonly clockStartS?: number;
  /** First row's place on the clock of the file, µs from 1970, for clocks with a date. */
  readonly startUs?: number;
}

const HOUR_S = 3600;
/** More rows than this share out of order are not put in order. */
const MOST_LATE = 0.5;
/** A clock that starts anew or passes midnight goes back more seldom than at this share of the rows. */
const MOST_TURNS = 0.35;

/**
 * Turns clock readings into one strictly increasing time axis: past midnight, over an hour set back, over
 * restarts, sorted, repeated stamps spread. Rows that stay without a time of their own are rejected.
 * @throws TemperbookError when the clock stands still or starts anew too often to place the rows.
 */
export function clockAxis(table: LogTable, plan: ClockPlan, hasZone: boolean, reading: Reading): ClockAxis {
  const perS = plan.kind === 'elapsed' || plan.kind === 'rows' ? 1 : US_PER_S;
  let breaks: number[] = [];
  if (!hasZone && isDated(plan) && plan.kind !== 'count') springForward(table, perS, reading.notes);
  const isInOrder = isRising(table.clock, table.length);
  if (!isInOrder) {
    placeBlocks(table, plan, perS, reading);
    const late = lateRows(table);
    const turns = turnsBack(table);
    breaks = unwrapClock(table, plan, perS, hasZone, reading);
    if (
      late.count > MOST_LATE * table.length &&
      turns > MOST_TURNS * table.length &&
      turns < table.length - 1
    )
      throw shuffled(late, table, reading);
    dropStrays(table, perS, reading);
    breaks = sort(table, breaks, reading);
    breaks = rebuildStamps(table, breaks, perS, reading);
  }
  const ticks = table.clock.subarray(0, table.length);
  const first = ticks[0]!;
  const isElapsed = perS === 1 || (plan.kind === 'time' && Math.abs(first) < ELAPSED_START_S * US_PER_S);
  const zero = isElapsed ? 0 : first;
  if (perS !== 1 || zero !== 0) for (let i = 0; i < ticks.length; i++) ticks[i] = (ticks[i]! - zero) / perS;
  if (!isInOrder) breaks = dropStanding(table, breaks, reading);
  const timeS = table.clock.subarray(0, table.length);
  return {
    timeS,
    intervalS: usualStep(timeS),
    breaks,
    ...(isDated(plan) ? { startUs: first } : { clockStartS: first / perS }),
  };
}

/** Does the clock show the day as well? */
const isDated = (plan: ClockPlan) =>
  ['stamp', 'count', 'date and time'].includes(plan.kind) || (plan.kind === 'packed' && plan.dated);

function isRising(values: Float64Array, length: number): boolean {
  for (let i = 1; i < length; i++) if (!(values[i]! > values[i - 1]!)) return false;
  return true;
}

/** Blocks that each count from zero are set apart by the start stamps of their headers. */
function placeBlocks(
  { clock, length, blocks }: LogTable,
  plan: ClockPlan,
  perS: number,
  reading: Reading,
): void {
  const { notes } = reading;
  if (plan.kind !== 'elapsed' && plan.kind !== 'time') return;
  const filled = blocks.filter(({ at }, b) => at < (blocks[b + 1]?.at ?? length));
  if (filled.length < 2) return;
  for (let b = 1; b < filled.length; b++)
    if (!((filled[b]!.startUs ?? Number.NaN) > (filled[b - 1]!.startUs ?? Number.NaN))) return;
  if (clock[filled[1]!.at]! > clock[filled[1]!.at - 1]!) return;
  for (let b = 1; b < filled.length; b++) {
    const shift = ((filled[b]!.startUs! - filled[0]!.startUs!) / US_PER_S) * perS;
    const end = filled[b + 1]?.at ?? length;
    for (let i = filled[b]!.at; i < end; i++) clock[i] = clock[i]! + shift;
  }
  notes.push(
    `Each of the ${filled.length} blocks counts from its own start; they are placed by the start times in their headers.`,
  );
}

/** One row far ahead of both its neighbours has a wrong stamp. */
function dropStrays(table: LogTable, perS: number, reading: Reading): void {
  const { notes } = reading;
  const { clock, length } = table;
  const usual = usualStep(clock.subarray(0, length));
  const far = Math.max(1000 * usual, HOUR_S * perS);
  const strays: number[] = [];
  for (let i = 1; i + 1 < length; i++) {
    const before = clock[i - 1]!;
    const after = clock[i + 1]!;
    if (clock[i]! - after > far && after >= before && after - before <= 4 * usual) strays.push(i);
  }
  if (strays.length === 0) return;
  rejectRows(table, strays, 'the time of this row lies far ahead of the rows around it');
  notes.push(
    `${rows(strays.length)} with a time far ahead of the rows around ${strays.length === 1 ? 'it is' : 'them are'} not used.`,
  );
}

function sort(table: LogTable, breaks: readonly number[], reading: Reading): number[] {
  const { notes } = reading;
  const { clock, length } = table;
  const late = lateRows(table);
  if (late.count === 0) return [...breaks];
  // Newest first is an order; rows that go to and fro are a clock misread, or a file shuffled.
  if (late.count > MOST_LATE * length && late.count !== length - 1) throw shuffled(late, table, reading);
  const order = Uint32Array.from({ length }, (_, i) => i).sort((a, b) => clock[a]! - clock[b]! || a - b);
  const ends = new Set(breaks);
  const moved = [...order.entries()].filter(([, from]) => ends.has(from)).map(([to]) => to);
  table.select(order);
  notes.push(
    late.count === length - 1
      ? 'The rows stand newest first; they are put in the order of their times.'
      : `${rows(late.count)} (the first is row ${late.first}) stand${late.count === 1 ? 's' : ''} later in the file than by the clock; rows are put in the order of their times.`,
  );
  return moved;
}

interface LateRows {
  readonly count: number;
  /** Line of the first. */
  readonly first: number;
}

/** Rows with a time before that of a row above them. */
function lateRows({ clock, length, row }: LogTable): LateRows {
  let count = 0;
  let first = 0;
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < length; i++) {
    if (clock[i]! < highest && count++ === 0) first = row[i]!;
    highest = Math.max(highest, clock[i]!);
  }
  return { count, first };
}

/** How often the clock goes back from one row to the next. */
function turnsBack({ clock, length }: LogTable): number {
  let turns = 0;
  for (let i = 1; i < length; i++) if (clock[i]! < clock[i - 1]!) turns++;
  return turns;
}

function shuffled({ count, first }: LateRows, { length }: LogTable, { file }: Reading): TemperbookError {
  return new TemperbookError('Most rows stand in another order than their times', {
    ...{ file, row: first },
    found: `${count} of ${length} rows before a row that is above them`,
    expected: 'rows in the order in which they were measured',
    remedy:
      'Sort the file by its time, or say how its times are to be read, as option clock.format or clock.dateOrder',
  });
}

/** Last guard: after all repairs a row that does not move the clock forward cannot be placed. */
function dropStanding(table: LogTable, breaks: readonly number[], reading: Reading): number[] {
  const { notes } = reading;
  const { clock, length } = table;
  const out: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < length; i++) {
    if (clock[i]! > last && clock[i]! < Number.POSITIVE_INFINITY) last = clock[i]!;
    else out.push(i);
  }
  if (out.length === 0) return [...breaks];
  rejectRows(table, out, 'the time of this row is not after the row before');
  notes.push(
    `${rows(out.length)} whose time is not after the row before ${out.length === 1 ? 'is' : 'are'} not used.`,
  );
  return shiftBreaks(breaks, out);
}

const rows = (n: number) => `${n} row${n === 1 ? '' : 's'}`;
