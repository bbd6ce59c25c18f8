import { evidenceTable } from '../evidence';
import { ageingErrorOf, predictRow, readyRow, rowResidual } from './fit/fitRows';
import { isFitted } from './fit/metalPosterior';
import { SCORE_COLUMNS } from './memberDraw';
import { memberDraws } from './memberTable';

/** Places at which the clock of a lot is tried, in standard deviations, and their weights: Gauss and Hermite, five points. */
const CLOCKS = [
  [0, 8 / 15],
  [1.355626, 0.2220759],
  [-1.355626, 0.2220759],
  [2.85697, 0.01125741],
  [-2.85697, 0.01125741],
] as const;

/** The fit knows no part, only lots. */
const OF_NO_PART = Object.fromEntries(SCORE_COLUMNS.map((column) => [column, 0]));

/**
 * Weights of the first members as if the rows of a lot had not been fitted: one over the likelihood of the lot's rows,
 * the clock of the lot integrated out; all alike where no row of it was. No member may weigh more than √n times the mean
 * (truncated importance sampling: E. Ionides, J. Comput. Graph. Stat. 17 (2008) 295). The handbook's composite is too
 * much of the evidence to be left out so.
 */
export function lotLeftOut(lot: string, count: number): Float64Array {
  const middle = { ...memberDraws(1)[0]!, ...OF_NO_PART };
  const rows = evidenceTable()
    .filter((row) => row.lot === lot && isFitted(row))
    .map(readyRow)
    .map((ready) => ({ ready, more: ready.row.set === 'ageing' ? ageingErrorOf(ready, middle) : 0 }));
  const weights = Float64Array.from(memberDraws(count), (member) => {
    const draw = { ...member, ...OF_NO_PART };
    let likelihood = 0;
    for (const [score, share] of CLOCKS) {
      let squares = 0;
      for (const { ready, more } of rows)
        squares += rowResidual(ready, predictRow(draw, ready, score * draw.scatter), more) ** 2;
      likelihood += share * Math.exp(-squares / 2);
    }
    return 1 / likelihood;
  });
  const most = (Math.sqrt(count) * weights.reduce((sum, weight) => sum + weight, 0)) / count;
  return weights.map((weight) => Math.min(weight, most));
}
