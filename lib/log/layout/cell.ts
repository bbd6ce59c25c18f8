import type { FaultKind } from '../faultKind';
import { tokenKind } from './errorTokens';
import { parseUnit } from './units';

/** A field read as a number, or the kind of fault that stands there instead. */
export type Cell = { readonly value: number; readonly unit?: string } | { readonly fault: FaultKind };

const PLAIN: Readonly<Record<string, RegExp>> = {
  '.': /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,4})?$/,
  ',': /^[+-]?(?:\d+,?\d*|,\d+)(?:[eE][+-]?\d{1,4})?$/,
};
/** Groups of exactly three digits, all parted by the same mark. */
const GROUPED: Readonly<Record<string, RegExp>> = {
  '.': /^[+-]?\d{1,3}([,' \u00a0\u2009\u202f’])\d{3}(?:\1\d{3})*(?:\.\d+)?$/,
  ',': /^[+-]?\d{1,3}([.' \u00a0\u2009\u202f’])\d{3}(?:\1\d{3})*(?:,\d+)?$/,
};
const GLUED = /^([+-]?[\d.,][\d.,' \u00a0\u2009\u202f’]*(?:[eE][+-]?\d{1,4})?)\s*([^\d\s.,+-][^\d.,]{0,11})$/;
const LONGEST_NUMBER = 64;

/** The number in a text, NaN when it holds none: plain, with an exponent, or with thousands parted in threes. */
export function parseNumber(text: string, decimal: '.' | ','): number {
  if (text.length > LONGEST_NUMBER) return Number.NaN;
  const signed = text[0] === '\u2212' ? `-${text.slice(1)}` : text;
  if (PLAIN[decimal]!.test(signed)) return Number(decimal === '.' ? signed : signed.replace(',', '.'));
  const group = GROUPED[decimal]!.exec(signed);
  if (!group) return Number.NaN;
  return Number(signed.split(group[1]!).join('').replace(decimal, '.'));
}

/** Reads a trimmed field: a number, a number with a unit glued to it, or a word that means there is none. */
export function readCell(text: string, decimal: '.' | ','): Cell {
  const number = measured(text, decimal);
  if (!number) return { fault: tokenKind(text) ?? 'not a number' };
  return Number.isFinite(number.value) ? number : { fault: 'over range' };
}

/** Does a trimmed field hold a number that `readCell` reads? */
export const isNumber = (text: string, decimal: '.' | ','): boolean =>
  Number.isFinite(measured(text, decimal)?.value);

/** A number, which may be too large to hold, or one with a unit glued to it. */
function measured(
  text: string,
  decimal: '.' | ',',
): { readonly value: number; readonly unit?: string } | undefined {
  const value = parseNumber(text, decimal);
  if (!Number.isNaN(value)) return { value };
  const glued = text.length <= LONGEST_NUMBER ? GLUED.exec(text) : null;
  const unit = glued ? parseUnit(glued[2]!) : undefined;
  if (!glued || !unit) return undefined;
  const number = parseNumber(glued[1]!.trim(), decimal);
  return Number.isFinite(number) ? { value: number, unit: unit.symbol } : undefined;
}
