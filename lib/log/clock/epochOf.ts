/** A count of ticks from some day: µs since 1970 = value × `timesUs` + `addUs`. */
export interface Epoch {
  readonly timesUs: number;
  readonly addUs: number;
  readonly what: string;
}

/** Seconds from 1904-01-01 to 1970-01-01: 66 years with 17 leap days. Derived. */
const SECONDS_1904_TO_1970 = 2_082_844_800;
/** Which count of seconds since some year a number of this size is; the years 1998 to 2039. */
export function epochOf(value: number): Epoch | undefined {
  const isYears = (s: number) => s > 0.9e9 && s < 2.2e9;
  if (isYears(value)) return { timesUs: 1e6, addUs: 0, what: 'seconds since 1970' };
  if (isYears(value / 1e3)) return { timesUs: 1e3, addUs: 0, what: 'milliseconds since 1970' };
  if (isYears(value / 1e6)) return { timesUs: 1, addUs: 0, what: 'microseconds since 1970' };
  if (isYears(value - SECONDS_1904_TO_1970))
    return { timesUs: 1e6, addUs: -SECONDS_1904_TO_1970 * 1e6, what: 'seconds since 1904' };
  return undefined;
}
