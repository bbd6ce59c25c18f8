import type { Axis } from '../figure';
import { baseAxis, TEXT_PX } from '../parts/style';

/** Axes of a plan seen from above, in its own proportions: a millimetre is as long along as across. */
export function planAxes(
  along: { readonly range: readonly [number, number]; readonly title: string },
  acrossRange: readonly [number, number],
): { readonly xaxis: Axis; readonly yaxis: Axis } {
  const axis = { ...baseAxis(), showgrid: false, constrain: 'domain' } as const;
  return {
    xaxis: {
      ...axis,
      range: along.range,
      title: { text: along.title, standoff: 8, font: { size: TEXT_PX } },
      anchor: 'y',
    },
    yaxis: { ...axis, range: acrossRange, scaleanchor: 'x' },
  };
}
