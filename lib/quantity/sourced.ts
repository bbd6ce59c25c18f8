/**
 * How a number is known. `seen`: read in the source named; `memory`: recalled, not opened; `derived`: our
 * arithmetic from sourced numbers; `fitted`: by this kit's own fit to sourced data; `practice`: common
 * practice of the trade, no source.
 */
export type HowKnown = 'seen' | 'memory' | 'derived' | 'fitted' | 'practice';

/** A number with its doubt: `low ≤ value ≤ high`, all in `unit`. */
export interface Sourced {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly source: string;
  readonly known: HowKnown;
  readonly note?: string;
}
