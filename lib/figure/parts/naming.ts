/** Where lines get their names: beside them, or in a legend when they are many or their names long. */
export type NamingMode = 'direct' | 'legend';

/** How one figure names its lines. */
export interface Naming {
  readonly mode: NamingMode;
  /** What stands beside a line of this name. */
  label(name: string): string;
}

const MOST_DIRECT = 5;
const LONGEST_DIRECT = 9;
const LONGEST_IN_LEGEND = 34;

/**
 * Picks the naming for a set of lines. Probes are often named "TC1 block 12 mm": where the first words are
 * numbered and tell all lines apart, a label needs no more than these; hover texts and tables say the rest.
 */
export function namingOf(names: readonly string[]): Naming {
  const first = (name: string) => /^\S*/.exec(name)![0];
  const numbered = names.every((name) => /\d/.test(first(name)));
  const label = numbered && new Set(names.map(first)).size === names.length ? first : (name: string) => name;
  const direct = names.length <= MOST_DIRECT && names.every((name) => label(name).length <= LONGEST_DIRECT);
  return { mode: direct ? 'direct' : 'legend', label: direct ? label : shortName };
}

/** A name short enough for a legend; the full one stays in the hover text and the tables. */
export const shortName = (name: string): string =>
  name.length <= LONGEST_IN_LEGEND ? name : `${name.slice(0, LONGEST_IN_LEGEND - 1)}…`;
