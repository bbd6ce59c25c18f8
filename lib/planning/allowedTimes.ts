import { allowanceOf } from '../strength';
import type { KeptMap } from './strengthMap';

/** How long one temperature is allowed before the yield kept falls below what is needed; `null`: beyond the map. */
export interface AllowedTime {
  readonly tempC: number;
  /** By the median, s. */
  readonly nominalS: number | null;
  /** By the 5 % line, s: what one can count on. */
  readonly sureS: number | null;
}

/**
 * For every row of a map the time at which the yield kept first falls below 1 − `allowanceFraction`, interpolated
 * in the logarithm of time; 0 when it has fallen by the map's first time. Rows where metal melts are left out.
 */
export function allowedTimes(map: KeptMap, allowanceFraction: number): AllowedTime[] {
  const needed = 1 - allowanceOf(allowanceFraction);
  return map.keptFraction.flatMap((kept, i) => {
    if (kept[0] === null) return [];
    return [
      {
        tempC: map.tempC[i]!,
        nominalS: firstBelow(kept, map.timeS, needed),
        sureS: firstBelow(map.keptLow[i]!, map.timeS, needed),
      },
    ];
  });
}

function firstBelow(row: readonly (number | null)[], timeS: Float64Array, needed: number): number | null {
  const j = row.findIndex((kept) => kept !== null && kept < needed);
  if (j < 0) return null;
  if (j === 0) return 0;
  const share = (row[j - 1]! - needed) / (row[j - 1]! - row[j]!);
  return timeS[j - 1]! * (timeS[j]! / timeS[j - 1]!) ** share;
}
