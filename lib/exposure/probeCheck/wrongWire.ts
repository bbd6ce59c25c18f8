import { formatTemp } from '../../quantity';
import { celsiusToEmf, emfToCelsius, type ThermocoupleType } from '../../thermocouple';

/** What a reading of a known temperature says. */
export interface KnownReading {
  readonly metalC: number;
  readonly readC: number;
  /** Temperature at the plug, °C. */
  readonly coldC: number;
  readonly withinK: number;
}

const TYPES: readonly ThermocoupleType[] = ['K', 'J', 'T', 'N', 'E', 'R', 'S'];

/**
 * Which mistake shows such a reading, in a sentence: two wires swapped, E⁻¹[2E(T_c) − E(T)]; or wire of another type on an
 * input set to `type`, E⁻¹[E(T_c) + E'(T) − E'(T_c)]. Undefined where none does within the tolerance.
 */
export function wrongWire(
  type: ThermocoupleType,
  { metalC, readC, coldC, withinK }: KnownReading,
): string | undefined {
  const shown = (emfMv: number): number => emfToCelsius(type, emfMv);
  const cold = celsiusToEmf(type, coldC);
  const swapped = shown(2 * cold - celsiusToEmf(type, metalC));
  const others = TYPES.filter((other) => other !== type).map((other) => ({
    what: `type ${other} wire on an input set to type ${type}`,
    shownC: shown(cold + celsiusToEmf(other, metalC) - celsiusToEmf(other, coldC)),
  }));
  const best = [{ what: 'its two wires swapped', shownC: swapped }, ...others]
    .map((one) => ({ ...one, offK: Math.abs(one.shownC - readC) }))
    .sort((a, b) => a.offK - b.offK)[0]!;
  if (best.offK > withinK) return undefined;
  return `reads ${formatTemp(readC, 1)} in water of ${formatTemp(metalC, 1)}, as ${best.what} would (${formatTemp(best.shownC, 1)}).`;
}
