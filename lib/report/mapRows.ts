import type { AllowedTime } from '../planning';
import { formatDuration, formatTemp } from '../quantity';
import type { TableRow } from './table';

/** One row per temperature: how long the strength surely holds, and how long it probably does. */
export function allowedTimeRows(times: readonly AllowedTime[]): TableRow[] {
  const say = (s: number | null): string =>
    s === null ? 'longer than the map' : s === 0 ? 'no time' : formatDuration(s);
  return times.map(({ tempC, nominalS, sureS }) => ({
    'Held at': formatTemp(tempC),
    'Count on': say(sureS),
    'Probably good for': say(nominalS),
  }));
}
