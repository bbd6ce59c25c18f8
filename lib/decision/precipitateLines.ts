import { type AlloyCard, findTemper } from '../alloy';
import type { ThermalHistory } from '../history';
import { precipitateModel, type StartState } from '../kinetics';
import { formatPercent, judged, TemperbookError } from '../quantity';
import type { ModelLine } from './verdict';

/** A start a part can have that is to keep its temper. */
export type AgedStart = Exclude<StartState, { readonly solutionTreated: true }>;

/** Further off than this, the model's temper is not the part's temper, and its change says little. */
const MOST_OFF = 0.2;

/** What the precipitate model says with each of its sets of constants, or why a set is left out. */
export function precipitateLines(history: ThermalHistory, card: AlloyCard, from: AgedStart): ModelLine[] {
  return (['published', 'calibrated'] as const).map((parameters) => {
    const model = `precipitate model, ${parameters} set`;
    const leftOut = (reason: string): ModelLine => ({ model, governs: false, reason: `Left out: ${reason}` });
    try {
      return precipitateLine(model, parameters, history, card, from, leftOut);
    } catch (error) {
      if (error instanceof TemperbookError) return leftOut(error.message);
      throw error;
    }
  });
}

function precipitateLine(
  name: string,
  parameters: 'published' | 'calibrated',
  history: ThermalHistory,
  card: AlloyCard,
  from: AgedStart,
  leftOut: (reason: string) => ModelLine,
): ModelLine {
  const temper = typeof from === 'string' ? from : from.temper;
  const model = precipitateModel(card, { parameters });
  const ownMPa = model.start(temper).start.yieldMPa;
  const cardMPa = findTemper(card, temper).entry.yieldMPa.value;
  const off = ownMPa / cardMPa - 1;
  if (Math.abs(off) > MOST_OFF)
    return leftOut(
      `its own ${card.designation}-${temper} has ${Math.round(ownMPa)} MPa where the card has ${Math.round(cardMPa)}, so it does not know how this temper got its strength.`,
    );
  const end = model.advance(model.start(from), history);
  return {
    model: name,
    yieldKeptFraction: judged(end.yieldKeptFraction[end.yieldKeptFraction.length - 1]!, [], '1', [
      'No band of its own.',
    ]),
    governs: false,
    reason: `Informs, and the band reaches to it: it follows the particles themselves. Its own start is ${formatPercent(Math.abs(off))} too ${off < 0 ? 'weak' : 'strong'}.`,
  };
}
