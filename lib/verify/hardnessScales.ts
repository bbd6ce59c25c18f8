/** One hardness in several scales. */
interface HardnessRow {
  readonly HV: number;
  readonly HRB: number | null;
  readonly HRE: number | null;
}

/**
 * Wrought aluminium, ascending. Source: ASTM E140 table 9, from memory; the recalled HV follow HV = 1.2 HB − 3 within 2.
 */
const TABLE: readonly HardnessRow[] = [
  { HV: 44, HRB: null, HRE: 46 },
  { HV: 50, HRB: null, HRE: 53 },
  { HV: 62, HRB: null, HRE: 65 },
  { HV: 68, HRB: null, HRE: 70 },
  { HV: 80, HRB: 28, HRE: 80 },
  { HV: 86, HRB: 34, HRE: 84 },
  { HV: 98, HRB: 46, HRE: 91 },
  { HV: 105, HRB: 51, HRE: 94 },
  { HV: 117, HRB: 60, HRE: null },
  { HV: 123, HRB: 65, HRE: 98 },
  { HV: 135, HRB: 72, HRE: 100 },
  { HV: 141, HRB: 76, HRE: 101 },
];

/** Brinell 10/500 of wrought aluminium from Vickers: (HV + 3)/1.2; source as the table's. */
export const brinellOfVickers = (hardnessHV: number): number => (hardnessHV + 3) / 1.2;

/** Rockwell of wrought aluminium from Vickers, by straight lines in the table; carried on beyond its ends. */
export function rockwellOfVickers(scale: 'HRB' | 'HRE', hardnessHV: number): number {
  const rows = TABLE.flatMap((row) => (row[scale] === null ? [] : [{ HV: row.HV, value: row[scale]! }]));
  let k = 0;
  while (k < rows.length - 2 && rows[k + 1]!.HV < hardnessHV) k++;
  const [a, b] = [rows[k]!, rows[k + 1]!];
  return a.value + ((hardnessHV - a.HV) / (b.HV - a.HV)) * (b.value - a.value);
}
