import { type ScaleLinear, type ScaleLogarithmic, scaleLinear, scaleLog } from 'd3-scale';
import { TemperbookError } from '../../quantity';
import type { Axis, AxisId, Figure, Trace } from '../figure';

/** Value of an axis to px in the picture. */
export type Scale = ScaleLinear<number, number> | ScaleLogarithmic<number, number>;

/** A rectangle of the drawing, px. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** One axis, ready to place values. */
export interface PlacedAxis {
  readonly id: AxisId;
  readonly axis: Axis;
  readonly scale: Scale;
  /** Its stripe of the picture, px. */
  readonly box: Box;
}

/** Where everything of a figure goes. */
export interface PlotArea {
  readonly box: Box;
  readonly axes: Readonly<Partial<Record<AxisId, PlacedAxis>>>;
}

const AXES: readonly (readonly [AxisId, 'xaxis' | 'yaxis' | 'yaxis2' | 'yaxis3'])[] = [
  ['x', 'xaxis'],
  ['y', 'yaxis'],
  ['y2', 'yaxis2'],
  ['y3', 'yaxis3'],
];

/** Places the axes of a figure in a picture of the given size. */
export function plotArea({ data, layout }: Figure, widthPx: number, heightPx: number): PlotArea {
  const margin = layout.margin ?? { l: 60, r: 20, t: 50, b: 50 };
  const box = { left: margin.l, right: widthPx - margin.r, top: margin.t, bottom: heightPx - margin.b };
  if (box.right - box.left < 40 || box.bottom - box.top < 40)
    throw new TemperbookError('The picture is too small for its labels', {
      found: `${widthPx} by ${heightPx} px`,
      expected: `more than ${margin.l + margin.r + 40} by ${margin.t + margin.b + 40} px`,
    });
  const axes: Partial<Record<AxisId, PlacedAxis>> = {};
  for (const [id, key] of AXES) {
    const axis = layout[key];
    if (!axis) continue;
    const vertical = id !== 'x';
    const [from, to] = axis.domain ?? [0, 1];
    const height = box.bottom - box.top;
    const width = box.right - box.left;
    const stripe = vertical
      ? { ...box, top: box.bottom - to * height, bottom: box.bottom - from * height }
      : { ...box, left: box.left + from * width, right: box.left + to * width };
    const range = vertical ? [stripe.bottom, stripe.top] : [stripe.left, stripe.right];
    axes[id] = { id, axis, box: stripe, scale: scaleOf(axis, id, data, range) };
  }
  return { box, axes };
}

function scaleOf(axis: Axis, id: AxisId, data: readonly Trace[], range: readonly number[]): Scale {
  const log = axis.type === 'log';
  const given = axis.range?.map((value) => (log ? 10 ** value : value));
  const domain = given ?? extent(data, id);
  return (log ? scaleLog() : scaleLinear()).domain(domain).range(range);
}

/** Smallest and largest value the traces hold on an axis; a unit span around a single value. */
function extent(data: readonly Trace[], id: AxisId): [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const trace of data) {
    const values = id === 'x' ? trace.x : (trace.yaxis ?? 'y') === id ? trace.y : undefined;
    for (const value of values ?? []) {
      if (value === null) continue;
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
  }
  if (low > high) return [0, 1];
  return low === high ? [low - 0.5, high + 0.5] : [low, high];
}
