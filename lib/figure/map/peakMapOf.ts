import type { PlateResult } from '../../heatflow';
import type { PeakMap } from './heatmapFigure';

/**
 * The map of highest temperatures of a run of the plate solver, as `heatmapFigure` draws it. How hot the pool became
 * is no answer of a plan view: what is hotter than `highestC` is drawn as that, best the liquidus.
 */
export function peakMapOf(
  { grid, peakC }: PlateResult,
  highestC: number = Number.POSITIVE_INFINITY,
): PeakMap {
  const { columns, rows, cellMm, originMm, inPart } = grid;
  const middle = (origin: number, k: number): number => origin + (k + 0.5) * cellMm;
  return {
    alongMm: Array.from({ length: columns }, (_, k) => middle(originMm[0], k)),
    acrossMm: Array.from({ length: rows }, (_, k) => middle(originMm[1], k)),
    peakC: Array.from({ length: rows }, (_, row) =>
      Array.from({ length: columns }, (_, column) => {
        const cell = row * columns + column;
        return inPart[cell] ? Math.min(highestC, peakC[cell]!) : null;
      }),
    ),
  };
}
