import { type Figure, type TrendLine, type TrendPoint, trendFigure } from '../../figure';
import { numberOf, type ShelfPart } from './readShelf';
import type { ShelfPlace } from './shelfEntry';
import { governing } from './shelfRows';

/** Welds in one figure: more would be one grey band. */
export const MOST_WELDS = 200;
/** Welds named under an axis. */
const MOST_TICKS = 3;

/**
 * Peak, time above the limit and strength kept of the newest welds, oldest first: for each metal of a part the place that
 * governs it. Empty where there is no part.
 */
export function shelfTrends(parts: readonly ShelfPart[]): Figure[] {
  const welds = parts.slice(0, MOST_WELDS).reverse();
  if (welds.length === 0) return [];
  const metals = [...new Set(welds.flatMap(({ newest }) => newest.places.map(({ alloy }) => alloy)))].sort();
  const every = Math.max(1, Math.ceil(welds.length / MOST_TICKS));
  const ticks = welds.flatMap(({ newest }, k) =>
    k % every === 0 ? [{ weld: k + 1, text: newest.date ?? `weld ${k + 1}` }] : [],
  );
  const lines = (
    measureOf: (place: ShelfPlace) => Pick<TrendPoint, 'value' | 'low' | 'high'> | undefined,
  ): TrendLine[] =>
    metals
      .map((alloy, look) => ({
        name: alloy,
        points: welds.flatMap(({ newest }, k) => {
          const places = newest.places.filter((place) => place.alloy === alloy);
          const worst = places.length > 0 ? governing(places) : undefined;
          const value = worst && measureOf(worst);
          if (!worst || !value) return [];
          const label = `${numberOf(newest) || newest.file}, ${worst.name}: ${worst.verdict}`;
          const weld = k + 1 + BESIDE * (look - (metals.length - 1) / 2);
          return [{ ...value, weld, verdict: worst.verdict, label }];
        }),
      }))
      .filter(({ points }) => points.length > 0);
  const limits = [...new Set(welds.flatMap(({ newest }) => newest.places.map(({ limitC }) => limitC)))];
  const [limitC] = limits;
  const above = lines(({ aboveLimitS }) =>
    aboveLimitS === undefined ? undefined : { value: aboveLimitS / 60 },
  );
  return [
    trendFigure(
      lines(({ peakC }) => ({ value: peakC })),
      {
        title: 'Hottest reading at the governing probe',
        quantity: 'Peak, °C',
        ticks,
        levels: limits.length === 1 && limitC !== undefined ? [{ name: 'limit', value: limitC }] : [],
      },
    ),
    ...(above.length > 0
      ? [
          trendFigure(above, {
            title: 'Time above the limit, as read',
            quantity: 'Time above the limit, min',
            ticks,
            least: 0,
          }),
        ]
      : []),
    trendFigure(
      lines(({ keptFraction: { nominal, low, high } }) => ({
        value: 100 * nominal,
        low: 100 * low,
        high: 100 * high,
      })),
      { title: 'Strength kept, with its 5 to 95 % band', quantity: 'Yield kept, %', ticks },
    ),
  ];
}

/** Two metals of one weld stand beside each other, welds. */
const BESIDE = 0.24;
