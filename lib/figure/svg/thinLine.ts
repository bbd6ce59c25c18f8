/** A point of a drawing, px. */
export type Dot = readonly [number, number];

/**
 * Leaves out of a line what cannot be seen: no dropped point lies farther from the drawn line than
 * `tolerancePx` (the rule of Ramer, Douglas and Peucker). Ends and peaks stay.
 *
 * @example thinLine([[0, 0], [1, 0.05], [2, 0], [3, 9]], 0.1) // [[0, 0], [2, 0], [3, 9]]
 */
export function thinLine(points: readonly Dot[], tolerancePx: number): Dot[] {
  const kept = new Set([0, points.length - 1]);
  const waiting: [number, number][] = [[0, points.length - 1]];
  for (let span = waiting.pop(); span !== undefined; span = waiting.pop()) {
    const [from, to] = span;
    let farthest = from;
    let off = tolerancePx;
    for (let i = from + 1; i < to; i++) {
      const distance = distanceToChord(points[i]!, points[from]!, points[to]!);
      if (distance > off) [farthest, off] = [i, distance];
    }
    if (farthest === from) continue;
    kept.add(farthest);
    waiting.push([from, farthest], [farthest, to]);
  }
  return points.filter((_, i) => kept.has(i));
}

/** Distance from a point to the stretch between two others. */
function distanceToChord([x, y]: Dot, [x0, y0]: Dot, [x1, y1]: Dot): number {
  const length2 = (x1 - x0) ** 2 + (y1 - y0) ** 2;
  const along = length2 === 0 ? 0 : ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / length2;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(x - x0 - t * (x1 - x0), y - y0 - t * (y1 - y0));
}
