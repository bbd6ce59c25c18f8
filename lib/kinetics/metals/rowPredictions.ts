import { normalQuantile } from '../../statistics';
import type { EvidenceRow } from '../evidence';
import { HANDBOOK_CLOCK_SD, HANDBOOK_LOT } from './fit/fitPriors';
import { predictRow, readyRow, rowStandardError } from './fit/fitRows';
import { memberDraws } from './memberTable';
import type { MetalFamily } from './plausibleMetal';

/** What the members say of one row of evidence, in the row's unit. */
export interface RowPrediction {
  readonly median: number;
  /** 5 and 95 % of the metal itself, a lot the fit has not seen. */
  readonly low: number;
  readonly high: number;
  /** 5 and 95 % of what would be measured: with the row's own standard error. */
  readonly measuredLow: number;
  readonly measuredHigh: number;
}

/**
 * Predicts a row of evidence as the kit would a part it knows as much about: alloy, temper and yield before, and
 * nothing of the lot; the handbook's composite has the clock of the population, within its own doubt.
 * @param options `family`: only one of the two families of the short range; `count`: members asked, 400 by default.
 * @returns `null` where the members do not know the property: ultimate strength of castings.
 */
export function rowPrediction(
  row: EvidenceRow,
  { count = 400, family }: { readonly count?: number; readonly family?: MetalFamily } = {},
): RowPrediction | null {
  const ready = readyRow(row);
  if (row.property === 'ultimate' && ready.card.family === 'Al-Si-Mg casting') return null;
  const values: number[] = [];
  for (const draw of memberDraws()) {
    if (values.length === count) break;
    if (family !== undefined && (draw.delayed ? 'delayed' : 'curve') !== family) continue;
    const lotClockLn = row.lot === HANDBOOK_LOT ? HANDBOOK_CLOCK_SD * draw.lotWrought : undefined;
    values.push(predictRow(draw, ready, lotClockLn));
  }
  values.sort((a, b) => a - b);
  const error = rowStandardError(ready);
  const relative = row.measured.kind === 'peak';
  const width = (value: number): number => (relative ? value * error : error);
  const [low, median, high] = [0.05, 0.5, 0.95].map((p) => values[Math.floor(p * (values.length - 1))]!) as [
    number,
    number,
    number,
  ];
  const z = normalQuantile(0.95);
  return {
    median,
    low,
    high,
    measuredLow: median - Math.hypot(median - low, z * width(median)),
    measuredHigh: median + Math.hypot(high - median, z * width(median)),
  };
}
