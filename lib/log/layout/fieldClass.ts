import { ambiguousParts, parseDate, parseTime, splitStamp } from '../clock/stamp';
import { isNumber } from './cell';
import { tokenKind } from './errorTokens';

/** What a field looks like before anything is known about its column. */
export type FieldClass = 'empty' | 'number' | 'date' | 'time' | 'stamp' | 'token' | 'text';

/** A written date in any order of its parts. */
export function isDate(text: string): boolean {
  if (!/\d/.test(text) || text.length < 6) return false;
  const parts = ambiguousParts(text);
  if (parts)
    return ['day first', 'month first', 'year first'].some(
      (order) => !Number.isNaN(parseDate(text, order as 'day first')),
    );
  return !Number.isNaN(parseDate(text, 'day first'));
}

/** The ordinary case, looked for first. */
const PLAIN = /^[+-]?\d{1,15}(?:[.,]\d{1,15})?$/;

/** Classes a trimmed field. Either decimal mark is taken for one here. */
export function fieldClass(text: string): FieldClass {
  if (text === '') return 'empty';
  if (PLAIN.test(text)) return 'number';
  if (isNumber(text, '.') || isNumber(text, ',')) return 'number';
  if (parseTime(text) || parseTime(text, 'm:s')) return 'time';
  if (isDate(text)) return 'date';
  const stamp = splitStamp(text);
  if (stamp && stamp.time !== '' && isDate(stamp.date) && parseTime(stamp.time)) return 'stamp';
  return tokenKind(text) === undefined ? 'text' : 'token';
}

/** Stands in a column of readings or of a clock. */
export const isTyped = (kind: FieldClass): boolean => kind !== 'empty' && kind !== 'text';
/** Can begin a row of readings. */
export const isValue = (kind: FieldClass): boolean =>
  kind === 'number' || kind === 'date' || kind === 'time' || kind === 'stamp';
