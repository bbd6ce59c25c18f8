import { expect, it } from 'vitest';
import { evidenceTable } from '../../../lib/kinetics';
import { HANDBOOK_LOT } from '../../../lib/kinetics/metals/fit/fitPriors';
import { predictRow, readyRow, rowStandardError } from '../../../lib/kinetics/metals/fit/fitRows';
import { lotLeftOut } from '../../../lib/kinetics/metals/lotLeftOut';
import { memberDraws } from '../../../lib/kinetics/metals/memberTable';
import { normalProbability } from '../../../lib/statistics';

const COUNT = 400;
const rows = evidenceTable().filter(
  ({ use, measured, lot }) => use === 'fit' && measured.kind === 'value' && lot !== HANDBOOK_LOT,
);
const lots = [...new Set(rows.map(({ lot }) => lot))];

/** Share of the members, weighed as if the lot had not been fitted, whose measurement would come out lower. */
function rankOf(lot: string): number {
  const weights = lotLeftOut(lot, COUNT);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const ranks = rows
    .filter((row) => row.lot === lot)
    .map(readyRow)
    .map((ready) =>
      memberDraws()
        .slice(0, COUNT)
        .reduce((sum, draw, i) => {
          const z = (ready.row.measured.value - predictRow(draw, ready, undefined)) / rowStandardError(ready);
          return sum + (weights[i]! * normalProbability(z)) / total;
        }, 0),
    );
  return ranks.reduce((sum, rank) => sum + rank, 0) / ranks.length;
}

it('ranks of left-out lots are not heaped', () => {
  const ranks = lots.map(rankOf).sort((a, b) => a - b);
  // None lies below 0.3: lots come out stronger than said rather than weaker, to the careful side (√n D is 1.24).
  // Kolmogorov and Smirnov, one rank a lot: 5 % points of √n D is 1.358 (large n; a little too wide for few).
  const distance = Math.max(
    ...ranks.map((rank, i) => Math.max(rank - i / ranks.length, (i + 1) / ranks.length - rank)),
  );
  expect(Math.sqrt(ranks.length) * distance).toBeLessThan(1.358);
});
