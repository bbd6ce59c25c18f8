/** A figure as plain data in plotly's vocabulary: JSON-serialisable, no functions, no typed arrays. */
export interface Figure {
  readonly data: readonly Trace[];
  readonly layout: Layout;
}

/** The part of plotly's trace vocabulary the kit uses; `staticSvg` draws exactly this. */
export interface Trace {
  readonly type: 'scatter' | 'contour' | 'heatmap' | 'bar';
  readonly name?: string;
  readonly x?: readonly (number | null)[];
  readonly y?: readonly (number | null)[];
  /** Rows along y, columns along x. */
  readonly z?: readonly (readonly (number | null)[])[];
  readonly xaxis?: AxisId;
  readonly yaxis?: AxisId;
  readonly mode?: 'lines' | 'markers' | 'lines+markers';
  readonly line?: LineStyle;
  readonly marker?: MarkerStyle;
  /** `tonexty` fills up to the trace before this one, `toself` closes the line into an area. */
  readonly fill?: 'tonexty' | 'toself';
  readonly fillcolor?: string;
  readonly opacity?: number;
  readonly showlegend?: boolean;
  readonly colorscale?: readonly (readonly [number, string])[];
  readonly zmin?: number;
  readonly zmax?: number;
  readonly contours?: ContourLevels;
  readonly showscale?: boolean;
  /** Numbers beside a colour scale. */
  readonly colorbar?: {
    readonly title?: Title;
    readonly tickvals?: readonly number[];
    readonly ticktext?: readonly string[];
    readonly [attribute: string]: unknown;
  };
  readonly orientation?: 'h' | 'v';
  readonly [attribute: string]: unknown;
}

/** One of the axes of a figure: `x`, `y`, or a numbered one. */
export type AxisId = 'x' | 'y' | 'y2' | 'y3';

/** Colour, width and dash of a line. */
export interface LineStyle {
  readonly color?: string;
  readonly width?: number;
  readonly dash?: 'solid' | 'dash' | 'dot' | 'dashdot';
  /** False keeps every point: plotly else drops some, which shows on thinned curves. */
  readonly simplify?: boolean;
}

/** Look of the points of a trace; size in px. */
export interface MarkerStyle {
  readonly color?: string;
  readonly size?: number;
  readonly symbol?: MarkerSymbol;
  readonly line?: LineStyle;
}

/** Symbols that `staticSvg` draws, by plotly's names. */
export type MarkerSymbol =
  | 'circle'
  | 'square'
  | 'diamond'
  | 'triangle-up'
  | 'circle-open'
  | 'square-open'
  | 'diamond-open'
  | 'triangle-up-open'
  | 'x-thin'
  | 'line-ns';

/** Contour levels from `start` to `end` in steps of `size`. */
export interface ContourLevels {
  readonly start: number;
  readonly end: number;
  readonly size: number;
  readonly coloring?: 'fill' | 'lines' | 'none';
  readonly showlabels?: boolean;
  readonly [attribute: string]: unknown;
}

/** A title is an object in plotly: its text and how it is set. */
export interface Title {
  readonly text: string;
  readonly [attribute: string]: unknown;
}

/** The part of plotly's layout vocabulary the kit uses. */
export interface Layout {
  readonly title?: Title;
  readonly height?: number;
  readonly margin?: { readonly l: number; readonly r: number; readonly t: number; readonly b: number };
  readonly xaxis?: Axis;
  readonly yaxis?: Axis;
  readonly yaxis2?: Axis;
  readonly yaxis3?: Axis;
  readonly annotations?: readonly Annotation[];
  readonly shapes?: readonly Shape[];
  readonly showlegend?: boolean;
  readonly [attribute: string]: unknown;
}

/** One axis, with its range and ticks. */
export interface Axis {
  readonly type?: 'linear' | 'log';
  /** In decades for a log axis, as plotly has it. */
  readonly range?: readonly [number, number];
  readonly domain?: readonly [number, number];
  readonly title?: Title;
  readonly tickvals?: readonly number[];
  readonly ticktext?: readonly string[];
  readonly tickformat?: string;
  readonly ticksuffix?: string;
  readonly side?: 'left' | 'right' | 'top' | 'bottom';
  readonly showgrid?: boolean;
  readonly [attribute: string]: unknown;
}

/** A text in a figure. `text` is in plotly's markup: build it with `plotText`. */
export interface Annotation {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  /** An axis, `paper` (0…1 over the plot), or an axis' own span. */
  readonly xref: 'x' | 'paper';
  readonly yref: 'paper' | 'y' | 'y3' | 'y domain' | 'y3 domain';
  readonly xanchor: 'left' | 'center' | 'right';
  readonly yanchor: 'top' | 'middle' | 'bottom';
  readonly xshift?: number;
  readonly yshift?: number;
  /** With `ax` and `ay` (px, down positive) a thin leader runs from the text to the point. */
  readonly showarrow: boolean;
  readonly ax?: number;
  readonly ay?: number;
  readonly font?: { readonly size?: number; readonly color?: string; readonly weight?: number };
  readonly bgcolor?: string;
  readonly [attribute: string]: unknown;
}

/** A line or a box across the plot. */
export interface Shape {
  readonly type: 'line' | 'rect';
  readonly xref: 'x' | 'paper';
  readonly yref: 'paper' | 'y' | 'y3' | 'y domain' | 'y3 domain';
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
  readonly line?: LineStyle;
  readonly fillcolor?: string;
  readonly layer?: 'below' | 'above';
  readonly [attribute: string]: unknown;
}
