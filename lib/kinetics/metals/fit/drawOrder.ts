import type { SeededRandom } from '../../../statistics';

/**
 * An order in which the first n of many draws are spread like all of them: the draws are halved again and again at the
 * median of one coordinate after the other (a k-d tree), and taken so that each next one comes from the half least
 * visited, as in the sequence of van der Corput; which half is first is left to chance everywhere, so that no corner is
 * preferred (Owen's scrambling). Their number must be a power of 2.
 * @param coordinates of every draw, the most telling first.
 */
export function drawOrder(
  coordinates: readonly (readonly number[])[],
  random: SeededRandom,
): readonly number[] {
  const order = halve(
    coordinates.map((_, i) => i),
    0,
  );
  const bits = Math.log2(order.length);
  if (!Number.isInteger(bits)) throw new Error(`${order.length} draws are no power of 2`);
  return order.map((_, place) => order[reversed(place, bits)]!);

  function halve(draws: number[], depth: number): number[] {
    if (draws.length <= 1) return draws;
    const axis = depth % coordinates[0]!.length;
    const sorted = [...draws].sort((a, b) => coordinates[a]![axis]! - coordinates[b]![axis]! || a - b);
    const middle = sorted.length / 2;
    const halves = [halve(sorted.slice(0, middle), depth + 1), halve(sorted.slice(middle), depth + 1)];
    return (random.uniform() < 0.5 ? halves : halves.reverse()).flat();
  }
}

function reversed(place: number, bits: number): number {
  let out = 0;
  for (let b = 0; b < bits; b++) if (place & (1 << b)) out |= 1 << (bits - 1 - b);
  return out;
}
