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

/** A stretch that something else takes, from `from` to `to`. */
export interface Taken {
  readonly from: number;
  readonly to: number;
}

/**
 * `spreadLabels` that also keeps clear of stretches already taken, such as the name on a line: each label goes to the
 * free stretch nearest to its wish. Where a free stretch holds fewer labels than want to go there, they pass its end.
 *
 * @example spreadLabelsBeside([10, 30], 10, [{ from: 4, to: 14 }]) // [19, 30]
 */
export function spreadLabelsBeside(
  wishes: readonly number[],
  gap: number,
  taken: readonly Taken[],
): number[] {
  const free = freeStretches(taken, gap);
  const homes = wishes.map((wish) => minBy(free, (stretch) => Math.abs(within(wish, stretch) - wish)));
  const placed = new Array<number>(wishes.length);
  for (const stretch of free) {
    const members = wishes
      .map((_, i) => i)
      .filter((i) => homes[i] === stretch)
      .sort((a, b) => wishes[a]! - wishes[b]!);
    const spread = spreadLabels(
      members.map((i) => wishes[i]!),
      gap,
    );
    members.forEach((i, rank) => {
      placed[i] = Math.max(spread[rank]!, stretch.from + rank * gap);
    });
    members.reverse().forEach((i, rank) => {
      placed[i] = Math.min(placed[i]!, stretch.to - rank * gap);
    });
  }
  return placed;
}

const within = (value: number, { from, to }: Taken): number => Math.min(to, Math.max(from, value));

const minBy = (of: readonly Taken[], cost: (one: Taken) => number): Taken =>
  of.reduce((best, one) => (cost(one) < cost(best) ? one : best));

/** Where the centre of a label may lie: half a gap from what is taken. */
function freeStretches(taken: readonly Taken[], gap: number): Taken[] {
  const free: Taken[] = [];
  let from = Number.NEGATIVE_INFINITY;
  for (const stretch of [...taken].sort((a, b) => a.from - b.from)) {
    const to = stretch.from - gap / 2;
    if (to >= from) free.push({ from, to });
    from = Math.max(from, stretch.to + gap / 2);
  }
  return [...free, { from, to: Number.POSITIVE_INFINITY }];
}
