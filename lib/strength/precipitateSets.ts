import { type AlloyCard, findTemper } from '../alloy';
import { isothermal } from '../history';
import {
  type PrecipitateModel,
  type PrecipitateOptions,
  type PrecipitateState,
  precipitateModel,
} from '../kinetics';
import { TemperbookError } from '../quantity';

/** A start a part can have that is to keep its temper. */
export type AgedStart = string | { readonly temper: string; readonly measuredYieldMPa: number };

/** The precipitate model with one set of constants, ready to run from a temper, or why it has no say there. */
export type PrecipitateSet = { readonly name: string } & (
  | {
      readonly model: PrecipitateModel;
      readonly start: PrecipitateState;
      /** By which share its own temper is off that of the card. */
      readonly off: number;
    }
  | { readonly leftOut: string }
);

/** Further off than this, the model's temper is not the part's temper, and its change says little. */
const MOST_OFF = 0.2;
/** A second on the shelf: brings out what a model has to say against the alloy itself. */
const NO_HEAT = isothermal(20, 1);

/** The precipitate model with its published and its calibrated constants, started from a temper of a card. */
export function precipitateSets(
  card: AlloyCard,
  from: AgedStart,
  resolution?: PrecipitateOptions['resolution'],
): readonly PrecipitateSet[] {
  return (['published', 'calibrated'] as const).map((parameters) => {
    const name = `precipitate model, ${parameters} set`;
    try {
      return { name, ...started(precipitateModel(card, { parameters, resolution }), card, from) };
    } catch (error) {
      if (error instanceof TemperbookError) return { name, leftOut: error.message };
      throw error;
    }
  });
}

/** Without a measurement it starts at the yield of the card, as the other models do. */
function started(model: PrecipitateModel, card: AlloyCard, from: AgedStart) {
  const temper = typeof from === 'string' ? from : from.temper;
  const ownMPa = model.start(temper).start.yieldMPa;
  const cardMPa = findTemper(card, temper).entry.yieldMPa.value;
  const off = ownMPa / cardMPa - 1;
  if (Math.abs(off) > MOST_OFF)
    return {
      leftOut: `its own ${card.designation}-${temper} has ${Math.round(ownMPa)} MPa where the card has ${Math.round(cardMPa)}, so it does not know how this temper got its strength.`,
    };
  const start = model.start(typeof from === 'string' ? { temper, measuredYieldMPa: cardMPa } : from);
  const against = model.advance(start, NO_HEAT).remarks.filter(({ quantity }) => quantity !== 'start');
  return against.length > 0 ? { leftOut: against.map(({ text }) => text).join(' ') } : { model, start, off };
}
