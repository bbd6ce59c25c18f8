import { formatDuration, TemperbookError } from '../../quantity';
import type { Reading } from '../reading';
import type { LogTable } from '../rows/logTable';
import { type ClockPlan, ELAPSED_START_S } from './clockPlan';
import { usualStep } from './usualStep';

const HOUR_S = 3600;
const HALF_DAY_S = 43_200;
const DAY_S = 86_400;

/** Adds what a clock loses when it passes midnight, is set back, or starts anew. Returns the restarts. */
export function unwrapClock(
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
      const isFullDay = drop > DAY_S - HOUR_S;
      if (isHalfDay && drop > HALF_DAY_S - near && drop <= HALF_DAY_S) {
        shift += HALF_DAY_S * perS;
        halves++;
      } else if (plan.kind === 'time' && plan.form === 'm:s' && drop > HOUR_S / 2) shift += HOUR_S * perS;
      else if (isTimeOfDay && drop > HALF_DAY_S && (isFullDay || !(restarts && showsElapsed))) {
        shift += DAY_S * perS;
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
        shift += DAY_S * perS;
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
