import type { Axis } from '../figure';
import { baseAxis, TEXT_PX } from './style';

/** The unit a time axis is drawn in. */
export interface TimeScale {
  readonly unit: 's' | 'min' | 'h' | 'd';
  /** Seconds per unit. */
  readonly secondsPerUnit: number;
}

/** Picks the unit that keeps the axis' numbers short: s below 3 min, min below 3 h, h below 4 d, d beyond. */
export function timeScale(spanS: number): TimeScale {
  if (spanS < 180) return { unit: 's', secondsPerUnit: 1 };
  if (spanS < 3 * 3600) return { unit: 'min', secondsPerUnit: 60 };
  if (spanS < 4 * 86_400) return { unit: 'h', secondsPerUnit: 3600 };
  return { unit: 'd', secondsPerUnit: 86_400 };
}

/** A shared time axis under the lowest panel, spanning the times given. */
export function timeAxis(scale: TimeScale, fromS: number, toS: number, anchor: 'y' | 'y3'): Axis {
  const from = fromS / scale.secondsPerUnit;
  const to = toS / scale.secondsPerUnit;
  const room = (to - from || 1) * 0.01;
  return {
    ...baseAxis(),
    anchor,
    range: [from - room, to + room],
    title: { text: `Time, ${scale.unit}`, standoff: 8, font: { size: TEXT_PX } },
    showgrid: false,
    showline: true,
    linecolor: '#b9bec6',
    ticks: 'outside',
    tickcolor: '#b9bec6',
    ticklen: 4,
  };
}
