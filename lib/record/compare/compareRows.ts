import { formatChance, formatDuration, formatKept, formatTemp } from '../../quantity';
import type { TableRow } from '../../report';
import type { PlaceCompared } from './compareWelds';

/** One row per weld at a place: how hot, how long, what it kept, and how sure the first kept more. */
export function compareRows({ name, welds }: PlaceCompared): TableRow[] {
  const [first] = welds;
  return welds.map(({ weld, place, firstKeptMore, notKnownBecause }, k) => ({
    Place: name,
    Weld: weld,
    Metal: `${place.alloy}-${place.temper}`,
    Peak: formatTemp(place.peakC.nominal),
    'Above the limit': aboveText(place.limits[0]?.timeAboveS.nominal),
    'Strength kept': formatKept(place.yieldKeptFraction),
    Verdict: place.verdict,
    [`Chance that ${first!.weld} kept more`]:
      k === 0 ? '' : firstKeptMore === null ? `not known: ${notKnownBecause}` : formatChance(firstKeptMore),
  }));
}

const aboveText = (s: number | undefined): string =>
  s === undefined ? 'no limit' : s > 0 ? formatDuration(s) : 'never';
