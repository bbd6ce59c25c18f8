import { contours } from 'd3-contour';
import { scaleLinear } from 'd3-scale';
import { extent } from 'simple-statistics';
import { escapeXml } from '../../quantity';
import type { Trace } from '../figure';
import { QUIET_INK, TEXT_PX } from '../parts/style';
import { element, plainLines, px } from './markup';
import type { PlotArea, Scale } from './plotArea';
import { stroke } from './stroke';

/** Steps in which a continuous field is painted. */
const SHADES = 28;

/** Covers the hairline that the field leaves along the edge of the plot. */
const BLANK_EDGE = { color: '#ffffff', width: 1.5 };

type Ring = readonly (readonly [number, number])[];

/** A field over the plane: shaded continuously (heatmap) or in the steps of its contour levels. */
export function drawField(trace: Trace, x: Scale, y: Scale): string {
  const rows = trace.z ?? [];
  const columns = rows[0]?.length ?? 0;
  if (rows.length < 2 || columns < 2) return '';
  const grid = contours().size([columns, rows.length]);
  const known = rows.map((row) => row.map((value) => (value === null ? 0 : 1)));
  const values = nearestKnown(rows).flat();
  const toPx = placer(trace, x, y, columns, rows.length);
  const levels = levelsOf(trace, values);
  const paint = painter(trace, levels);
  const parts: string[] = [];
  if (trace.type === 'heatmap' || trace.contours?.coloring === 'fill') {
    const whole = ringsOf(grid.contour(known.flat(), -1).coordinates, toPx);
    parts.push(element('path', { d: outline(whole), fill: paint(-1), 'fill-rule': 'evenodd' }));
    levels.forEach((level, k) => {
      const rings = ringsOf(grid.contour(values, level).coordinates, toPx);
      if (rings.length > 0)
        parts.push(
          element('path', {
            d: outline(rings),
            fill: paint(k),
            'fill-rule': 'evenodd',
            // Neighbouring shades overlap by a hair, or the ground shines through.
            ...(trace.type === 'heatmap' ? { stroke: paint(k), 'stroke-width': 0.6 } : {}),
          }),
        );
    });
    const nothing = known.map((row) => row.map((value) => 1 - value));
    const blank = ringsOf(grid.contour(nothing.flat(), 0.5).coordinates, toPx);
    if (blank.length > 0)
      parts.push(
        element('path', {
          d: outline(blank),
          fill: '#ffffff',
          'fill-rule': 'evenodd',
          ...stroke(BLANK_EDGE, 1),
        }),
      );
  }
  if (trace.type === 'contour') {
    const labels: string[] = [];
    levels.forEach((level, rank) => {
      const lines = grid
        .contour(values, level)
        .coordinates.flatMap((polygon) => polygon.flatMap((ring) => trueRuns(ring, trace.z ?? [])))
        .map((run) => run.map(toPx));
      const d = lines.map((run) => `M${run.map(([a, b]) => `${px(a)},${px(b)}`).join('L')}`).join('');
      if (d === '') return;
      parts.push(element('path', { d, fill: 'none', ...stroke(trace.line ?? {}, 0.8) }));
      if (trace.contours?.showlabels) labels.push(levelLabel(lines, levelText(trace, level), rank));
    });
    parts.push(...labels);
  }
  return parts.join('');
}

/**
 * The field with every missing value replaced by the nearest known one of its column, or of its row where the
 * column has none: so that levels do not crowd along the edge of what is known.
 */
function nearestKnown(rows: NonNullable<Trace['z']>): number[][] {
  const filled = filledAlong(transposed(filledAlong(transposed(rows))));
  return filled.map((row) => row.map((value) => value ?? 0));
}

function filledAlong(lines: NonNullable<Trace['z']>): (number | null)[][] {
  return lines.map((line) =>
    line.map((value, i) => {
      for (let step = 0; value === null && step < line.length; step++) {
        const near = line[i - step] ?? line[i + step];
        if (near !== null && near !== undefined) return near;
      }
      return value;
    }),
  );
}

const transposed = (rows: NonNullable<Trace['z']>): (number | null)[][] =>
  rows[0]!.map((_, j) => rows.map((row) => row[j]!));

const outline = (rings: readonly Ring[]): string =>
  rings.map((ring) => `M${ring.map(([a, b]) => `${px(a)},${px(b)}`).join('L')}Z`).join('');

function levelsOf(trace: Trace, values: number[]): number[] {
  if (trace.contours && trace.type === 'contour') {
    const { start, end, size } = trace.contours;
    const count = Math.floor((end - start) / size + 1e-9) + 1;
    return Array.from({ length: count }, (_, k) => Number((start + k * size).toPrecision(10)));
  }
  const [lowest, highest] = extent(values);
  const low = trace.zmin ?? lowest;
  const high = trace.zmax ?? highest;
  return Array.from({ length: SHADES }, (_, k) => low + ((k + 0.5) * (high - low)) / SHADES);
}

/** Colour of the step above the k-th level (−1: below all), spread over the scale as plotly spreads it. */
function painter(trace: Trace, levels: readonly number[]): (k: number) => string {
  const stops = trace.colorscale ?? [
    [0, '#f7f3ea'],
    [1, '#7a2e12'],
  ];
  const colour = scaleLinear<string>()
    .domain(stops.map(([at]) => at))
    .range(stops.map(([, value]) => value))
    .clamp(true);
  return (k) => colour((k + 1) / levels.length);
}

/** From grid steps (values sit at half steps) to px; the half step of overhang is pulled in to the edge. */
function placer(
  trace: Trace,
  x: Scale,
  y: Scale,
  columns: number,
  rows: number,
): (at: readonly number[]) => readonly [number, number] {
  const along = (scale: Scale, values: Trace['x'], count: number) => {
    const places = Array.from({ length: count }, (_, i) => scale(values?.[i] ?? i));
    return (step: number) => {
      const clamped = Math.min(count - 1, Math.max(0, step - 0.5));
      const i = Math.min(count - 2, Math.floor(clamped));
      return places[i]! + (clamped - i) * (places[i + 1]! - places[i]!);
    };
  };
  const toX = along(x, trace.x, columns);
  const toY = along(y, trace.y, rows);
  return (at) => [toX(at[0]!), toY(at[1]!)];
}

function ringsOf(
  polygons: number[][][][],
  toPx: (at: readonly number[]) => readonly [number, number],
): Ring[] {
  return polygons.flatMap((polygon) => polygon.map((ring) => ring.map(toPx)));
}

/** The parts of a ring (in grid steps) that are a true level line, not the edge it was closed along. */
function trueRuns(ring: readonly (readonly number[])[], rows: NonNullable<Trace['z']>): number[][][] {
  const height = rows.length;
  const width = rows[0]!.length;
  const bothBeyond = (a: number, b: number, count: number) =>
    (a <= 0.5 && b <= 0.5) || (a >= count - 0.5 && b >= count - 0.5);
  const missing = ([x, y]: readonly number[]) => {
    const [i, j] = [Math.floor(x! - 0.5), Math.floor(y! - 0.5)];
    return [i, i + 1].some((c) => [j, j + 1].some((r) => rows[r]?.[c] === null));
  };
  const runs: number[][][] = [[]];
  for (let k = 0; k + 1 < ring.length; k++) {
    const [from, to] = [[...ring[k]!], [...ring[k + 1]!]];
    const closing =
      bothBeyond(from[0]!, to[0]!, width) ||
      bothBeyond(from[1]!, to[1]!, height) ||
      (missing(from) && missing(to));
    const run = runs[runs.length - 1]!;
    if (closing) runs.push([]);
    else run.push(...(run.length === 0 ? [from, to] : [to]));
  }
  return runs.filter((run) => run.length > 1);
}

/** Where along its longest run a level is named: neighbours take turns, so names do not queue up. */
const NAME_AT = [0.3, 0.2, 0.4] as const;

function levelLabel(runs: readonly Ring[], text: string, rank: number): string {
  const longest = runs.reduce((best, run) => (run.length > best.length ? run : best), runs[0]!);
  const [x, y] = longest[Math.floor(longest.length * NAME_AT[rank % NAME_AT.length]!)]!;
  return element(
    'text',
    {
      x,
      y: y + TEXT_PX * 0.35,
      'text-anchor': 'middle',
      stroke: '#ffffff',
      'stroke-width': 3,
      'stroke-opacity': 0.8,
      'paint-order': 'stroke',
      'stroke-linejoin': 'round',
    },
    escapeXml(text),
  );
}

function levelText({ contours: levels }: Trace, level: number): string {
  const percent = levels?.labelformat === '.0%';
  return percent ? `${Math.round(level * 100)} %` : String(Number(level.toPrecision(3)));
}

/** A narrow bar right of the plot for each trace that shows its scale: which colour is which value. */
export function drawColourBars(data: readonly Trace[], { box }: PlotArea): string {
  return data
    .filter(({ showscale, z }) => showscale && z)
    .map((trace) => {
      const levels = levelsOf(
        trace,
        trace.z!.flat().filter((value): value is number => value !== null),
      );
      const paint = painter(trace, levels);
      const x = box.right + 14;
      const step = (box.bottom - box.top) / levels.length;
      const scale = scaleLinear()
        .domain([trace.zmin ?? levels[0]!, trace.zmax ?? levels[levels.length - 1]!])
        .range([box.bottom, box.top]);
      return [
        ...levels.map((_, k) =>
          element('rect', {
            x,
            y: box.bottom - (k + 1) * step,
            width: 12,
            height: step + 0.5,
            fill: paint(k),
          }),
        ),
        trace.colorbar?.title
          ? element(
              'text',
              { x, y: box.top - 12, fill: QUIET_INK },
              escapeXml(plainLines(trace.colorbar.title.text).join(' ')),
            )
          : '',
        ...(trace.colorbar?.tickvals ?? scale.ticks(6)).map((value, k) =>
          element(
            'text',
            { x: x + 17, y: scale(value) + TEXT_PX * 0.35 },
            escapeXml(trace.colorbar?.ticktext?.[k] ?? String(value)),
          ),
        ),
      ].join('');
    })
    .join('');
}
