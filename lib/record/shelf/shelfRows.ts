import { formatChance, formatDuration, formatPercent, formatTemp } from '../../quantity';
import type { TableRow } from '../../report';
import { WORST_FIRST } from '../../strength';
import { numberOf, type ShelfPart } from './readShelf';
import type { ShelfPlace } from './shelfEntry';

/** What a decision of then is worth today. */
export interface SinceThen {
  /** What changed (`changedSince`). */
  readonly changed: readonly string[];
  /** What it would say today, or why that cannot be told; absent while nobody asked. */
  readonly today?: string;
}

/** The place that governs: of the worst verdict the one with the lowest low side. */
export const governing = (places: readonly ShelfPlace[]): ShelfPlace =>
  [...places].sort(
    (a, b) =>
      WORST_FIRST.indexOf(a.verdict) - WORST_FIRST.indexOf(b.verdict) ||
      a.keptFraction.low - b.keptFraction.low,
  )[0]!;

/** One row per part: when, which, what was said of it, and what was decided. */
export function shelfRow({ newest, editions }: ShelfPart, since?: SinceThen): TableRow {
  const worst = governing(newest.places);
  const { nominal, low, high } = worst.keptFraction;
  const row: TableRow = {
    Date: newest.date ?? 'not said',
    Part: numberOf(newest) || newest.job || newest.log || newest.file,
    Metal: `${worst.alloy}-${worst.temper}`,
    Verdict: newest.verdict,
    Governs: worst.name,
    'Strength kept': `${formatPercent(nominal)} (${Math.round(100 * low)}–${formatPercent(high)})`,
    Chance: newest.chanceKept === null ? 'not known' : formatChance(newest.chanceKept),
    Peak: formatTemp(worst.peakC),
    'Above the limit': worst.aboveLimitS === undefined ? 'no limit' : aboveText(worst.aboveLimitS),
    Decision: newest.decision?.disposition ?? 'missing',
    Editions: editionsText(editions.map(({ edition }) => edition)),
    File: newest.file,
  };
  if (!since) return row;
  const changed = since.changed.length > 0 ? `changed: ${since.changed.join(', ')}` : 'as it was';
  return { ...row, 'Since then': since.today === undefined ? changed : `${changed}; ${since.today}` };
}

/** "1–4", or one by one where some are missing. */
const editionsText = (editions: readonly number[]): string =>
  editions.length > 2 && editions[editions.length - 1]! - editions[0]! === editions.length - 1
    ? `${editions[0]}–${editions[editions.length - 1]}`
    : editions.join(', ');

const aboveText = (s: number): string => (s > 0 ? formatDuration(s) : 'never');
