import { type AlloyCard, meltsFromC } from '../../alloy';
import { type Exposure, type Heat, parseHeats, type TemperatureSign, withSigns } from '../../exposure';
import { type OvenOptions, ovenExposure } from '../../heatflow';
import { formatTemp, TemperbookError } from '../../quantity';

/** One heat with what is known of it alone: its oven, and what was seen of the metal in it. */
export interface ToldHeat extends OvenOptions {
  /** In words, "3 x 390F 20min", or taken apart. */
  readonly heat: string | Heat;
  /** Sticks that sat on it in this heat, and readings by hand; s from its start. */
  readonly seen?: readonly TemperatureSign[];
}

/** A heat that was told, its words read. */
export type ReadHeat = ToldHeat & { readonly heat: Heat };

/**
 * Heats that were told, one by one.
 * @throws TemperbookError as `parseHeats`, and for signs that would be of several heats at once.
 */
export function readHeats(told: string | Heat | ToldHeat): ReadHeat[] {
  if (typeof told === 'string') return parseHeats(told).map((heat) => ({ heat }));
  if (!('heat' in told)) return [{ heat: told }];
  const heats = typeof told.heat === 'string' ? parseHeats(told.heat) : [told.heat];
  if (heats.length > 1 && told.seen !== undefined)
    throw new TemperbookError('In which of these heats was that seen?', {
      found: `"${String(told.heat)}" with sticks or readings`,
      expected: 'one heat at a time, each with its own',
    });
  return heats.map((heat) => ({ ...told, heat }));
}

/**
 * What metal saw in a heat that was told, once for each time. Its oven runs alike every time, so what was seen of it counts
 * once.
 * @throws TemperbookError as `ovenExposure` and `withSigns`, and for a heat at which the alloy begins to melt.
 */
export function toldExposures(
  { heat, seen = [], ...own }: ReadHeat,
  card: AlloyCard,
  made: OvenOptions = {},
): Exposure[] {
  const from = meltsFromC(card);
  if (heat.setC >= from)
    throw new TemperbookError(`${card.designation} begins to melt at this heat`, {
      found: formatTemp(heat.setC),
      expected: `below ${formatTemp(from)}`,
      remedy: 'Look at the unit and the digits',
    });
  const exposure = ovenExposure(heat, ovenOptions(own, made));
  return [withSigns(exposure, seen), ...new Array<Exposure>(heat.times - 1).fill(exposure)];
}

/** What is known of the oven of one heat, else of all. */
export const ovenOptions = (own: OvenOptions, made: OvenOptions): OvenOptions => ({
  oven: own.oven ?? made.oven,
  wallMm: own.wallMm ?? made.wallMm,
  fan: own.fan ?? made.fan,
});
