import type { HowKnown } from '../quantity';

/** One assumption behind the numbers, shown in every record. */
export interface Assumption {
  readonly name: string;
  /** Value with unit and band, in words. */
  readonly value: string;
  readonly source: string;
  readonly known: HowKnown;
}
