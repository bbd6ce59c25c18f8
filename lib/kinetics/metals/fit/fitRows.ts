import { type AlloyCard, loadAlloy } from '../../../alloy';
import { type ThermalHistory, thermalHistory } from '../../../history';
import { censoredResidual } from '../../../statistics';
import { type EvidenceRow, evidenceHistory } from '../../evidence';
import { advanceMetal } from '../advanceMetal';
import type { MemberDraw } from '../memberDraw';
import { metalOf, type NamedTemper, namedTemper } from '../metalOf';
import { startOfMetal } from '../startOfMetal';
import { outcomeOfMetal } from '../yieldOfState';

/** A row made ready for many predictions. */
export interface ReadyRow {
  readonly row: EvidenceRow;
  readonly card: AlloyCard;
  readonly temper: NamedTemper;
  readonly history: ThermalHistory;
  readonly startYieldMPa: number | undefined;
}

/** Alloys without a card that the rows speak of, and the card they are read with. */
const STAND_IN: Readonly<Record<string, string>> = { '6005A': '6061', '6013': '6061', '6016': '6063' };

/** A peak is looked for between these parts of the measured time, in so many steps of its logarithm. */
const PEAK_SEARCH = { from: 1 / 12, to: 12, steps: 20 };

/** A row of evidence with its history and metal worked out once. */
export function readyRow(row: EvidenceRow): ReadyRow {
  const name = row.alloys[0]!;
  const card = loadAlloy(STAND_IN[name] ?? name);
  const temper = namedTemper(card, row.temper);
  const typical = temper.entry?.yieldMPa.value;
  return {
    row,
    card,
    temper,
    history: row.measured.kind === 'peak' ? peakSearch(row) : evidenceHistory(row.exposure),
    startYieldMPa: row.startYieldMPa ?? typical,
  };
}

function peakSearch({ id, exposure }: EvidenceRow): ThermalHistory {
  const soak = exposure[exposure.length - 1];
  if (exposure.length !== 1 || soak === undefined || 'weldCycle' in soak)
    throw new Error(`A peak is one soak: ${id}`);
  const { from, to, steps } = PEAK_SEARCH;
  const times = Array.from({ length: steps + 1 }, (_, k) => soak.timeS * from * (to / from) ** (k / steps));
  return thermalHistory([0, ...times], [soak.tempC, ...times.map(() => soak.tempC)]);
}

/** What a draw says of a row, in the row's unit; of a peak its time over the measured one. */
export function predictRow(
  draw: MemberDraw,
  { row, card, temper, history, startYieldMPa }: ReadyRow,
  lotClockLn: number | undefined,
): number {
  const metal = metalOf(draw, card, temper, { lotClockLn, startYieldMPa });
  const start = startOfMetal(metal);
  const { state, yieldKept } = advanceMetal(metal, start, history);
  if (row.property === 'ultimate') return outcomeOfMetal(metal, state, start).ultimateKept ?? Number.NaN;
  if (row.measured.kind === 'peak') return peakTime(yieldKept);
  const kept = yieldKept[yieldKept.length - 1]!;
  return row.unit === 'fraction' ? kept : kept * metal.startYieldMPa;
}

/** Time of the highest of the searched yields over the measured time, by a parabola in ln time. */
function peakTime(yields: Float64Array): number {
  let top = 1;
  for (let k = 1; k < yields.length; k++) if (yields[k]! > yields[top]!) top = k;
  const { from, to, steps } = PEAK_SEARCH;
  let place = top - 1;
  if (top > 1 && top < yields.length - 1) {
    const [before, at, after] = [yields[top - 1]!, yields[top]!, yields[top + 1]!];
    const bend = before - 2 * at + after;
    if (bend < 0) place += (before - after) / (2 * bend);
  }
  return from * (to / from) ** (place / steps);
}

/** Standard error of a row; what is recalled counts with twice its own. */
export const rowStandardError = ({ row: { measured, known } }: ReadyRow): number =>
  measured.standardError * (known === 'memory' ? 2 : 1);

/** Measured less predicted in standard errors; see `censoredResidual`. */
export function rowResidual(ready: ReadyRow, predicted: number): number {
  const { measured } = ready.row;
  const error = rowStandardError(ready);
  if (measured.kind === 'peak') return -Math.log(predicted) / error;
  return censoredResidual(predicted, measured.kind, measured.value, error);
}
