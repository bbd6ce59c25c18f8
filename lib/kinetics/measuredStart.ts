import type { AlloyCard } from '../alloy';
import { requireNumber, TemperbookError } from '../quantity';
import type { StartState } from './temperModel';
import { yieldOfVickers } from './vickers';

/** No aluminium alloy yields higher, MPa: more is a slip of the unit. */
const MOST_MPA = 700;

/** The temper a history starts from, and the yield measured on the part if there is one. */
export interface TemperStart {
  readonly temper: string;
  /** MPa. */
  readonly measuredYieldMPa?: number;
}

/**
 * A start as a temper with its measured yield, whichever way it was measured.
 * @throws TemperbookError for a start that names no temper, a yield outside 10–700 MPa, and as `yieldOfVickers`.
 */
export function measuredStart(
  from: Exclude<StartState, { readonly solutionTreated: true }>,
  card: AlloyCard,
): TemperStart {
  if (typeof from === 'string') return { temper: from };
  if (typeof from?.temper !== 'string')
    throw new TemperbookError('A history needs a temper to start from', {
      found: JSON.stringify(from),
      expected: `one of ${Object.keys(card.tempers).join(', ')}, or { solutionTreated: true }`,
    });
  const { temper } = from;
  if ('measuredHardnessHV' in from && 'measuredYieldMPa' in from)
    throw new TemperbookError('The start is measured twice', {
      found: JSON.stringify(from),
      expected: 'a yield or a hardness',
    });
  const yieldMPa =
    'measuredHardnessHV' in from ? yieldOfVickers(from.measuredHardnessHV, card) : from.measuredYieldMPa;
  const measuredYieldMPa = requireNumber(yieldMPa, 'The measured yield in MPa', { low: 10, high: MOST_MPA });
  return { temper, measuredYieldMPa };
}
