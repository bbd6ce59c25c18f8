import { type AlloyCard, findTemper } from '../alloy';
import type { ThermalHistory } from '../history';
import { type PrecipitateModel, type PrecipitateOptions, precipitateModel } from '../kinetics';
import { formatPercent, judged, TemperbookError } from '../quantity';
import type { ModelLine } from './verdict';

/** A start a part can have that is to keep its temper. */
export type AgedStart = string | { readonly temper: string; readonly measuredYieldMPa: number };

/** Further off than this, the model's temper is not the part's temper, and its change says little. */
const MOST_OFF = 0.2;

/** The sets of constants asked, in the order of their lines. */
export const PRECIPITATE_SETS = ['published', 'calibrated'] as const;
/** One of them. */
export type PrecipitateSet = (typeof PRECIPITATE_SETS)[number];

/** A set that may speak of a temper, and by which share its own start is off that of the card. */
export interface SetInRange {
  readonly model: PrecipitateModel;
  readonly off: number;
}

/**
 * The precipitate model with a set of constants whose own temper is the card's.
 * @throws TemperbookError saying why it is not.
 */
export function precipitateInRange(
  card: AlloyCard,
  temper: string,
  options: PrecipitateOptions & { readonly parameters: PrecipitateSet },
): SetInRange {
  const model = precipitateModel(card, options);
  const ownMPa = model.start(temper).start.yieldMPa;
  const cardMPa = findTemper(card, temper).entry.yieldMPa.value;
  const off = ownMPa / cardMPa - 1;
  if (Math.abs(off) <= MOST_OFF) return { model, off };
  throw new TemperbookError(
    `its own ${card.designation}-${temper} has ${Math.round(ownMPa)} MPa where the card has ${Math.round(cardMPa)}, so it does not know how this temper got its strength.`,
  );
}

/** What the precipitate model says with each of its sets of constants, or why a set is left out. */
export function precipitateLines(history: ThermalHistory, card: AlloyCard, from: AgedStart): ModelLine[] {
  return PRECIPITATE_SETS.map((parameters) => {
    const model = `precipitate model, ${parameters} set`;
    try {
      return precipitateLine(model, parameters, history, card, from);
    } catch (error) {
      if (!(error instanceof TemperbookError)) throw error;
      return { model, governs: false, reason: `Left out: ${error.message}` };
    }
  });
}

function precipitateLine(
  name: string,
  parameters: PrecipitateSet,
  history: ThermalHistory,
  card: AlloyCard,
  from: AgedStart,
): ModelLine {
  const { model, off } = precipitateInRange(card, typeof from === 'string' ? from : from.temper, {
    parameters,
  });
  const { yieldKeptFraction: kept, remarks } = model.advance(model.start(from), history);
  if (remarks.length > 0) throw new TemperbookError(remarks.map(({ text }) => text).join(' '));
  return {
    model: name,
    yieldKeptFraction: judged(kept[kept.length - 1]!, [], '1', ['No band of its own.']),
    governs: false,
    reason: [
      'Informs, and the band reaches to it: it follows the particles themselves.',
      `Its own start is ${formatPercent(Math.abs(off))} too ${off < 0 ? 'weak' : 'strong'}.`,
      ...retrogression(kept),
    ].join(' '),
  };
}

/** A dip that came back by this much is worth a word. */
const CAME_BACK = 0.05;

/** Why a short heat may be judged worse than a longer one. */
function retrogression(kept: Float64Array): string[] {
  const lowest = kept.reduce((least, fraction) => Math.min(least, fraction));
  if (kept[kept.length - 1]! - lowest < CAME_BACK) return [];
  return [
    `On the way it was down to ${formatPercent(lowest)}: a short heat first dissolves the finest particles (retrogression), a longer one forms them again.`,
  ];
}
