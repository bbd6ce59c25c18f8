import type { MarkerSymbol, Trace } from '../figure';
import { INK } from '../parts/style';
import { drawField } from './drawField';
import { element, px } from './markup';
import type { PlotArea, Scale } from './plotArea';
import { stroke } from './stroke';
import { type Dot, thinLine } from './thinLine';

/** All traces in their order. */
export function drawTraces(data: readonly Trace[], area: PlotArea): string {
  return data
    .map((trace, index) => {
      const x = area.axes.x?.scale;
      const y = area.axes[trace.yaxis ?? 'y']?.scale;
      if (!x || !y) return '';
      if (trace.type === 'contour' || trace.type === 'heatmap') return drawField(trace, x, y);
      if (trace.type === 'bar') return drawBars(trace, x, y);
      return drawScatter(trace, data[index - 1], x, y);
    })
    .join('');
}

function drawScatter(trace: Trace, before: Trace | undefined, x: Scale, y: Scale): string {
  const points = placed(trace, x, y);
  const mode = trace.mode ?? 'lines';
  const parts: string[] = [];
  if (trace.fill === 'toself' || (trace.fill === 'tonexty' && before)) {
    const floor = trace.fill === 'tonexty' && before ? placed(before, x, y) : [];
    parts.push(
      element('path', { d: `${path([...points, ...floor.reverse()])}Z`, fill: trace.fillcolor ?? 'none' }),
    );
  }
  if (mode.includes('lines') && (trace.line?.width ?? 1.5) > 0)
    parts.push(
      element('path', {
        d: path(points),
        fill: 'none',
        'stroke-linejoin': 'round',
        opacity: trace.opacity,
        ...stroke(trace.line ?? {}, 1.5),
      }),
    );
  if (mode.includes('markers')) for (const point of points) if (point) parts.push(drawMarker(trace, point));
  return parts.join('');
}

type Point = Dot | null;

function placed({ x = [], y = [] }: Trace, xScale: Scale, yScale: Scale): Point[] {
  return x.map((value, i) => {
    const other = y[i];
    return value === null || other === null || other === undefined ? null : [xScale(value), yScale(other)];
  });
}

/** No line moves by more than this when points are left out, px. */
const UNSEEN_PX = 0.15;

/** A path that lifts the pen at every missing point; what moves it by less than can be seen is left out. */
function path(points: readonly Point[]): string {
  const strokes: Dot[][] = [[]];
  for (const point of points) {
    if (point) strokes[strokes.length - 1]!.push(point);
    else strokes.push([]);
  }
  return strokes
    .filter((dots) => dots.length > 0)
    .map(
      (dots) =>
        `M${thinLine(dots, UNSEEN_PX)
          .map(([x, y]) => `${px(x)},${px(y)}`)
          .join('L')}`,
    )
    .join('');
}

/** One point of a trace; nothing below 1 px. */
export function drawMarker({ marker = {} }: Trace, [x, y]: readonly [number, number]): string {
  const size = marker.size ?? 6;
  if (size < 1) return '';
  const symbol: MarkerSymbol = marker.symbol ?? 'circle';
  const open = symbol.endsWith('-open');
  const colour = marker.color ?? INK;
  const paint = open
    ? { fill: 'none', stroke: colour, 'stroke-width': 1.4 }
    : { fill: colour, stroke: marker.line?.color ?? 'none', 'stroke-width': marker.line?.width ?? 0 };
  const r = size / 2;
  const at = (dx: number, dy: number) => `${px(x + dx * r)},${px(y + dy * r)}`;
  if (symbol === 'x-thin' || symbol === 'line-ns')
    return element('path', {
      d:
        symbol === 'x-thin'
          ? `M${at(-1, -1)}L${at(1, 1)}M${at(-1, 1)}L${at(1, -1)}`
          : `M${at(0, -1)}L${at(0, 1)}`,
      ...stroke({ color: colour, ...marker.line }, 1.5),
    });
  const shape = symbol.replace('-open', '');
  if (shape === 'circle') return element('circle', { cx: x, cy: y, r, ...paint });
  const corners =
    shape === 'square'
      ? [at(-0.9, -0.9), at(0.9, -0.9), at(0.9, 0.9), at(-0.9, 0.9)]
      : shape === 'diamond'
        ? [at(0, -1.25), at(1.25, 0), at(0, 1.25), at(-1.25, 0)]
        : [at(0, -1.15), at(1.1, 0.8), at(-1.1, 0.8)];
  return element('path', { d: `M${corners.join('L')}Z`, ...paint });
}

function drawBars(trace: Trace, x: Scale, y: Scale): string {
  const sideways = trace.orientation === 'h';
  const along = sideways ? y : x;
  const across = sideways ? x : y;
  const places = (sideways ? trace.y : trace.x) ?? [];
  const values = (sideways ? trace.x : trace.y) ?? [];
  const thickness = typeof trace.width === 'number' ? trace.width : 0.8;
  return places
    .map((place, i) => {
      const value = values[i];
      if (place === null || value === null || value === undefined) return '';
      const [a, b] = [along(place - thickness / 2), along(place + thickness / 2)];
      const [base, tip] = [across(0), across(value)];
      const [x0, x1, y0, y1] = sideways ? [base, tip, a, b] : [a, b, base, tip];
      return element('rect', {
        x: Math.min(x0, x1),
        y: Math.min(y0, y1),
        width: Math.abs(x1 - x0),
        height: Math.abs(y1 - y0),
        fill: trace.marker?.color ?? INK,
      });
    })
    .join('');
}
