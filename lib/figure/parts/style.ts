import type { Annotation, Axis, Layout, LineStyle, MarkerSymbol, Shape } from '../figure';
import type { NamingMode } from './naming';

/** Text and rules. One ink, two greys: a figure's colour is kept for its channels. */
export const INK = '#1d2127';
/** Second ink: names of axes and marks. */
export const QUIET_INK = '#5a616b';
/** Grid lines. */
export const RULE = '#e4e6ea';
/** Behind a text that lies on lines. */
export const VEIL = 'rgba(255,255,255,0.82)';
/** The reader's own system font. */
export const FONT_FAMILY =
  'system-ui, -apple-system, "Segoe UI", Roboto, "Liberation Sans", "Helvetica Neue", Arial, sans-serif';
/** Size of every text but the title. */
export const TEXT_PX = 12;

/**
 * Line colours, all at least 4.5 : 1 against white, told apart by hue and lightness under the common colour
 * deficiencies (built on the Okabe–Ito order, darkened for thin lines).
 */
const COLOURS = ['#1d5fa6', '#b8500f', '#0d7a63', '#8d3f8f', '#82680a', '#39424e'] as const;
const DASHES = ['solid', 'dash', 'dot'] as const;
const SYMBOLS: readonly MarkerSymbol[] = ['circle', 'square', 'diamond', 'triangle-up'];

/**
 * The look of the n-th line. Colour is the first cue; the second is the marker at its peak where lines are
 * named directly, and the dash in a legend or where lines cross.
 */
export function lineLook(
  index: number,
  mode: NamingMode = 'direct',
): {
  readonly color: string;
  readonly dash: NonNullable<LineStyle['dash']>;
  readonly symbol: MarkerSymbol;
} {
  const round = Math.floor(index / COLOURS.length);
  return {
    color: COLOURS[index % COLOURS.length]!,
    dash: DASHES[(mode === 'legend' ? index + round : round) % DASHES.length]!,
    symbol: SYMBOLS[index % SYMBOLS.length]!,
  };
}

/** `#rrggbb` with an opacity, as CSS wants it. */
export function withAlpha(hex: string, alpha: number): string {
  const part = (at: number) => Number.parseInt(hex.slice(at, at + 2), 16);
  return `rgba(${part(1)},${part(3)},${part(5)},${alpha})`;
}

/** Any text as plotly markup that shows exactly that text: names come from files and may hold anything. */
export function plotText(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
}

/**
 * Text broken into lines of no more letters than given, for `plotText` with `<br>` between: a name that must fit a phone.
 *
 * @example wrapped('yield of the soft zone: 3.18', 20) // ["yield of the soft", "zone: 3.18"]
 */
export function wrapped(text: string, letters: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines[lines.length - 1];
    if (last !== undefined && last.length + 1 + word.length <= letters)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** What every figure shares: white ground, system font, no border, calm hover. */
export function baseLayout(title: string, height: number): Layout {
  return {
    title: {
      text: plotText(title),
      x: 0,
      xref: 'container',
      y: 1,
      yref: 'container',
      yanchor: 'top',
      pad: { l: 8, t: 12 },
      font: { size: 15, color: INK, weight: 600 },
    },
    height,
    autosize: true,
    font: { family: FONT_FAMILY, size: TEXT_PX, color: INK },
    paper_bgcolor: '#ffffff',
    plot_bgcolor: '#ffffff',
    hovermode: 'closest',
    hoverlabel: { bgcolor: '#ffffff', bordercolor: QUIET_INK, font: { color: INK } },
    dragmode: 'zoom',
    // Plotly offers to upload a chart with its data: not from here. Nor what a trace has no use for.
    modebar: { remove: ['sendChartToCloud', 'select2d', 'lasso2d', 'autoScale2d'] },
    showlegend: false,
  };
}

/** What every axis shares: thin grid, no zero line, tick labels upright and a little off the plot. */
export function baseAxis(): Axis {
  return {
    showgrid: true,
    gridcolor: RULE,
    zeroline: false,
    ticks: 'outside',
    ticklen: 5,
    tickcolor: 'rgba(0,0,0,0)',
    automargin: false,
    tickangle: 0,
  };
}

/** A legend under the figure, of entries that only name: a click on one would take its data away. */
export const LEGEND_BELOW: NonNullable<Layout['legend']> = {
  orientation: 'h',
  x: 0,
  y: 0,
  xref: 'container',
  yref: 'container',
  yanchor: 'bottom',
  itemclick: false,
  itemdoubleclick: false,
};

/** Name of a vertical axis, set upright above its numbers instead of turned beside them. */
export function axisHeading(
  text: string,
  yref: 'y domain' | 'y3 domain',
  side: 'left' | 'right' = 'left',
): Annotation {
  return {
    text: plotText(text),
    x: side === 'left' ? 0 : 1,
    y: 1,
    xref: 'paper',
    yref,
    xanchor: 'left',
    yanchor: 'bottom',
    xshift: side === 'left' ? -38 : 6,
    yshift: 8,
    showarrow: false,
    font: { size: TEXT_PX, color: QUIET_INK },
  };
}

/** Where the name of a level stands: at which end, and on which side of its line. */
export interface LevelPlace {
  readonly end: 'left' | 'right';
  readonly side: 'above' | 'below';
}

/** A level drawn right across a panel with its name on the line. */
export function levelLine(
  y: number,
  text: string,
  yref: 'y' | 'y3',
  place: LevelPlace,
): { readonly shape: Shape; readonly label: Annotation } {
  const left = place.end === 'left';
  return {
    shape: {
      type: 'line',
      xref: 'paper',
      yref,
      x0: 0,
      x1: 1,
      y0: y,
      y1: y,
      line: { color: INK, width: 1, dash: 'dash' },
      layer: 'below',
    },
    label: {
      text: text.split('\n').map(plotText).join('<br>'),
      x: left ? 0 : 1,
      y,
      xref: 'paper',
      yref,
      xanchor: left ? 'left' : 'right',
      yanchor: place.side === 'above' ? 'bottom' : 'top',
      xshift: left ? 4 : -4,
      showarrow: false,
      bgcolor: VEIL,
      font: { size: TEXT_PX, color: INK },
    },
  };
}
