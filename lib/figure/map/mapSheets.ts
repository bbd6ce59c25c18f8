/** What the plot of a map measures, px. */
export interface PlotSize {
  readonly width: number;
  readonly height: number;
}

/** A map as it is read at one size, in px from its top left corner, and what is already written on it. */
export interface MapSheet extends PlotSize {
  /** Of a time in s, on a log axis. */
  x(timeS: number): number;
  y(tempC: number): number;
  readonly taken: Box[];
}

/** What a name or a mark covers, px. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Ends of an axis, in its own unit. */
export type Span = readonly [from: number, to: number];

const PX_PER_LETTER = 6.6;
/** Height of a line of text, px. */
export const LINE_PX = 15;

/** The same map at several sizes: a desk's, then a phone's. Names are placed for all of them at once. */
export function mapSheets(
  sizes: readonly PlotSize[],
  [firstS, lastS]: Span,
  [lowC, highC]: Span,
): readonly MapSheet[] {
  return sizes.map((size) => ({
    ...size,
    x: (timeS) => (size.width * Math.log(timeS / firstS)) / Math.log(lastS / firstS),
    y: (tempC) => (size.height * (highC - tempC)) / (highC - lowC),
    taken: [],
  }));
}

/**
 * Takes the first of some places that is inside the plot and free on every sheet; `undefined`, and nothing taken, where
 * none is.
 */
export function takePlace<Place>(
  sheets: readonly MapSheet[],
  places: readonly Place[],
  boxOf: (place: Place, sheet: MapSheet) => Box,
): Place | undefined {
  const best = places.find((place) => sheets.every((sheet) => isFree(boxOf(place, sheet), sheet)));
  if (best !== undefined) takeBox(sheets, (sheet) => boxOf(best, sheet));
  return best;
}

/** As `takePlace`; where no place is free on every sheet, one that is on the first sheet, and failing that the first place. */
export function takePlaceAnyhow<Place>(
  sheets: readonly MapSheet[],
  places: readonly Place[],
  boxOf: (place: Place, sheet: MapSheet) => Box,
): Place {
  const free = takePlace(sheets, places, boxOf);
  if (free !== undefined) return free;
  const desk = sheets[0]!;
  const best = places.find((place) => isFree(boxOf(place, desk), desk)) ?? places[0]!;
  takeBox(sheets, (sheet) => boxOf(best, sheet));
  return best;
}

function takeBox(sheets: readonly MapSheet[], boxOf: (sheet: MapSheet) => Box): void {
  for (const sheet of sheets) sheet.taken.push(boxOf(sheet));
}

/** A box about a height, from left to right. */
export const boxAround = (left: number, right: number, y: number, height: number): Box => ({
  left,
  right,
  top: y - height / 2,
  bottom: y + height / 2,
});

/** Width of a line of text, px. */
export const widthOf = (text: string): number => text.length * PX_PER_LETTER;

const isFree = (box: Box, { width, height, taken }: MapSheet): boolean =>
  box.left >= 0 &&
  box.right <= width &&
  box.top >= 0 &&
  box.bottom <= height &&
  !taken.some(
    (other) =>
      box.left < other.right && other.left < box.right && box.top < other.bottom && other.top < box.bottom,
  );
