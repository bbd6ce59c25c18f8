import { formatDuration, TemperbookError } from '../../quantity';
import { median } from '../columns/columnSample';
import type { Reading } from '../reading';
import type { LogTable } from '../rows/logTable';
import { rejectRows, shiftBreaks } from '../rows/rejectRows';
import type { ClockPlan } from './clockPlan';
import { rebuildStamps } from './rebuildStamps';
import { US_PER_S } from './stamp';

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

const HALF_DAY_S = 43_200;
const HOUR_S = 3600;
/** Month of the change in Europe and North America, from 0. */
const MARCH = 2;
/** More rows than this share out of order are not put in order. */
const MOST_LATE = 0.5;
/** An elapsed clock that starts within this is taken to show elapsed time, not the time of day. */
const ELAPSED_START_S = 60;

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
    breaks = unwrap(table, plan, perS, hasZone, reading);
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

/**
 * Local clocks leave out an hour in the night of a Sunday in spring: a step of just an hour to 2 or 3 o'clock
 * on such a day is no hour without readings.
 */
function springForward({ clock, length, row }: LogTable, perS: number, notes: string[]): void {
  if (clock[length - 1]! - clock[0]! < HOUR_S * perS) return;
  const usual = usualStep(clock.subarray(0, length));
  for (let i = 1; i < length; i++) {
    const step = clock[i]! - clock[i - 1]!;
    if (step < HOUR_S * perS || step > HOUR_S * perS + 2 * usual || usual > (HOUR_S / 4) * perS) continue;
    const at = new Date(clock[i]! / 1000);
    const isNight = at.getUTCHours() === 2 || at.getUTCHours() === 3;
    if (at.getUTCDay() !== 0 || at.getUTCMonth() !== MARCH || !isNight || at.getUTCMinutes() > 15) continue;
    for (let k = i; k < length; k++) clock[k] = clock[k]! - HOUR_S * perS;
    notes.push(
      `Warning: at row ${row[i]} the clock goes forward by an hour, as when summer time begins; the rows after it are taken to follow on without a break.`,
    );
    return;
  }
}

/** Middle of the steps that go forward, looked at in up to 4096 places. */
export function usualStep(values: Float64Array): number {
  const every = Math.max(1, Math.floor(values.length / 4096));
  const steps: number[] = [];
  for (let i = 1; i < values.length; i += every) {
    const step = values[i]! - values[i - 1]!;
    if (step > 0) steps.push(step);
  }
  // Differences of decimal times carry binary dust in their last digits.
  return steps.length === 0 ? 0 : Number(median(steps).toPrecision(9));
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

/** Adds what a clock loses when it passes midnight, is set back, or starts anew. Returns the restarts. */
function unwrap(
  table: LogTable,
  plan: ClockPlan,
  perS: number,
  hasZone: boolean,
  reading: Reading,
): number[] {
  const { file, notes } = reading;
  const { clock, length, row } = table;
  const usual = usualStep(clock.subarray(0, length)) / perS;
  const firstRaw = clock[0]!;
  const showsElapsed = plan.kind === 'elapsed' || (plan.kind === 'time' && firstRaw < ELAPSED_START_S * perS);
  const isWallClock = !hasZone && !showsElapsed && plan.kind !== 'count' && plan.kind !== 'rows';
  const isTimeOfDay = plan.kind === 'time' || (plan.kind === 'packed' && !plan.dated);
  const isHalfDay = isWallClock && showsTwelveHours(clock.subarray(0, length), perS);
  const near = 60 + 10 * usual;
  const blockStarts = new Set(table.blocks.map(({ at }) => at));
  const breaks: number[] = [];
  let shift = 0;
  let nights = 0;
  let halves = 0;
  let previousRaw = firstRaw;
  for (let i = 1; i < length; i++) {
    const raw = clock[i]!;
    const drop = (clock[i - 1]! - (raw + shift)) / perS;
    if (drop > 0) {
      const stays = i + 1 >= length || Math.abs(clock[i + 1]! - raw) <= near * perS;
      const again = i + 1 < length && clock[i + 1]! > raw && clock[i + 1]! <= previousRaw;
      const restarts =
        (plan.kind === 'elapsed' || plan.kind === 'time') &&
        raw < previousRaw &&
        (blockStarts.has(i) || (again && raw <= firstRaw + 1.5 * usual * perS));
      const isFullDay = drop > 86_400 - HOUR_S;
      if (isHalfDay && drop > HALF_DAY_S - near && drop <= HALF_DAY_S) {
        shift += HALF_DAY_S * perS;
        halves++;
      } else if (plan.kind === 'time' && plan.form === 'm:s' && drop > HOUR_S / 2) shift += HOUR_S * perS;
      else if (isTimeOfDay && drop > HALF_DAY_S && (isFullDay || !(restarts && showsElapsed))) {
        shift += 86_400 * perS;
        nights++;
      } else if (isWallClock && drop <= HOUR_S && drop >= HOUR_S - near && stays) {
        shift += HOUR_S * perS;
        notes.push(
          `Warning: at row ${row[i]} the clock goes back by ${formatDuration(Math.round(drop))}, as when summer time ends; the rows after it are taken to follow on without a break.`,
        );
      } else if (restarts) {
        shift = clock[i - 1]! - raw + Math.max(20 * usual, 1) * perS;
        breaks.push(i - 1);
        if (breaks.length <= 3)
          notes.push(
            `At row ${row[i]} the recording starts anew; the time between the two recordings is unknown, so they are set apart by a gap that is not counted.`,
          );
      } else if (isTimeOfDay && drop > 2 * HOUR_S && stays) {
        shift += 86_400 * perS;
        notes.push(
          `At row ${row[i]} the clock goes back by ${formatDuration(Math.round(drop))} and stays there; the rows after it are taken to be of the next day.`,
        );
      }
    }
    previousRaw = raw;
    clock[i] = raw + shift;
  }
  if (nights > 0)
    notes.push(`The clock passes midnight ${nights === 1 ? 'once' : `${nights} times`}; the days are added.`);
  if (halves > 0)
    notes.push(
      `Warning: the clock shows twelve hours without AM or PM and starts over ${halves === 1 ? 'once' : `${halves} times`}; half a day is added each time.`,
    );
  if (breaks.length > 3) notes.push(`In all the recording starts anew ${breaks.length} times.`);
  if (breaks.length * 3 > length)
    throw new TemperbookError('The clock starts from zero again and again, and nothing says when', {
      file,
      row: row[breaks[0]! + 1]!,
      found: `${breaks.length} restarts in ${length} rows`,
      remedy: 'Say how far apart the rows are, as option intervalS in seconds',
    });
  return breaks;
}

/** No hour but 1 to 12: a clock without AM and PM. */
function showsTwelveHours(clock: Float64Array, perS: number): boolean {
  const hourOf = (value: number) => Math.floor((value / perS / HOUR_S) % 24);
  return clock.every((value) => hourOf(value) >= 1 && hourOf(value) <= 12);
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
  const { file, notes } = reading;
  const { clock, length } = table;
  let late = 0;
  let firstLate = 0;
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < length; i++) {
    if (clock[i]! < highest && late++ === 0) firstLate = table.row[i]!;
    highest = Math.max(highest, clock[i]!);
  }
  if (late === 0) return [...breaks];
  // Newest first is an order; rows that go to and fro are a clock misread, or a file shuffled.
  if (late > MOST_LATE * length && late !== length - 1)
    throw new TemperbookError('Most rows stand in another order than their times', {
      file,
      row: firstLate,
      found: `${late} of ${length} rows before a row that is above them`,
      expected: 'rows in the order in which they were measured',
      remedy:
        'Sort the file by its time, or say how its times are to be read, as option clock.format or clock.dateOrder',
    });
  const order = Uint32Array.from({ length }, (_, i) => i).sort((a, b) => clock[a]! - clock[b]! || a - b);
  const ends = new Set(breaks);
  const moved = [...order.entries()].filter(([, from]) => ends.has(from)).map(([to]) => to);
  table.select(order);
  notes.push(
    late === length - 1
      ? 'The rows stand newest first; they are put in the order of their times.'
      : `${rows(late)} (the first is row ${firstLate}) stand${late === 1 ? 's' : ''} later in the file than by the clock; rows are put in the order of their times.`,
  );
  return moved;
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
