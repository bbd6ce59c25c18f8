import type { LineStyle } from '../figure';
import { INK } from '../parts/style';

/** Stroke attributes of a line style. */
export function stroke(line: LineStyle, usualWidth: number): Record<string, string | number | undefined> {
  const width = line.width ?? usualWidth;
  const dot = Math.max(3, width);
  const dashes = {
    solid: undefined,
    dash: `${3 * dot},${2 * dot}`,
    dot: `${dot}`,
    dashdot: `${3 * dot},${dot},${dot},${dot}`,
  };
  return {
    stroke: line.color ?? INK,
    'stroke-width': width,
    'stroke-dasharray': dashes[line.dash ?? 'solid'],
  };
}
