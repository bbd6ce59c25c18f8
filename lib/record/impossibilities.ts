import type { ErrorPlace } from '../quantity';
import { KEPT_FROM } from '../strength';
import type { DecisionRecord } from './decisionRecord';
import type { RecordedExposure } from './heat/recordedExposure';

/** What a record says that cannot be, beyond what a schema can tell: numbers that contradict one another. */
export function impossibilities(record: DecisionRecord): ErrorPlace[] {
  return [
    ...bandsOf(record, ''),
    ...rowsOf(record),
    ...wordsOf(record),
    ...heatsOf(record),
    ...chainOf(record),
  ];
}

/** Every band anywhere: low ≤ nominal ≤ high; every stretch of time: from ≤ to. */
function bandsOf(value: unknown, at: string): ErrorPlace[] {
  if (typeof value !== 'object' || value === null) return [];
  if (Array.isArray(value)) {
    if (typeof value[0] === 'number') return [];
    return value.flatMap((item, i) => bandsOf(item, `${at}.${i}`));
  }
  const { nominal, low, high, fromS, toS } = value as Readonly<Record<string, unknown>>;
  const found: ErrorPlace[] = [];
  const column = at.slice(1);
  if (isNumber(nominal) && isNumber(low) && isNumber(high) && !(low <= nominal && nominal <= high))
    found.push({ column, found: `${low}, ${nominal}, ${high}`, expected: 'low ≤ nominal ≤ high' });
  if (isNumber(fromS) && isNumber(toS) && fromS > toS)
    found.push({ column, found: `from ${fromS} to ${toS} s`, expected: 'an end after its beginning' });
  // Figures are pictures: their names are plotly's.
  const inside = Object.entries(value).filter(([key]) => !(at === '' && key === 'figures'));
  return [...found, ...inside.flatMap(([key, item]) => bandsOf(item, `${at}.${key}`))];
}

const isNumber = (value: unknown): value is number => typeof value === 'number';

function rowsOf({ log }: DecisionRecord): ErrorPlace[] {
  if (!log) return [];
  const { read, kept, flagged, rejected } = log.rows;
  if (read === kept + flagged + rejected) return [];
  return [
    {
      column: 'log.rows',
      found: `${read} read, ${kept} kept, ${flagged} flagged, ${rejected} rejected`,
      expected: 'rows that add up: read = kept + flagged + rejected',
    },
  ];
}

/** "Kept" needs its chance; without one, or with a lower one, the word is not the record's. */
function wordsOf({ verdict }: DecisionRecord): ErrorPlace[] {
  const all = [
    { column: 'verdict.verdict', verdict: verdict.verdict, chanceKept: verdict.chanceKept },
    ...verdict.channels.map((one, i) => ({ ...one, column: `verdict.channels.${i}.verdict` })),
  ];
  return all
    .filter(
      ({ verdict: word, chanceKept }) => word === 'kept' && !(chanceKept !== null && chanceKept >= KEPT_FROM),
    )
    .map(({ column, chanceKept }) => ({
      column,
      found: `kept, with a chance of ${chanceKept ?? 'nobody knows how much'}`,
      expected: `a chance of ${KEPT_FROM} or more`,
    }));
}

function heatsOf({ verdict }: DecisionRecord): ErrorPlace[] {
  return verdict.channels.flatMap(({ exposure, earlier }, i) =>
    [exposure, ...earlier].flatMap((heat) => heatProblems(heat, `verdict.channels.${i}.exposure`)),
  );
}

function heatProblems({ timeS, tempC, doubts }: RecordedExposure, column: string): ErrorPlace[] {
  const lengths = [
    tempC.length,
    ...doubts.flatMap(({ shiftK, runsK }) =>
      [...(shiftK ? [shiftK] : []), ...(runsK ?? [])].map((k) => k.length),
    ),
  ];
  const odd = lengths.find((length) => length !== timeS.length);
  const back = timeS.findIndex((time, i) => i > 0 && time <= timeS[i - 1]!);
  const silent = doubts.find(({ spread, shiftK, runsK }) => !runsK && !(spread && shiftK));
  return [
    ...(odd === undefined
      ? []
      : [{ column, found: `${odd} values at ${timeS.length} times`, expected: 'one for each time' }]),
    ...(back < 0
      ? []
      : [{ column, found: `time ${back} not after the one before`, expected: 'rising times' }]),
    ...(silent
      ? [{ column, found: `a doubt about ${silent.of} without numbers`, expected: 'its shifts' }]
      : []),
  ];
}

function chainOf({ edition, before, hash }: DecisionRecord): ErrorPlace[] {
  if ((edition === 1) === (before === undefined) && before !== hash) return [];
  return [
    {
      column: 'before',
      found: before === undefined ? `nothing, on edition ${edition}` : `a hash, on edition ${edition}`,
      expected: 'the hash of the edition before, on every edition but the first',
    },
  ];
}
