import type { Annotation, Axis, Figure, Shape, Trace } from '../figure';
import { baseLayout } from './style';

/** One stripe of a figure with its own vertical axes, standing on the shared time axis. */
export interface Panel {
  readonly data: readonly Trace[];
  readonly annotations: readonly Annotation[];
  readonly shapes: readonly Shape[];
  readonly axes: { readonly yaxis?: Axis; readonly yaxis2?: Axis; readonly yaxis3?: Axis };
  /** Room its labels need right of the plot, px. */
  readonly rightPx: number;
  /** What stands in a legend under the plot; empty where every line is named directly. */
  readonly legendNames: readonly string[];
}

/** Left, top and bottom room for tick labels, title and time axis, px. */
export const MARGIN = { l: 46, t: 66, b: 46 } as const;
const LEGEND_ROW_PX = 20;
const LEGEND_SAMPLE_PX = 44;
/** Width for which the legend's rows are counted; plotly itself makes room when there is less. */
const USUAL_WIDTH_PX = 640;

/** Puts panels over one horizontal axis. `plotHeightPx` is the height of all panels with the gaps between. */
export function assemble(title: string, plotHeightPx: number, xaxis: Axis, panels: readonly Panel[]): Figure {
  const names = panels.flatMap((panel) => panel.legendNames);
  const textPx = Math.max(0, ...names.map(textWidthPx));
  const perRow = Math.max(1, Math.floor(USUAL_WIDTH_PX / (textPx + LEGEND_SAMPLE_PX)));
  const legendPx = names.length > 0 ? Math.ceil(names.length / perRow) * LEGEND_ROW_PX + 24 : 0;
  const heightPx = MARGIN.t + plotHeightPx + MARGIN.b + legendPx;
  return {
    data: panels.flatMap((panel) => panel.data),
    layout: {
      ...baseLayout(title, heightPx),
      margin: {
        ...MARGIN,
        r: Math.max(...panels.map((panel) => panel.rightPx)),
        b: MARGIN.b + legendPx,
      },
      xaxis,
      ...Object.assign({}, ...panels.map((panel) => panel.axes)),
      annotations: panels.flatMap((panel) => panel.annotations),
      shapes: panels.flatMap((panel) => panel.shapes),
      ...(names.length > 0
        ? {
            showlegend: true,
            legend: {
              orientation: 'h',
              traceorder: 'normal',
              x: 0,
              // Right under the time axis: on a wide page it takes fewer rows than were counted.
              y: legendPx / heightPx,
              yref: 'container',
              yanchor: 'top',
              entrywidth: textPx,
              entrywidthmode: 'pixels',
              itemclick: 'toggle',
              itemdoubleclick: 'toggleothers',
            },
          }
        : {}),
    },
  };
}

/** Width a text takes at the figures' size, px: near enough to reserve room for it. */
export const textWidthPx = (text: string): number => Math.ceil(text.length * 7.2);
