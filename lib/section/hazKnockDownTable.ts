import type { HowKnown } from '../quantity';

/** How the metal was made: 'profile' for extrusions and drawn tube, 'sheet' for sheet, strip and plate. */
export type WroughtForm = 'profile' | 'sheet';

/** One row of EN 1999-1-1 table 3.2: characteristic strengths of the parent metal and of its heat-affected zone. */
export interface KnockDownRow {
  readonly alloy: string;
  readonly form: WroughtForm;
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
  readonly known: HowKnown;
}

type Cells = readonly [
  string,
  WroughtForm,
  string,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  HowKnown,
];

/** Columns: alloy, form, temper, over mm, up to mm, fo, fu, fo,haz, fu,haz, ρo,haz, ρu,haz, how known. */
const CELLS: readonly Cells[] = [
  ['5083', 'profile', 'O', 0, 200, 110, 270, 110, 270, 1, 1, 'seen'],
  ['6005A', 'profile', 'T6', 0, 5, 225, 270, 115, 165, 0.51, 0.61, 'seen'],
  ['6005A', 'profile', 'T6', 5, 10, 215, 260, 115, 165, 0.53, 0.63, 'seen'],
  ['6060', 'profile', 'T6', 0, 15, 140, 170, 60, 100, 0.43, 0.59, 'seen'],
  ['6061', 'profile', 'T4', 0, 25, 110, 180, 95, 150, 0.86, 0.83, 'seen'],
  ['6061', 'profile', 'T6', 0, 20, 240, 260, 115, 175, 0.48, 0.67, 'seen'],
  ['6063', 'profile', 'T5', 0, 3, 130, 175, 60, 100, 0.46, 0.57, 'seen'],
  ['6063', 'profile', 'T6', 0, 25, 160, 195, 65, 110, 0.41, 0.56, 'seen'],
  ['6082', 'profile', 'T4', 0, 25, 110, 205, 100, 160, 0.91, 0.78, 'memory'],
  ['6082', 'profile', 'T5', 0, 5, 230, 270, 125, 185, 0.54, 0.69, 'memory'],
  ['6082', 'profile', 'T6', 0, 5, 250, 290, 125, 185, 0.5, 0.64, 'memory'],
  ['6082', 'profile', 'T6', 5, 15, 260, 310, 125, 185, 0.48, 0.6, 'memory'],
  ['7020', 'profile', 'T6', 0, 15, 290, 350, 205, 280, 0.71, 0.8, 'memory'],
  ['5083', 'sheet', 'O', 0, 50, 125, 275, 125, 275, 1, 1, 'memory'],
  ['5083', 'sheet', 'H12', 0, 40, 250, 305, 155, 275, 0.62, 0.9, 'memory'],
  ['6061', 'sheet', 'T6', 0, 12.5, 240, 290, 115, 175, 0.48, 0.6, 'memory'],
  ['6082', 'sheet', 'T6', 0, 6, 260, 310, 125, 185, 0.48, 0.6, 'memory'],
  ['6082', 'sheet', 'T6', 6, 12.5, 255, 300, 125, 185, 0.49, 0.62, 'memory'],
  ['6082', 'sheet', 'T6', 12.5, 100, 240, 295, 125, 185, 0.52, 0.63, 'memory'],
  ['7020', 'sheet', 'T6', 0, 12.5, 280, 350, 205, 280, 0.73, 0.8, 'memory'],
];

/**
 * EN 1999-1-1:2007 table 3.2, the rows known here. HAZ values are for MIG welds up to 15 mm; `hazKnockDown` applies
 * the further factors.
 */
export const KNOCK_DOWN_TABLE: readonly KnockDownRow[] = CELLS.map(
  ([
    alloy,
    form,
    temper,
    overMm,
    upToMm,
    proofMPa,
    ultimateMPa,
    proofHazMPa,
    ultimateHazMPa,
    rhoProof,
    rhoUltimate,
    known,
  ]) => ({
    alloy,
    form,
    temper,
    overMm,
    upToMm,
    proofMPa,
    ultimateMPa,
    proofHazMPa,
    ultimateHazMPa,
    rhoProof,
    rhoUltimate,
    known,
  }),
);
