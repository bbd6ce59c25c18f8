import { US_PER_DAY, US_PER_S } from './stamp';

type Format = 'hhmmss' | 'yyyymmddhhmmss';
/** A clock of seconds would hardly step like this; three such steps are no chance. */
const LEAST_CARRIES = 1;

/**
 * Tells a clock that writes the digits of its time as one whole number: minutes and seconds never pass 59, and
 * the steps over a full minute (from 93059 to 93100) are even only so.
 */
export function packedFormat(numbers: Float64Array): Format | undefined {
  const filled = numbers.filter((value) => !Number.isNaN(value));
  if (filled.length < 3 || filled.some((value) => !Number.isInteger(value) || value < 0)) return undefined;
  const dated = filled.every((value) => value > 1.9e13 && value < 2.1e13);
  if (!dated && filled.some((value) => value >= 240_000)) return undefined;
  if (filled.some((value) => Number.isNaN(packedUs(value, dated)))) return undefined;
  if (dated) return 'yyyymmddhhmmss';
  let carries = 0;
  for (let i = 1; i < filled.length; i++) {
    const step = filled[i]! - filled[i - 1]!;
    const before = filled[i - 1]!;
    // The jump of the digits where a minute is full.
    const isFull = Math.floor(filled[i]! / 100) !== Math.floor(before / 100);
    const us = (packedUs(filled[i]!, false) - packedUs(before, false)) / US_PER_S;
    if (isFull && step > 40 && us <= step - 40) carries++;
    if (step > 0 && us <= 0) return undefined;
  }
  // Rows of whole minutes (0, 100, 200) are as even either way.
  const isEven = filled.every((value) => value % 100 === 0);
  return carries >= LEAST_CARRIES && !isEven ? 'hhmmss' : undefined;
}

/** Microseconds of a packed time, from midnight or from 1970; NaN when it is none. */
export function packedUs(value: number, dated: boolean): number {
  const second = value % 100;
  const minute = Math.floor(value / 100) % 100;
  const hour = Math.floor(value / 1e4) % 100;
  if (second > 59 || minute > 59 || hour > 23) return Number.NaN;
  const us = ((hour * 60 + minute) * 60 + second) * US_PER_S;
  if (!dated) return us;
  const day = Math.floor(value / 1e6) % 100;
  const month = Math.floor(value / 1e8) % 100;
  const ms = Date.UTC(Math.floor(value / 1e10), month - 1, day);
  return new Date(ms).getUTCDate() === day && month <= 12 ? (ms / 86_400_000) * US_PER_DAY + us : Number.NaN;
}
