import { listAlloys, loadAlloy } from '../../alloy';
import { madeWith } from '../../decision';
import { kitVersion } from '../kitVersion';
import type { ShelfEntry, ShelfPlace } from './shelfEntry';

/**
 * What a verdict was made with that is not the same today: "temperbook 0.1.0", "plausible metals", "card A356.0"; empty
 * where it would be made alike. A card of the shop's own is not kept in the kit, which cannot tell whether it changed.
 */
export function changedSince(
  entry: Pick<ShelfEntry, 'madeWith'> & { readonly places: readonly Pick<ShelfPlace, 'alloy'>[] },
): string[] {
  const designations = [...new Set(entry.places.map(({ alloy }) => alloy))];
  const known = listAlloys();
  const cards = designations.filter((name) => known.includes(name)).map((name) => loadAlloy(name));
  const today: Readonly<Record<string, string>> = { temperbook: kitVersion(), ...madeWith(cards) };
  return Object.keys(today)
    .filter((name) => entry.madeWith[name] !== today[name])
    .map((name) => (name === 'temperbook' ? `temperbook ${entry.madeWith[name]}` : name));
}
