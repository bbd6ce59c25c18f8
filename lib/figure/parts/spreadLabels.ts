/**
 * Moves labels apart along one direction: each ends as near to its wish as a least distance `gap` between
 * neighbours allows. Labels that would collide are gathered into a block whose centre is the mean of their
 * wishes; the answer keeps the order given. Units are the caller's (px, °C …).
 *
 * @example spreadLabels([10, 12, 50], 10) // [6, 16, 50]
 */
export function spreadLabels(wishes: readonly number[], gap: number): number[] {
  const order = wishes.map((_, index) => index).sort((a, b) => wishes[a]! - wishes[b]! || a - b);
  const blocks: { members: number[]; centre: number }[] = [];
  for (const index of order) {
    blocks.push({ members: [index], centre: wishes[index]! });
    while (blocks.length > 1 && tooClose(blocks[blocks.length - 2]!, blocks[blocks.length - 1]!)) {
      const upper = blocks.pop()!;
      const lower = blocks.pop()!;
      const members = [...lower.members, ...upper.members];
      blocks.push({ members, centre: members.reduce((sum, i) => sum + wishes[i]!, 0) / members.length });
    }
  }
  const placed = new Array<number>(wishes.length);
  for (const { members, centre } of blocks)
    members.forEach((index, rank) => {
      placed[index] = centre + (rank - (members.length - 1) / 2) * gap;
    });
  return placed;

  function tooClose(
    a: { members: readonly number[]; centre: number },
    b: { members: readonly number[]; centre: number },
  ): boolean {
    return b.centre - a.centre < ((a.members.length + b.members.length) / 2) * gap - 1e-9;
  }
}
