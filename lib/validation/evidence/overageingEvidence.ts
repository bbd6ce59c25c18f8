import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { HowKnown } from '../../quantity';

/**
 * What one measurement says: a value, on which side of a value the truth lies (a test that only says
 * "still above" or "fallen below"), or that the strength peaks here (`standardError` in ln t).
 */
export type MeasuredSoftening =
  | { readonly kind: 'kept'; readonly keptFraction: number; readonly standardError: number }
  | { readonly kind: 'atLeast' | 'below'; readonly keptFraction: number; readonly standardError: number }
  | { readonly kind: 'peak'; readonly standardError: number };

/** One measured fact about over-ageing. */
export interface OverageingRow {
  readonly id: string;
  readonly alloys: readonly string[];
  readonly temper: string;
  /** Soaks one after the other; heating and cooling not counted. */
  readonly exposure: readonly { readonly tempC: number; readonly timeS: number }[];
  readonly measured: MeasuredSoftening;
  /** Yield before the exposure, MPa; absent: the card's typical yield of the temper. */
  readonly startYieldMPa?: number;
  /** `fit`: the curve is fitted to it. `check`: shown beside the curve only. */
  readonly use: 'fit' | 'check';
  /** True for a result of the precipitate model: weaker evidence, not a measurement. */
  readonly computed?: true;
  readonly source: string;
  readonly known: HowKnown;
  readonly note?: string;
}

let table: readonly OverageingRow[] | undefined;

/** The measured facts for one alloy, in the order of data/published/overageing.json. */
export function overageingEvidence(designation: string): readonly OverageingRow[] {
  const file = path.join(__dirname, '../../../data/published/overageing.json');
  table ??= (JSON.parse(readFileSync(file, 'utf8')) as { rows: OverageingRow[] }).rows;
  return table.filter((row) => row.alloys.includes(designation));
}
