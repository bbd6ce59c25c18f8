import { type AlloyCard, findTemper } from '../../alloy';
import { isothermal, type ThermalHistory } from '../../history';
import { TemperbookError } from '../../quantity';

/** Room-temperature ageing that a T4 is taken to have had: a month at 20 °C, in common practice stable. */
const NATURAL_AGEING = { tempC: 20, timeS: 30 * 86_400 };

/**
 * What makes a temper of a card from freshly quenched metal: the card's artificial ageing, or a month at 20 °C
 * for T4.
 * @throws TemperbookError without a card, for an unknown temper, and for tempers not made from solution-treated
 * metal (F, O, T5).
 */
export function startAgeing(card: AlloyCard | undefined, temper: string): ThermalHistory {
  if (!card)
    throw new TemperbookError('A bare composition has no tempers', {
      found: `temper "${temper}"`,
      expected: '{ solutionTreated: true }',
      remedy: 'Start solution treated and advance along the ageing, or name an alloy',
    });
  const { name, entry } = findTemper(card, temper);
  if (name === 'T4') return isothermal(NATURAL_AGEING.tempC, NATURAL_AGEING.timeS);
  if (!entry.ageing || name.startsWith('T5'))
    throw new TemperbookError(
      `The ${name} of ${card.designation} is not made by ageing solution-treated metal`,
      {
        expected: 'a temper such as T4, T6 or T7',
        remedy: 'Start solution treated and advance along what the part went through',
      },
    );
  return isothermal(entry.ageing.tempC.value, entry.ageing.timeS.value);
}
