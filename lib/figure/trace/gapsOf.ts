import type { ThermalHistory } from '../../history';

/** From and to of each stretch of a history that was not recorded, s. */
export function gapsOf({ timeS, gapAfter }: ThermalHistory): (readonly [number, number])[] {
  return Array.from(gapAfter ?? [], (i) => [timeS[i]!, timeS[i + 1]!] as const);
}
