import type { KeptMap } from './strengthMap';

/**
 * A map whose low line reaches down to what another model says, where that model has an answer. The other map may be
 * coarser and smaller: it is read between its points by straight lines in °C and in ln t, and beyond its borders it
 * says nothing.
 */
export function withLowerLine(map: KeptMap, other: KeptMap): KeptMap {
  const lnS = Array.from(map.timeS, Math.log);
  const otherLnS = Array.from(other.timeS, Math.log);
  const low = map.keptLow ?? map.keptFraction;
  return {
    ...map,
    keptLow: low.map((row, i) => {
      const y = between(other.tempC, map.tempC[i]!);
      return row.map((kept, j) => {
        const x = between(otherLnS, lnS[j]!);
        const says = x && y && corners(other.keptFraction, x, y);
        return kept === null || says === undefined ? kept : Math.min(kept, says);
      });
    }),
  };
}

interface Between {
  readonly index: number;
  readonly share: number;
}

/** Between which two of ascending places a value lies; nothing beyond the first and the last. */
function between(places: ArrayLike<number>, value: number): Between | undefined {
  const last = places.length - 1;
  if (!(value >= places[0]! - ROUNDING && value <= places[last]! + ROUNDING)) return undefined;
  let index = 0;
  while (index < last - 1 && places[index + 1]! <= value) index++;
  return { index, share: (value - places[index]!) / (places[index + 1]! - places[index]!) };
}

/** Borders that two maps share may differ by rounding. */
const ROUNDING = 1e-9;

function corners(grid: KeptMap['keptFraction'], x: Between, y: Between): number | undefined {
  const at = (i: number, j: number) => grid[y.index + i]![x.index + j]!;
  const four = [at(0, 0), at(0, 1), at(1, 0), at(1, 1)];
  if (four.some((kept) => kept === null)) return undefined;
  const mix = (a: number, b: number, share: number) => a + share * (b - a);
  return mix(mix(four[0]!, four[1]!, x.share), mix(four[2]!, four[3]!, x.share), y.share);
}
