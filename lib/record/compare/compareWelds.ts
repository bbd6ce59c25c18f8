import { requireList, TemperbookError } from '../../quantity';
import { keptAt, keptMore } from './keptMore';
import type { Weld, WeldPlace } from './weld';

/** One weld at one place, beside the first. */
export interface Beside {
  readonly weld: string;
  readonly place: WeldPlace;
  /**
   * Chance that the first weld kept more than this one: the share of draws, the same truth behind the wire on both sides, and
   * the same metal where both are of the same lots or no lot is known of either; equal counts half. Null for the first itself, and
   * where it is not known.
   */
  readonly firstKeptMore: number | null;
  readonly notKnownBecause?: string;
}

/** A place that the first weld and another share. */
export interface PlaceCompared {
  readonly name: string;
  /** In the order of the welds; the first weld first. */
  readonly welds: readonly Beside[];
}

/** Welds side by side. */
export interface Comparison {
  readonly places: readonly PlaceCompared[];
  /** Places that cannot be compared, and why. */
  readonly leftOut: readonly string[];
}

/**
 * Puts welds beside the first, place by place by the names of their probes; two welds of one place each are the same place
 * whatever it is called.
 * @throws TemperbookError for fewer than two welds, and where no place is shared.
 */
export function compareWelds(welds: readonly Weld[]): Comparison {
  const [first, ...others] = requireList(welds, 'Welds to compare', 2) as [Weld, ...Weld[]];
  const areSingle = welds.every(({ places }) => places.length === 1);
  const same = ({ places }: Weld, name: string): WeldPlace | undefined =>
    areSingle ? places[0] : places.find((one) => one.name === name);
  const places = first.places.flatMap((place): PlaceCompared[] => {
    const shared = others.flatMap((weld) => {
      const found = same(weld, place.name);
      return found ? [{ weld: weld.name, place: found, lots: weld.lots ?? [] }] : [];
    });
    if (shared.length === 0) return [];
    const own = keptAt(place, first.lots ?? []);
    return [
      {
        name: place.name,
        welds: [
          { weld: first.name, place, firstKeptMore: null },
          ...shared.map(({ lots, ...one }) => ({
            ...one,
            ...keptMore(own, keptAt(one.place, lots)),
          })),
        ],
      },
    ];
  });
  if (places.length === 0)
    throw new TemperbookError('These welds share no place', {
      found: welds
        .map(({ name, places: all }) => `${name}: ${all.map((one) => one.name).join(', ')}`)
        .join('; '),
      expected: 'probes of the same name on the same place',
      remedy: `Name them alike: --read '{"columns": {"TC1": "name"}}', where logs are compared`,
    });
  return { places, leftOut: leftOut(welds, areSingle) };
}

function leftOut([first, ...others]: readonly Weld[], areSingle: boolean): string[] {
  if (areSingle || !first) return [];
  const names = (weld: Weld): string[] => weld.places.map(({ name }) => name);
  return others.flatMap((other) => [
    ...names(first).flatMap((name) =>
      names(other).includes(name) ? [] : [`"${name}" of ${first.name} is not in ${other.name}.`],
    ),
    ...names(other).flatMap((name) =>
      names(first).includes(name) ? [] : [`"${name}" of ${other.name} is not in ${first.name}.`],
    ),
  ]);
}
