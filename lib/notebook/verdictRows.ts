import type { Verdict } from '../decision';
import { formatDuration, formatPercent, formatTemp } from '../quantity';
import type { TableRow } from './table';

/** The short table of a verdict, one row per probe: for `showTable`, `exportTable` or `tableText`. */
export function verdictRows(verdict: Verdict): TableRow[] {
  return verdict.channels.map(({ name, peakC, limits, yieldKeptFraction, verdict: word }) => ({
    Probe: name,
    Peak: formatTemp(peakC.nominal),
    ...Object.fromEntries(
      limits.map((limit) => [`Above ${formatTemp(limit.limitC)}`, formatDuration(limit.timeAboveS.nominal)]),
    ),
    'Strength kept': formatPercent(yieldKeptFraction.nominal),
    'could be': `${formatPercent(yieldKeptFraction.low)} to ${formatPercent(yieldKeptFraction.high)}`,
    Temper: word,
  }));
}
