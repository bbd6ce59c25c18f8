import { escapeXml } from '../../quantity';
import type { Trace } from '../figure';
import { drawMarker } from './drawTraces';
import { element, plainLines } from './markup';
import { stroke } from './stroke';

const ROW_PX = 20;
const SAMPLE_PX = 24;
const LEAST_ENTRY_PX = 118;
const PX_PER_LETTER = 6.9;

/** Entries of the legend in columns along the foot of the picture, read from left to right. */
export function drawLegend(data: readonly Trace[], left: number, widthPx: number, heightPx: number): string {
  const { entries, perRow, entryPx, rows } = columns(data, left, widthPx);
  return entries
    .map(({ trace, text }, index) => {
      const x = left + (index % perRow) * entryPx;
      const y = heightPx - (rows - Math.floor(index / perRow)) * ROW_PX + ROW_PX / 2 - 3;
      const sample = trace.mode?.includes('lines')
        ? element('line', { x1: x, x2: x + SAMPLE_PX, y1: y, y2: y, ...stroke(trace.line ?? {}, 1.6) })
        : drawMarker(trace, [x + SAMPLE_PX / 2, y]);
      return sample + element('text', { x: x + SAMPLE_PX + 6, y: y + 4 }, escapeXml(text));
    })
    .join('');
}

/** Height the legend takes, px. */
export function legendHeight(data: readonly Trace[], left: number, widthPx: number): number {
  return columns(data, left, widthPx).rows * ROW_PX;
}

function columns(data: readonly Trace[], left: number, widthPx: number) {
  const entries = data
    .filter((trace) => trace.showlegend)
    .map((trace) => ({ trace, text: plainLines(trace.name ?? '').join(' ') }));
  const longest = Math.max(0, ...entries.map(({ text }) => text.length));
  const entryPx = Math.max(LEAST_ENTRY_PX, SAMPLE_PX + 20 + longest * PX_PER_LETTER);
  const perRow = Math.max(1, Math.floor((widthPx - left) / entryPx));
  return { entries, perRow, entryPx, rows: Math.ceil(entries.length / perRow) };
}
