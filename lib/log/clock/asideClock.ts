import { type ColumnSample, median } from '../columns/columnSample';
import type { Reading } from '../reading';
import type { WayToRead } from '../thermalLog';
import { isTwoParts } from './clockFormat';
import { epochOf } from './epochOf';
import { packedFormat } from './packedTime';
import { parseStamp, parseTime, US_PER_S } from './stamp';

/** Why another clock is left aside; it may be the one that is meant when the two disagree. */
export function asideClock(other: ColumnSample, used: ColumnSample | undefined, reading: Reading): string {
  const { options, notes } = reading;
  if (!used) return `it is a clock, and you gave the interval of ${options.intervalS} s instead`;
  const ratio = spanS(other) / spanS(used);
  const isApart = Number.isFinite(ratio) && ratio > 0 && Math.abs(ratio - 1) > 0.02;
  const by = ({ column }: ColumnSample): WayToRead => ({
    words: `column "${column.name}"`,
    options: { ...options, clock: { ...options.clock, column: column.name } },
  });
  const because = `the clocks "${used.column.name}" and "${other.column.name}" disagree, the second runs at ${Number(ratio.toPrecision(3))} of the first`;
  // Without a unit the other may count anything.
  const isOpen = other.kind !== 'number' || other.column.unit !== undefined;
  if (isApart && isOpen && options.clock?.column === undefined)
    reading.open.push({
      ...{ of: 'clock', option: 'clock.column', taken: by(used), other: [by(other)] },
      because: `T${because.slice(1)}.`,
    });
  else if (isApart) notes.push(`Warning: ${because}; "${used.column.name}" is used.`);
  return `it is another clock; "${used.column.name}" is used${isApart ? ', with which it disagrees' : ''}`;
}

const PER_UNIT: Readonly<Record<string, number>> = { ms: 1e-3, min: 60, h: 3600, d: 86_400 };

/** Time a clock column passes in the first sampled rows, s; NaN when it cannot be said. */
function spanS({ column, kind, numbers, texts }: ColumnSample): number {
  const last = Math.min(texts.length - 1, 100);
  const isDigits = kind === 'number' && !column.unit && (epochOf(median(numbers)) || packedFormat(numbers));
  if (kind === 'date' || isDigits || isTwoParts(texts)) return Number.NaN;
  const at = (i: number): number => {
    if (kind === 'number') return numbers[i]! * (PER_UNIT[column.unit?.symbol ?? ''] ?? 1);
    const time = kind === 'time' ? parseTime(texts[i]!) : parseStamp(texts[i]!, 'day first');
    return time ? time.us / US_PER_S : Number.NaN;
  };
  return at(last) - at(0);
}
