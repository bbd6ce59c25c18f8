import { requireNumber } from '../quantity';

/** Short-range ordering of the Ni-Cr leg happens between these temperatures, °C. */
const ORDERING_FROM_C = 200;
const ORDERING_TO_C = 600;
/** Fit to the three maker's points at 350 °C: 0.9 °C after 5 min, growing with the power 0.32 of time. */
const AFTER_FIVE_MINUTES_C = 0.9;
const POWER = 0.32;
/** Greatest error found in annealed wire, share of the reading. */
const GREATEST_SHARE = 0.017;

/**
 * How much too HIGH a type K thermocouple may read after `timeS` (s) spent between 200 and 600 °C, °C: short-range
 * ordering of its Ni-Cr leg, on top of the tolerance for new wire. An estimate of size, one-sided, 0 outside that
 * range: 0.9 °C (t/5 min)^0.32, never more than 1.7 % of the reading. It shows only where wire that was hot lies in
 * the temperature gradient (a probe moved or pushed deeper); types N, T and J hardly have it. Reading high
 * makes the record look worse than the metal fared: it widens the band on the low side only.
 *
 * Source: a maker's technical note, 350 °C: +0.9 °C after 5 min, +1.9 °C after 45 min, +3.7 °C after 7 h; the
 * ceiling from Kollie et al., ORNL-TM-4862 (1975). No data on how it changes with temperature within the range.
 * @throws TemperbookError on a time that is negative or not a number.
 */
export function typeKDriftC(tempC: number, timeS: number): number {
  requireNumber(tempC, 'Temperature in °C');
  requireNumber(timeS, 'Time between 200 and 600 °C in s', { low: 0 });
  if (tempC < ORDERING_FROM_C || tempC > ORDERING_TO_C) return 0;
  return Math.min(AFTER_FIVE_MINUTES_C * (timeS / 300) ** POWER, GREATEST_SHARE * tempC);
}
