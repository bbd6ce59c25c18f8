import { stretches, type ThermalHistory } from '../../history';

/** How fast this part has been seen to heat and cool, with a margin, K/s. */
export interface PartRates {
  readonly heatingKPerS: number;
  readonly coolingKPerS: number;
}

/** Rates are read over at least this long, so that noise is not taken for heat, s. */
const OVER_S = 2;
/** What was not seen may be this much faster than what was. */
const MARGIN = 1.5;
/**
 * A part that was not seen to change may still do this, K/s: 20 mm beside an arc of 1500 W net at 5 mm/s on 4 mm of
 * aluminium (Rosenthal's thin plate: 44 up and 7.2 down over two seconds).
 */
const LEAST = { heatingKPerS: 45, coolingKPerS: 8 };

/**
 * The fastest heating and cooling any probe of the log shows, half as much again, and never less than a part two
 * centimetres from an arc does. It bounds what can have happened in a gap.
 */
export function partRates(histories: readonly ThermalHistory[]): PartRates {
  let { heatingKPerS, coolingKPerS } = LEAST;
  for (const history of histories) {
    const { timeS, tempC } = history;
    for (const { first, last } of stretches(history)) {
      let back = first;
      for (let i = first + 1; i <= last; i++) {
        while (back + 1 < i && timeS[i]! - timeS[back + 1]! >= OVER_S) back++;
        const overS = timeS[i]! - timeS[back]!;
        if (overS < OVER_S) continue;
        const rate = (MARGIN * (tempC[i]! - tempC[back]!)) / overS;
        if (rate > heatingKPerS) heatingKPerS = rate;
        if (-rate > coolingKPerS) coolingKPerS = -rate;
      }
    }
  }
  return { heatingKPerS, coolingKPerS };
}
