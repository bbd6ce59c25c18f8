import { type AlloyCard, loadAlloy } from '../../../alloy';
import { type ThermalHistory, thermalHistory } from '../../../history';
import { GAS_CONSTANT, ZERO_C_IN_K } from '../../../quantity';
import { censoredResidual } from '../../../statistics';
import { type EvidenceRow, evidenceHistory } from '../../evidence';
import { AT_THE_END, advanceMetal } from '../advanceMetal';
import type { MemberDraw } from '../memberDraw';
import { metalConstants } from '../metalConstants';
import { metalOf, type NamedTemper, namedTemper } from '../metalOf';
import { startOfMetal } from '../startOfMetal';
import { outcomeOfMetal } from '../yieldOfState';

/** A row made ready for many predictions. */
export interface ReadyRow {
  readonly row: EvidenceRow;
  readonly card: AlloyCard;
  readonly temper: NamedTemper;
  /** What was done; of a peak every soak that was tried, or one with a sample for each of its times. */
  readonly histories: readonly ThermalHistory[];
  readonly startYieldMPa: number | undefined;
}

/** Alloys without a card that the rows speak of, and the card they are read with. */
const STAND_IN: Readonly<Record<string, string>> = { '6005A': '6061', '6013': '6061', '6016': '6063' };

/** A peak is looked for between these parts of the measured time, in so many steps of its logarithm. */
const PEAK_SEARCH = { from: 1 / 12, to: 12, steps: 20 };
/** Temperatures of an isochronal series, °C, and the energy that turns a shift of its peak into one of time, J/mol. */
const ISOCHRONES = { fromC: 160, toC: 330, stepC: 10 };
const ISOCHRONAL_J_PER_MOL = 130_000;

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
    histories: historiesOf(row),
    startYieldMPa: row.startYieldMPa ?? typical,
  };
}

function historiesOf({ id, exposure, measured }: EvidenceRow): readonly ThermalHistory[] {
  if (measured.kind !== 'peak') return [evidenceHistory(exposure)];
  const before = exposure.slice(0, -1);
  const soak = exposure[exposure.length - 1];
  if (soak === undefined || 'weldCycle' in soak) throw new Error(`A peak is that of a soak: ${id}`);
  const { fromC, toC, stepC } = ISOCHRONES;
  return measured.along === 'temperature'
    ? Array.from({ length: (toC - fromC) / stepC + 1 }, (_, k) =>
        evidenceHistory([...before, { ...soak, tempC: fromC + k * stepC }]),
      )
    : [peakSearch(before, soak)];
}

function peakSearch(
  before: EvidenceRow['exposure'],
  { tempC, timeS }: { readonly tempC: number; readonly timeS: number },
): ThermalHistory {
  const { from, to, steps } = PEAK_SEARCH;
  const earlier = before.length > 0 ? evidenceHistory(before) : thermalHistory([0], [tempC]);
  const startS = earlier.timeS[earlier.timeS.length - 1]!;
  const times = Array.from(
    { length: steps + 1 },
    (_, k) => startS + timeS * from * (to / from) ** (k / steps),
  );
  return thermalHistory([...earlier.timeS, ...times], [...earlier.tempC, ...times.map(() => tempC)]);
}

/** What a draw says of a row, in the row's unit; of a peak its time over the measured one. */
export function predictRow(
  draw: MemberDraw,
  { row, card, temper, histories, startYieldMPa }: ReadyRow,
  lotClockLn: number | undefined,
): number {
  const metal = metalOf(draw, card, temper, { lotClockLn, startYieldMPa });
  const start = startOfMetal(metal);
  if (row.measured.along === 'temperature')
    return isochronalPeak(
      row,
      histories.map((history) => lastOf(advanceMetal(metal, start, history, AT_THE_END).yieldKept)),
    );
  const isPeak = row.measured.kind === 'peak';
  const { state, yieldKept } = advanceMetal(metal, start, histories[0]!, isPeak ? undefined : AT_THE_END);
  if (row.property === 'ultimate') return outcomeOfMetal(metal, state, start).ultimateKept ?? Number.NaN;
  if (isPeak) return peakTime(yieldKept);
  const kept = lastOf(yieldKept);
  return row.unit === 'fraction' ? kept : kept * metal.startYieldMPa;
}

const lastOf = (values: Float64Array): number => values[values.length - 1]!;

/** Time of the highest of the searched yields, the last of a history, over the measured time. */
function peakTime(yieldKept: Float64Array): number {
  const { from, to, steps } = PEAK_SEARCH;
  const place = topOf(yieldKept.subarray(yieldKept.length - steps - 1));
  return from * (to / from) ** (place / steps);
}

/** By which factor in time the temperature of the strongest of a series is off the measured one; above 1: too slow. */
function isochronalPeak({ exposure }: EvidenceRow, yields: readonly number[]): number {
  const { fromC, stepC } = ISOCHRONES;
  const predictedK = fromC + topOf(yields) * stepC + ZERO_C_IN_K;
  const measuredK = (exposure[exposure.length - 1] as { readonly tempC: number }).tempC + ZERO_C_IN_K;
  return Math.exp((ISOCHRONAL_J_PER_MOL / GAS_CONSTANT) * (1 / measuredK - 1 / predictedK));
}

/** Place of the highest value, between the steps by a parabola. */
function topOf(values: ArrayLike<number>): number {
  let top = 0;
  for (let k = 1; k < values.length; k++) if (values[k]! > values[top]!) top = k;
  if (top === 0 || top === values.length - 1) return top;
  const [before, at, after] = [values[top - 1]!, values[top]!, values[top + 1]!];
  const bend = before - 2 * at + after;
  return bend < 0 ? top + (before - after) / (2 * bend) : top;
}

/** Standard error of a row; what is recalled counts with twice its own. */
export const rowStandardError = ({ row: { measured, known } }: ReadyRow): number =>
  measured.standardError * (known === 'memory' ? 2 : 1);

/**
 * What the scatter between lots in the time of ageing makes of a row, in its unit, of a peak in ln t: half of what a draw
 * says of clocks one standard deviation late and early.
 */
export function ageingErrorOf(ready: ReadyRow, draw: MemberDraw): number {
  const scatter = metalConstants().ageingLotScatterLn.value;
  if (ready.row.measured.kind === 'peak') return scatter;
  const at = (score: number): number =>
    predictRow({ ...draw, ageingWrought: score, ageingCast: score }, ready, undefined);
  return Math.abs(at(1) - at(-1)) / 2;
}

/** Measured less predicted in standard errors, grown by `more`; see `censoredResidual`. */
export function rowResidual(ready: ReadyRow, predicted: number, more: number): number {
  const { measured } = ready.row;
  const error = Math.hypot(rowStandardError(ready), more);
  if (measured.kind === 'peak') return -Math.log(predicted) / error;
  return censoredResidual(predicted, measured.kind, measured.value, error);
}
