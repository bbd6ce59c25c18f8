import { type Exposure, historyAt, placeInRange } from '../../exposure';
import { AT_THE_END, advanceMetal } from '../../kinetics';
import { effectiveNumber } from '../../statistics';
import { KEPT_FROM, ROUTINE_DRAWS, type StrengthAfter } from '../../strength';

/** How many more heats a part stands before it can no longer be cleared. */
export interface HeatsLeft {
  /** Heats one may count on; 0 where it is none, 50 where it is that or more. */
  readonly more: number;
  readonly sentence: string;
}

/** Further heats than these are not asked about. */
const MOST = 50;
/** A Monte Carlo error above the rule, so that the number holds when it is asked with more draws. */
const SURE_ERRORS = 1;

/**
 * How many more of the same heat leave every place within the allowance with a chance of 95 %: each draw goes on from where
 * the heats so far left it, its own dial and oven with it. A draw that was once outside counts as outside.
 */
export function heatsLeft(
  places: readonly Pick<StrengthAfter, 'draws' | 'weights'>[],
  heat: Exposure,
  allowanceFraction: number,
): HeatsLeft {
  const needed = 1 - allowanceFraction;
  const count = Math.min(ROUTINE_DRAWS, places[0]!.draws.states.length);
  const room = new Float64Array(heat.history.timeS.length);
  const states = places.map(({ draws }) => [...draws.states]);
  const alive = Array.from({ length: count }, (_, i) =>
    places.every(({ draws }) => draws.yieldKept[i]! >= needed),
  );
  const weights = (places[0]!.weights ?? new Float64Array(count).fill(1)).subarray(0, count);
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const error = Math.sqrt((KEPT_FROM * (1 - KEPT_FROM)) / effectiveNumber(weights));
  const mayFail = sum * (1 - KEPT_FROM - SURE_ERRORS * error);
  let more = 0;
  while (more < MOST) {
    for (let i = 0; i < count; i++) {
      if (!alive[i]) continue;
      const history = historyAt(heat, (doubt) => placeInRange(doubt, i), room);
      for (const [k, { draws }] of places.entries()) {
        const { state, yieldKept } = advanceMetal(draws.metals[i]!, states[k]![i]!, history, AT_THE_END);
        states[k]![i] = state;
        if (yieldKept[yieldKept.length - 1]! < needed) alive[i] = false;
      }
    }
    const failed = weights.reduce((total, weight, i) => (alive[i] ? total : total + weight), 0);
    if (failed > mayFail) break;
    more++;
  }
  return { more, sentence: sentenceOf(more) };
}

function sentenceOf(more: number): string {
  if (more >= MOST) return `${MOST} more such heats or more are left before it can no longer be cleared.`;
  if (more === 0) return 'Count on no further such heat: it might no longer be cleared.';
  return `Count on ${more} more such heat${more === 1 ? '' : 's'} before it can no longer be cleared.`;
}
