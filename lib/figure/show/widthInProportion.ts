import type { Layout } from '../figure';

/** Width at which both axes have one scale, px, where the figure asks for it (a plan view does): no wider is it drawn. */
export function widthInProportion({ xaxis, yaxis }: Layout, plotHeightPx: number): number {
  if (yaxis?.scaleanchor !== 'x' || !xaxis?.range || !yaxis.range) return Number.POSITIVE_INFINITY;
  return (plotHeightPx * (xaxis.range[1] - xaxis.range[0])) / (yaxis.range[1] - yaxis.range[0]);
}
