import type { HowKnown } from '../../quantity';

/** One row of EN 1999-1-1 table 3.2: characteristic strengths of the parent metal and of its heat-affected zone. */
export interface KnockDownRow {
  readonly alloy: string;
  /** Forms the row holds for, in the table's codes: 'EP/ET/ER-B', 'DT', 'sheet'. */
  readonly forms: string;
  readonly temper: string;
  readonly overMm: number;
  readonly upToMm: number;
  /** 0.2 % proof stress, MPa. */
  readonly proofMPa: number;
  readonly ultimateMPa: number;
  readonly proofHazMPa: number;
  readonly ultimateHazMPa: number;
  /** ρ_o,haz and ρ_u,haz as printed. */
  readonly rhoProof: number;
  readonly rhoUltimate: number;
  readonly bucklingClass: 'A' | 'B';
  readonly known: HowKnown;
}

type Cells = readonly [
  alloy: string,
  forms: string,
  temper: string,
  overMm: number,
  upToMm: number,
  proofMPa: number,
  ultimateMPa: number,
  proofHazMPa: number,
  ultimateHazMPa: number,
  rhoProof: number,
  rhoUltimate: number,
  bucklingClass: 'A' | 'B',
  known: HowKnown,
];

// biome-ignore format: one row of the printed table a line
const CELLS: readonly Cells[] = [
  ['5083', 'DT', 'H12', 0, 10, 200, 280, 135, 270, 0.68, 0.96, 'B', 'seen'],
  ['5083', 'DT', 'H14', 0, 5, 235, 300, 135, 270, 0.57, 0.9, 'A', 'seen'],
  ['5083', 'EP/ET/ER-B', 'O', 0, 200, 110, 270, 110, 270, 1, 1, 'B', 'seen'],
  ['6005A', 'EP-hollow/ET', 'T6', 0, 5, 215, 255, 115, 165, 0.53, 0.65, 'A', 'seen'],
  ['6005A', 'EP-hollow/ET', 'T6', 5, 10, 200, 250, 115, 165, 0.58, 0.66, 'A', 'seen'],
  ['6005A', 'EP-open/ER-B', 'T6', 0, 5, 225, 270, 115, 165, 0.51, 0.61, 'A', 'seen'],
  ['6005A', 'EP-open/ER-B', 'T6', 5, 10, 215, 260, 115, 165, 0.53, 0.63, 'A', 'seen'],
  ['6005A', 'EP-open/ER-B', 'T6', 10, 25, 200, 250, 115, 165, 0.58, 0.66, 'A', 'seen'],
  ['6060', 'DT', 'T6', 0, 20, 160, 215, 60, 100, 0.38, 0.47, 'A', 'seen'],
  ['6060', 'EP', 'T5', 5, 25, 100, 140, 50, 80, 0.5, 0.57, 'B', 'seen'],
  ['6060', 'EP', 'T66', 3, 25, 150, 195, 65, 110, 0.43, 0.56, 'A', 'seen'],
  ['6060', 'EP/ET/ER-B', 'T5', 0, 5, 120, 160, 50, 80, 0.42, 0.5, 'B', 'seen'],
  ['6060', 'EP/ET/ER-B', 'T6', 0, 15, 140, 170, 60, 100, 0.43, 0.59, 'A', 'seen'],
  ['6060', 'EP/ET/ER-B', 'T64', 0, 15, 120, 180, 60, 100, 0.5, 0.56, 'A', 'seen'],
  ['6060', 'EP/ET/ER-B', 'T66', 0, 3, 160, 215, 65, 110, 0.41, 0.51, 'A', 'seen'],
  ['6061', 'EP/ET/ER-B/DT', 'T4', 0, 25, 110, 180, 95, 150, 0.86, 0.83, 'B', 'seen'],
  ['6061', 'EP/ET/ER-B/DT', 'T6', 0, 20, 240, 260, 115, 175, 0.48, 0.67, 'A', 'seen'],
  ['6063', 'DT', 'T6', 0, 20, 190, 220, 65, 110, 0.34, 0.5, 'A', 'seen'],
  ['6063', 'DT', 'T66', 0, 20, 195, 230, 75, 130, 0.38, 0.57, 'A', 'seen'],
  ['6063', 'EP', 'T5', 3, 25, 110, 160, 60, 100, 0.55, 0.63, 'B', 'seen'],
  ['6063', 'EP', 'T66', 10, 25, 180, 225, 75, 130, 0.42, 0.58, 'A', 'seen'],
  ['6063', 'EP/ET/ER-B', 'T5', 0, 3, 130, 175, 60, 100, 0.46, 0.57, 'B', 'seen'],
  ['6063', 'EP/ET/ER-B', 'T6', 0, 25, 160, 195, 65, 110, 0.41, 0.56, 'A', 'seen'],
  ['6063', 'EP/ET/ER-B', 'T66', 0, 10, 200, 245, 75, 130, 0.38, 0.53, 'A', 'seen'],
  ['6082', 'EP', 'T5', 0, 5, 230, 270, 125, 185, 0.54, 0.69, 'B', 'memory'],
  ['6082', 'EP-open/EP-hollow', 'T6', 0, 5, 250, 290, 125, 185, 0.5, 0.64, 'A', 'memory'],
  ['6082', 'EP-open/EP-hollow', 'T6', 5, 15, 260, 310, 125, 185, 0.48, 0.6, 'A', 'memory'],
  ['6082', 'EP/ET/ER-B', 'T4', 0, 25, 110, 205, 100, 160, 0.91, 0.78, 'B', 'memory'],
  ['6106', 'EP', 'T6', 0, 10, 200, 250, 95, 160, 0.48, 0.64, 'A', 'seen'],
  ['7020', 'EP/ET/ER-B', 'T6', 0, 15, 290, 350, 205, 280, 0.71, 0.8, 'A', 'memory'],
  ['5083', 'sheet', 'H12', 0, 40, 250, 305, 155, 275, 0.62, 0.9, 'A', 'memory'],
  ['5083', 'sheet', 'O', 0, 50, 125, 275, 125, 275, 1, 1, 'B', 'memory'],
  ['6061', 'sheet', 'T6', 0, 12.5, 240, 290, 115, 175, 0.48, 0.6, 'A', 'memory'],
  ['6082', 'sheet', 'T6', 0, 6, 260, 310, 125, 185, 0.48, 0.6, 'A', 'memory'],
  ['6082', 'sheet', 'T6', 6, 12.5, 255, 300, 125, 185, 0.49, 0.62, 'A', 'memory'],
  ['6082', 'sheet', 'T6', 12.5, 100, 240, 295, 125, 185, 0.52, 0.63, 'A', 'memory'],
  ['7020', 'sheet', 'T6', 0, 12.5, 280, 350, 205, 280, 0.73, 0.8, 'A', 'memory'],
];

/**
 * EN 1999-1-1:2007 (+A1:2009) tables 3.2a (sheet) and 3.2b (extrusions, drawn tube), the rows known here. HAZ values
 * are for MIG welds up to 15 mm; `hazKnockDown` applies the further factors. Not held: 3xxx, and drawn tube of 6005A
 * and 6082.
 */
export const KNOCK_DOWN_TABLE: readonly KnockDownRow[] = CELLS.map(
  ([
    alloy,
    forms,
    temper,
    overMm,
    upToMm,
    proofMPa,
    ultimateMPa,
    proofHazMPa,
    ultimateHazMPa,
    rhoProof,
    rhoUltimate,
    bucklingClass,
    known,
  ]) => ({
    alloy,
    forms,
    temper,
    overMm,
    upToMm,
    proofMPa,
    ultimateMPa,
    proofHazMPa,
    ultimateHazMPa,
    rhoProof,
    rhoUltimate,
    bucklingClass,
    known,
  }),
);
