import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { HowKnown } from '../../quantity';

/** What one measurement of ageing says; kinds as for `MeasuredSoftening`, in MPa. */
export type MeasuredAgeing =
  | {
      readonly kind: 'yield' | 'atLeast' | 'below';
      readonly yieldMPa: number;
      readonly standardError: number;
    }
  | { readonly kind: 'peak'; readonly standardError: number };

/** One measured fact about ageing from the quenched state. */
export interface AgeingRow {
  readonly id: string;
  readonly alloys: readonly string[];
  /** Soaks one after the other from the quenched state. */
  readonly exposure: readonly { readonly tempC: number; readonly timeS: number }[];
  readonly measured: MeasuredAgeing;
  readonly use: 'fit' | 'check';
  readonly source: string;
  readonly known: HowKnown;
  readonly note?: string;
}

let table: readonly AgeingRow[] | undefined;

/** The measured facts for one alloy, in the order of data/published/ageing.json. */
export function ageingEvidence(designation: string): readonly AgeingRow[] {
  const file = path.join(__dirname, '../../../data/published/ageing.json');
  table ??= (JSON.parse(readFileSync(file, 'utf8')) as { rows: AgeingRow[] }).rows;
  return table.filter((row) => row.alloys.includes(designation));
}
