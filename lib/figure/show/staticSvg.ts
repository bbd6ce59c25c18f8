import { escapeXml, TemperbookError } from '../../quantity';
import type { Figure, Layout } from '../figure';
import { FONT_FAMILY, INK, TEXT_PX } from '../parts/style';
import { drawAxes, drawGrid } from '../svg/drawAxes';
import { drawColourBars } from '../svg/drawField';
import { drawLegend, legendHeight } from '../svg/drawLegend';
import { drawAnnotations, drawShapes } from '../svg/drawNotes';
import { drawTraces } from '../svg/drawTraces';
import { element } from '../svg/markup';
import { plotArea } from '../svg/plotArea';
import { figureName } from './figureName';
import { widthInProportion } from './widthInProportion';

/** How a figure is drawn for print. */
export interface StaticSvgOptions {
  /** Width of the picture, px; the text keeps its size whatever the width. */
  readonly widthPx?: number;
  /** Height, px; the figure's own unless given. */
  readonly heightPx?: number;
  /** Leave the title to the page around it. */
  readonly hideTitle?: boolean;
  /** Told apart from other pictures on the same page. */
  readonly id?: string;
}

/**
 * Draws a figure of this room as one self-contained SVG, without a browser: for print, for readers with
 * scripts off, for a README. It knows what the figures of the kit use of plotly's vocabulary (see
 * `Trace`, `Layout`) and draws the same picture. Throws `TemperbookError` when the size leaves no room.
 */
export function staticSvg(figure: Figure, options: StaticSvgOptions = {}): string {
  const { widthPx = 760, hideTitle = false, id = 'figure' } = options;
  if (!/^[\w-]+$/.test(id))
    throw new TemperbookError('The id of a picture must be a plain word', { found: JSON.stringify(id) });
  const { layout, data } = figure;
  const title = figureName(figure);
  const margin = layout.margin ?? { l: 60, r: 20, t: 50, b: 50 };
  const legendPx = layout.showlegend ? legendHeight(data, 8, widthPx) : 0;
  const bottom = layout.showlegend ? 46 + legendPx + 14 : margin.b;
  const saved = hideTitle && title ? 26 : 0;
  const plotPx = Math.min(
    (layout.height ?? 420) - margin.t - margin.b,
    heightInProportion(layout, widthPx - margin.l - margin.r),
  );
  const heightPx = options.heightPx ?? margin.t - saved + plotPx + bottom;
  const t = margin.t - saved;
  // A plan that is narrower than the picture stands at its left, its colour bar beside it.
  const r = Math.max(margin.r, widthPx - margin.l - widthInProportion(layout, heightPx - t - bottom));
  const placed: Figure = { data, layout: { ...layout, margin: { ...margin, r, t, b: bottom } } };
  const area = plotArea(placed, widthPx, heightPx);
  const { box } = area;
  const clip = `${id}-clip`;
  const below = (layout.shapes ?? []).filter((shape) => shape.layer !== 'above');
  const above = (layout.shapes ?? []).filter((shape) => shape.layer === 'above');
  const clipBox = {
    x: box.left,
    y: box.top - 6,
    width: box.right - box.left,
    height: box.bottom - box.top + 12,
  };
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${widthPx} ${heightPx}`,
      width: String(widthPx),
      height: String(heightPx),
      role: 'img',
      'aria-label': title || 'figure',
      'font-family': FONT_FAMILY,
      'font-size': TEXT_PX,
      fill: INK,
    },
    [
      title ? element('title', {}, escapeXml(title)) : '',
      element('rect', { width: widthPx, height: heightPx, fill: '#ffffff' }),
      element('clipPath', { id: clip }, element('rect', clipBox)),
      title && !hideTitle
        ? element('text', { x: 8, y: 22, 'font-size': 15, 'font-weight': '600' }, escapeXml(title))
        : '',
      drawGrid(area),
      element('g', { 'clip-path': `url(#${clip})` }, drawShapes(below, area) || ' '),
      element('g', { 'clip-path': `url(#${clip})` }, drawTraces(data, area) || ' '),
      drawShapes(above, area),
      drawColourBars(data, area),
      drawAxes(area),
      drawAnnotations(layout.annotations ?? [], area),
      layout.showlegend ? drawLegend(data, 8, widthPx, heightPx) : '',
    ].join(''),
  );
}

/** Height at which both axes have one scale, px, where the figure asks for it (a plan view does). */
function heightInProportion({ xaxis, yaxis }: Layout, plotWidthPx: number): number {
  if (yaxis?.scaleanchor !== 'x' || !xaxis?.range || !yaxis.range) return Number.POSITIVE_INFINITY;
  return (plotWidthPx * (yaxis.range[1] - yaxis.range[0])) / (xaxis.range[1] - xaxis.range[0]);
}
