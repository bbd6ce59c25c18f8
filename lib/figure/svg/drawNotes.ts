import { escapeXml } from '../../quantity';
import type { Annotation, Shape } from '../figure';
import { INK, TEXT_PX } from '../parts/style';
import { element, plainLines } from './markup';
import type { PlotArea } from './plotArea';
import { stroke } from './stroke';

const LINE_PX = 15;

/** Limit lines and shaded stretches. */
export function drawShapes(shapes: readonly Shape[], area: PlotArea): string {
  return shapes
    .map((shape) => {
      const x0 = placeX(shape.x0, shape.xref, area);
      const x1 = placeX(shape.x1, shape.xref, area);
      const y0 = placeY(shape.y0, shape.yref, area);
      const y1 = placeY(shape.y1, shape.yref, area);
      if (shape.type === 'line')
        return element('line', { x1: x0, x2: x1, y1: y0, y2: y1, ...stroke(shape.line ?? {}, 1) });
      const outline = (shape.line?.width ?? 0) > 0 ? stroke(shape.line!, 1) : {};
      return element('rect', {
        x: Math.min(x0, x1),
        y: Math.min(y0, y1),
        width: Math.abs(x1 - x0),
        height: Math.abs(y1 - y0),
        fill: shape.fillcolor ?? 'none',
        ...outline,
      });
    })
    .join('');
}

/** Texts of a figure, with their leaders. */
export function drawAnnotations(annotations: readonly Annotation[], area: PlotArea): string {
  return annotations
    .map((note) => {
      const headX = placeX(logged(note, area), note.xref, area) + (note.xshift ?? 0);
      const headY = placeY(note.y, note.yref, area) - (note.yshift ?? 0);
      const x = headX + (note.showarrow ? (note.ax ?? 0) : 0);
      const y = headY + (note.showarrow ? (note.ay ?? 0) : 0);
      const leader = note.showarrow
        ? element('line', {
            x1: headX,
            y1: headY,
            x2: x,
            y2: y,
            stroke: typeof note.arrowcolor === 'string' ? note.arrowcolor : INK,
            'stroke-width': 0.8,
          })
        : '';
      return leader + drawText(note, x, y);
    })
    .join('');
}

function drawText(note: Annotation, x: number, y: number): string {
  const size = note.font?.size ?? TEXT_PX;
  const lines = plainLines(note.text);
  const height = lines.length * LINE_PX;
  const top = note.yanchor === 'top' ? y : note.yanchor === 'middle' ? y - height / 2 : y - height;
  const anchor = { left: 'start', center: 'middle', right: 'end' }[note.xanchor];
  const inset = note.showarrow ? (note.xanchor === 'left' ? 3 : note.xanchor === 'right' ? -3 : 0) : 0;
  return lines
    .map((line, i) =>
      element(
        'text',
        {
          x: x + inset,
          y: top + i * LINE_PX + LINE_PX * 0.76,
          'text-anchor': anchor,
          'font-size': size,
          'font-weight': note.font?.weight === undefined ? undefined : String(note.font.weight),
          fill: note.font?.color ?? INK,
          ...(note.bgcolor
            ? {
                stroke: '#ffffff',
                'stroke-width': 3.5,
                'stroke-opacity': 0.85,
                'paint-order': 'stroke',
                'stroke-linejoin': 'round',
              }
            : {}),
        },
        escapeXml(line),
      ),
    )
    .join('');
}

/** Plotly wants the logarithm as the place of a text on a log axis. */
function logged({ x, xref }: Annotation, { axes }: PlotArea): number {
  return xref === 'x' && axes.x?.axis.type === 'log' ? 10 ** x : x;
}

function placeX(value: number, ref: Annotation['xref'], { box, axes }: PlotArea): number {
  return ref === 'paper' || !axes.x ? box.left + value * (box.right - box.left) : axes.x.scale(value);
}

function placeY(value: number, ref: Annotation['yref'], { box, axes }: PlotArea): number {
  if (ref === 'paper') return box.bottom - value * (box.bottom - box.top);
  const axis = ref.startsWith('y3') ? axes.y3 : axes.y;
  const stripe = axis?.box ?? box;
  if (ref.endsWith('domain') || !axis) return stripe.bottom - value * (stripe.bottom - stripe.top);
  return axis.scale(value);
}
