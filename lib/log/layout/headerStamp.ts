import { ambiguousParts, parseDate, parseTime, US_PER_DAY } from '../clock/stamp';

const START_KEY =
  /^\W*(?:start|begin|began|date|time\b|recorded|recording|trigger|first (?:scan|sample)|datum|zeit|uhrzeit|beginn)/i;
const DATE =
  /(\d{4}[-/.]\d{1,2}[-/.]\d{1,2}|\d{1,2}[-/.]\d{1,2}[-/.]\d{2,4}|\d{1,2}[ -][A-Za-z]{3,9}[ -]\d{4})/;
const TIME = /(\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?(?: ?[AP]M)?)/i;
const LONGEST_LINE = 400;

/**
 * What header lines say of the start of the recording, µs from 1970 on the wall clock of the file; undefined
 * when there is no date, or its day and month could be either.
 */
export function headerStamp(lines: readonly string[]): number | undefined {
  let day = Number.NaN;
  let us = Number.NaN;
  for (const line of lines) {
    if (line.length > LONGEST_LINE || !START_KEY.test(line)) continue;
    const date = DATE.exec(line)?.[1];
    if (date && Number.isNaN(day)) day = certainDay(date);
    const time = TIME.exec(date ? line.replace(date, ' ') : line)?.[1];
    if (time && Number.isNaN(us)) us = parseTime(time)?.us ?? Number.NaN;
  }
  return Number.isNaN(day) || Number.isNaN(us) ? undefined : day * US_PER_DAY + us;
}

function certainDay(date: string): number {
  const parts = ambiguousParts(date);
  if (!parts) return parseDate(date, 'day first');
  if (parts[0] > 12 || date.includes('.') || parts[0] === parts[1]) return parseDate(date, 'day first');
  return parts[1] > 12 ? parseDate(date, 'month first') : Number.NaN;
}
