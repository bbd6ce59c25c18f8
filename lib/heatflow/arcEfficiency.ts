import { requireNumber, type Sourced } from '../quantity';

/** Welding processes with an efficiency in EN 1011-1; 'TIG AC' is TIG on aluminium with alternating current. */
export type WeldProcess = 'TIG' | 'TIG AC' | 'MIG' | 'MAG' | 'MMA' | 'FCAW' | 'SAW' | 'plasma';

const EN = 'EN 1011-1:2009 table 1';
const row = (value: number, low: number, high: number, known: Sourced['known'], note: string): Sourced => ({
  value,
  low,
  high,
  unit: '1',
  source: EN,
  known,
  note,
});

/**
 * Share of the arc power that enters the part. Values: thermal efficiency k of EN 1011-1. Bands: measurements where
 * one was found, judgement where none was. Efficiency is the largest unknown of any weld heat calculation.
 */
export const ARC_EFFICIENCY: Readonly<Record<WeldProcess, Sourced>> = {
  TIG: row(
    0.6,
    0.5,
    0.82,
    'seen',
    'Calorimetry of DC TIG: mean 0.78, plausible 0.73–0.82, extremes 0.36–0.90 (N. Stenbacka, Soldagem & Inspeção 18 (2013) no. 4); 0.67 on steel (J. N. DuPont & A. R. Marder, Welding Journal 74 (1995) 406s–416s). The lower edge is judgement.',
  ),
  'TIG AC': row(
    0.6,
    0.4,
    0.75,
    'seen',
    'AC TIG on aluminium is not settled: no measured figure was found, older textbook tables give 0.2–0.5 (from memory). The band is judgement; a logged cycle settles it.',
  ),
  MIG: row(
    0.8,
    0.7,
    0.88,
    'memory',
    'Calorimetry of consumable electrodes: mean 0.84 on steel (DuPont & Marder 1995). Edges are judgement.',
  ),
  MAG: row(0.8, 0.7, 0.88, 'seen', 'As MIG.'),
  MMA: row(0.8, 0.65, 0.85, 'seen', 'Band is judgement.'),
  FCAW: row(0.8, 0.7, 0.88, 'memory', 'As MIG.'),
  SAW: row(
    1,
    0.84,
    1,
    'seen',
    'Lower edge: consumable electrodes on steel, mean 0.84 (DuPont & Marder 1995).',
  ),
  plasma: row(0.6, 0.45, 0.75, 'memory', 'Lower edge: 0.47 on steel (DuPont & Marder 1995, from memory).'),
};

/**
 * Efficiency of AC TIG for a balance: share of each cycle with the electrode negative, 0.3–1.
 *
 * No published law was found. Judgement: the edges of the band slide between those of pure electrode negative
 * (0.50–0.82) and those of the older AC figures for electrode positive (0.20–0.60); at 0.66, a usual setting, that
 * is the band of `ARC_EFFICIENCY`. The nominal value stays EN 1011-1's 0.6.
 */
export function acTigEfficiency(electrodeNegativeShare: number): Sourced {
  const b = requireNumber(electrodeNegativeShare, 'acBalance, the electrode-negative share of the cycle', {
    low: 0.3,
    high: 1,
  });
  return {
    ...ARC_EFFICIENCY['TIG AC'],
    low: 0.5 * b + 0.2 * (1 - b),
    high: 0.82 * b + 0.6 * (1 - b),
    note: `Band slid with the balance of ${Math.round(b * 100)} % electrode negative, by judgement: no measured law was found.`,
  };
}
