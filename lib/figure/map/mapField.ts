import { max } from 'simple-statistics';
import type { Trace } from '../figure';

/** One row for each temperature, one value for each time; `null` where nothing is known. */
export type MapGrid = readonly (readonly (number | null)[])[];

/** Rust where strength is gone, pale where at least 90 % is kept: dark always means loss. */
const KEPT_COLOURS = [
  [0, '#8a3a1a'],
  [0.25, '#a9552e'],
  [0.5, '#cc8556'],
  [0.75, '#e6b98b'],
  [0.9, '#f2d9b4'],
  [1, '#fbf5e8'],
] as const;
const LOSS = { start: 0.1, end: 0.9, size: 0.1 } as const;
/** Strength gained on the way to the peak; below 105 % it is not worth a line. */
const GAIN = { start: 1.05, end: 1.85, size: 0.2 } as const;
const LEVEL_LINE = '#4a2a1c';

/** Every level that a line is drawn for: of loss and, where there is more than one line of it, of gain. */
export function levelsDrawn(kept: MapGrid): number[] {
  const most = max(kept.flat().map((value) => value ?? 0));
  const levels = ({ start, end, size }: typeof LOSS | typeof GAIN) =>
    Array.from({ length: Math.round((end - start) / size) + 1 }, (_, k) => start + k * size);
  return [...levels(LOSS), ...(most > GAIN.start + GAIN.size ? levels(GAIN) : [])];
}

/** The field of strength kept, filled by its levels of loss. */
export function lossField(kept: MapGrid, timeS: readonly number[], tempC: readonly number[]): Trace {
  return {
    ...levelLines(kept, timeS, tempC),
    colorscale: KEPT_COLOURS,
    contours: {
      ...LOSS,
      coloring: 'fill',
    },
    hovertemplate: '%{y:.0f} °C for %{x:.3~s}s: %{z:.0%} kept<extra></extra>',
  };
}

/** Lines where the strength has risen, and their name in the legend; none for a temper that only softens. */
export function gainLines(kept: MapGrid, timeS: readonly number[], tempC: readonly number[]): Trace[] {
  const most = max(kept.flat().map((value) => value ?? 0));
  if (most <= GAIN.start) return [];
  const line = { color: LEVEL_LINE, width: 1, dash: 'dot' } as const;
  return [
    {
      ...levelLines(kept, timeS, tempC),
      contours: { ...GAIN, coloring: 'none' },
      line,
      hoverinfo: 'skip',
    },
    {
      type: 'scatter',
      mode: 'lines',
      name: 'between these it is stronger, less ductile',
      x: [timeS[0]!, null],
      y: [tempC[0]!, null],
      yaxis: 'y',
      line,
      hoverinfo: 'skip',
      showlegend: true,
    },
  ];
}

const levelLines = (kept: MapGrid, timeS: readonly number[], tempC: readonly number[]): Trace => ({
  type: 'contour',
  x: timeS,
  y: tempC,
  z: kept.map((row) => row.map((value) => (value === null ? null : Number(value.toFixed(4))))),
  showscale: false,
  showlegend: false,
  line: { color: LEVEL_LINE, width: 0.7 },
});
