import type { LogTable } from '../rows/logTable';
import { usualStep } from './usualStep';

const HOUR_S = 3600;
/** Month of the change in Europe and North America, from 0. */
const MARCH = 2;

/**
 * Local clocks leave out an hour in the night of a Sunday in spring: a step of just an hour to 2 or 3 o'clock
 * on such a day is no hour without readings.
 */
export function springForward({ clock, length, row }: LogTable, perS: number, notes: string[]): void {
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
