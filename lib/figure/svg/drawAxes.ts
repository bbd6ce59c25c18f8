import { escapeXml } from '../../quantity';
import { RULE, TEXT_PX } from '../parts/style';
import { element, plainLines } from './markup';
import type { PlacedAxis, PlotArea, Scale } from './plotArea';

interface Tick {
  readonly at: number;
  /** One string for each line. */
  readonly lines: readonly string[];
}

/** Grid lines, to be drawn under the traces. */
export function drawGrid({ box, axes }: PlotArea): string {
  return Object.values(axes)
    .filter(({ axis }) => axis.showgrid)
    .flatMap((placed) =>
      ticksOf(placed).map(({ at }) =>
        placed.id === 'x'
          ? element('line', { x1: at, x2: at, y1: box.top, y2: box.bottom, stroke: RULE })
          : element('line', { x1: box.left, x2: box.right, y1: at, y2: at, stroke: RULE }),
      ),
    )
    .join('');
}

/** Tick labels, axis lines and the title of the horizontal axis. */
export function drawAxes(area: PlotArea): string {
  return Object.values(area.axes)
    .map((placed) => (placed.id === 'x' ? horizontal(placed, area) : vertical(placed, area)))
    .join('');
}

function horizontal(placed: PlacedAxis, { box, axes }: PlotArea): string {
  const anchor = placed.axis.anchor;
  const bottom = (anchor === 'y3' ? axes.y3 : axes.y)?.box.bottom ?? box.bottom;
  const line = String(placed.axis.linecolor ?? RULE);
  const ticks = ticksOf(placed).map(
    ({ at, lines }) =>
      element('line', { x1: at, x2: at, y1: bottom, y2: bottom + 4, stroke: line }) +
      lines
        .map((text, row) =>
          element('text', { x: at, y: bottom + 17 + 14 * row, 'text-anchor': 'middle' }, escapeXml(text)),
        )
        .join(''),
  );
  const rows = Math.max(1, ...ticksOf(placed).map(({ lines }) => lines.length));
  const title = placed.axis.title?.text;
  return (
    element('line', { x1: box.left, x2: box.right, y1: bottom, y2: bottom, stroke: line }) +
    ticks.join('') +
    (title
      ? element(
          'text',
          { x: (box.left + box.right) / 2, y: bottom + 22 + 14 * rows, 'text-anchor': 'middle' },
          escapeXml(plainLines(title).join(' ')),
        )
      : '')
  );
}

function vertical(placed: PlacedAxis, { box }: PlotArea): string {
  const right = placed.axis.side === 'right';
  const x = right ? box.right + 6 : box.left - 6;
  return ticksOf(placed)
    .map(({ at, lines }) =>
      element(
        'text',
        { x, y: at + TEXT_PX * 0.35, 'text-anchor': right ? 'start' : 'end' },
        escapeXml(lines.join(' ')),
      ),
    )
    .join('');
}

/** Ticks given by the figure, or round numbers about 45 px apart (90 px on the horizontal axis). */
function ticksOf({ id, axis, scale, box }: PlacedAxis): Tick[] {
  const suffix = axis.ticksuffix ?? '';
  const [a, b] = scale.range() as [number, number];
  const within = (at: number) => at >= Math.min(a, b) - 0.5 && at <= Math.max(a, b) + 0.5;
  if (axis.tickvals)
    return axis.tickvals
      .map((value, i) => ({
        at: scale(value),
        lines: plainLines(axis.ticktext?.[i] ?? String(value) + suffix),
      }))
      .filter(({ at }) => within(at));
  const count =
    id === 'x'
      ? Math.max(3, Math.floor((box.right - box.left) / 90))
      : Math.max(3, Math.floor((box.bottom - box.top) / 45));
  return roundTicks(scale, count).map((value) => ({ at: scale(value), lines: [tickText(value) + suffix] }));
}

const roundTicks = (scale: Scale, count: number): number[] => scale.ticks(count);

/** Plain figures with a true minus sign. */
const tickText = (value: number): string => String(Number(value.toPrecision(10))).replace('-', '−');
