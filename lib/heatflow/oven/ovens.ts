import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type HowKnown, TemperbookError } from '../../quantity';

/** What the set point of an oven says of the metal in it. */
export interface Oven {
  readonly name: string;
  /** How far the air at the part may be from the set point, either way, K. */
  readonly dialK: number;
  /** How far the air moves about its mean with the controller, K; 0 where `dialK` holds it. */
  readonly swingK: number;
  /** Of that movement, s. */
  readonly periodS?: number;
  readonly known: HowKnown;
  readonly source: string;
}

let known: readonly Oven[] | undefined;

/** The ovens of data/models/ovens.json, best first. */
export function listOvens(): readonly Oven[] {
  known ??= (
    JSON.parse(readFileSync(path.join(__dirname, '../../../data/models/ovens.json'), 'utf8')) as {
      readonly ovens: readonly Oven[];
    }
  ).ovens;
  return known;
}

/**
 * An oven by its name ("class 5" of AMS 2750, "kitchen"), or by its own survey: "±10C", "±15F" says how far from the set
 * point the air at the part was measured to be, all in all. Nobody said: the loosest there is.
 * @throws TemperbookError naming what there is.
 * @example ovenOf('class 5').dialK // 13.9
 * @example ovenOf('±18F').dialK // 10
 */
export function ovenOf(words?: string): Oven {
  const ovens = listOvens();
  const loosest = ovens[ovens.length - 1]!;
  if (words === undefined) return { ...loosest, name: 'not stated' };
  const asked = String(words).trim().toLowerCase();
  const found = ovens.find(({ name }) => name === asked.replace(/^ams\s*2750\s*/, ''));
  if (found) return found;
  const [, number, unit] = /^(?:±|\+\/?-)\s*(\d+(?:\.\d+)?)\s*°?\s*([cfk])$/.exec(asked) ?? [];
  const dialK = Number(number) / (unit === 'f' ? 1.8 : 1);
  if (number !== undefined && dialK <= loosest.dialK + loosest.swingK)
    return {
      name: `surveyed to ±${dialK.toFixed(0)} °C`,
      dialK,
      swingK: 0,
      known: 'seen',
      source: 'a survey of this oven, as given',
    };
  throw new TemperbookError('No oven is known by these words', {
    found: `"${words}"`,
    expected: `one of ${ovens.map(({ name }) => `"${name}"`).join(', ')}, or how far its air was measured to be from the set point, such as "±15F"`,
  });
}
