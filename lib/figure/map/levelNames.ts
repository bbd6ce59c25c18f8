import type { Annotation } from '../figure';
import { INK, TEXT_PX, VEIL } from '../parts/style';
import { levelsDrawn, type MapGrid } from './mapField';
import { boxAround, LINE_PX, type MapSheet, takePlace, widthOf } from './mapSheets';

/** Share of the width at which a level is named when it can be: neighbours take turns, so names do not queue up. */
const NAMED_AT = [0.35, 0.2, 0.5] as const;
/** A level is named a second time when that is at least this share of the width away. */
const AGAIN_SHARE = 0.45;

/** Kept free beside the name, px. */
const GAP_PX = 5;

interface Crossing {
  readonly timeS: number;
  readonly tempC: number;
}

/**
 * "80 %" on the lines of a map, each where it covers no other name at any size; a level that has no such place stays
 * without, between its named neighbours.
 */
export function levelNames(
  kept: MapGrid,
  timeS: readonly number[],
  tempC: readonly number[],
  sheets: readonly MapSheet[],
): Annotation[] {
  const desk = sheets[0]!;
  return levelsDrawn(kept).flatMap((level, rank) => {
    const text = `${Math.round(100 * level)} %`;
    const wish = desk.width * NAMED_AT[rank % NAMED_AT.length]!;
    const places = crossings(kept, timeS, tempC, level).sort(
      (a, b) => Math.abs(desk.x(a.timeS) - wish) - Math.abs(desk.x(b.timeS) - wish),
    );
    const take = (of: readonly Crossing[]) =>
      takePlace(sheets, of, (at, { x, y }) => {
        const half = widthOf(text) / 2 + GAP_PX;
        return boxAround(x(at.timeS) - half, x(at.timeS) + half, y(at.tempC), LINE_PX + 1);
      });
    const first = take(places);
    const far = places.filter(
      (place) => first && Math.abs(desk.x(place.timeS) - desk.x(first.timeS)) >= AGAIN_SHARE * desk.width,
    );
    return [first, take(far)].flatMap((at) =>
      at === undefined
        ? []
        : [
            {
              text,
              x: Math.log10(at.timeS),
              y: at.tempC,
              xref: 'x',
              yref: 'y',
              xanchor: 'center',
              yanchor: 'middle',
              showarrow: false,
              bgcolor: VEIL,
              font: { size: TEXT_PX, color: INK },
            } as const,
          ],
    );
  });
}

/** Where a level lies between two neighbours of one time, straight between them. */
const crossings = (
  kept: MapGrid,
  timeS: readonly number[],
  tempC: readonly number[],
  level: number,
): Crossing[] =>
  timeS.flatMap((s, j) =>
    kept.slice(1).flatMap((row, i) => {
      const [cool, hot] = [kept[i]![j], row[j]];
      if (typeof cool !== 'number' || typeof hot !== 'number' || cool < level === hot < level) return [];
      const share = (cool - level) / (cool - hot);
      return [{ timeS: s, tempC: tempC[i]! + share * (tempC[i + 1]! - tempC[i]!) }];
    }),
  );
