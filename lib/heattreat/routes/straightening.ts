import type { HowKnown } from '../../quantity';

/** What is known of straightening a part after the quench. */
export interface Straightening {
  readonly alloy: string;
  /** Hours from quench until it stiffens; null: nobody knows. */
  readonly stiffensAfterH: number | null;
  /** How warm it may be made for it, °C; null: nobody knows. */
  readonly warmLimitC: number | null;
  /** Substantially stable, by when at the latest it is stiff, h. */
  readonly stableAfterH: number;
  readonly facts: readonly { readonly fact: string; readonly source: string; readonly known: HowKnown }[];
}

/**
 * When to straighten: as quenched, before ageing. How many hours that leaves, and how warm the metal may be made, was
 * found for no alloy of the kit: the numbers known are of rivets of 2017 and 2024, which stiffen within minutes and
 * do not transfer. So the answer is "at once", and null for both numbers.
 */
export function straightening(alloy: string): Straightening {
  return {
    alloy,
    stiffensAfterH: null,
    warmLimitC: null,
    stableAfterH: 96,
    facts: [
      {
        fact: 'Straighten as quenched, before ageing.',
        source: 'F. Armao, Aluminum Workshop columns',
        known: 'seen',
      },
      {
        fact: 'About 96 h at room temperature make it substantially stable; it stiffens before that.',
        source: 'FAA AMT Handbook-General; T.O. 1-1A-9 para 3-18',
        known: 'seen',
      },
      {
        fact: 'Kept at −23 °C (−9 °F) or colder it stays formable for several days.',
        source: 'a heat-treat trade page; low confidence',
        known: 'seen',
      },
      {
        fact: `How many hours ${alloy} leaves, and how warm it may be made, nobody published: do it at once and cold.`,
        source: 'none found',
        known: 'practice',
      },
    ],
  };
}
