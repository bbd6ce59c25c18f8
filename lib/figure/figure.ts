/** A figure as plain data in plotly's vocabulary: JSON-serialisable, no functions, no typed arrays. */
export interface Figure {
  readonly data: readonly Trace[];
  readonly layout: Layout;
}

/** The part of plotly's trace vocabulary the kit uses. */
export interface Trace {
  readonly type: 'scatter' | 'contour' | 'heatmap' | 'bar';
  readonly [attribute: string]: unknown;
}

/** The part of plotly's layout vocabulary the kit uses. */
export interface Layout {
  readonly title?: { readonly text: string };
  readonly height?: number;
  readonly [attribute: string]: unknown;
}
