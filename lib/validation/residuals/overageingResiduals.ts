import { type AlloyCard, findTemper } from '../../alloy';
import { equivalentTime } from '../../exposure';
import { isothermal } from '../../history';
import type { AlloyLike } from '../../kinetics';
import {
  keptLines,
  NO_DOSE,
  type OverageingDose,
  type OverageingShape,
  peakDoseS,
  resolveAlloy,
  temperCurve,
  yieldKept,
} from '../../kinetics';
import { censoredResidual } from '../../statistics';
import { type OverageingRow, overageingEvidence } from '../evidence/overageingEvidence';

/** One measured fact beside what the curve says of it. */
export interface OverageingResidual {
  readonly row: OverageingRow;
  /** The exposure as equivalent time at the alloy's reference temperature, nominal activation energy, s. */
  readonly doseS: number;
  /** Yield kept by the curve; for a peak, the peak's dose over the measured one. */
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
  /** Measured minus nominal in standard errors; see `censoredResidual` for tests that only give a side. */
  readonly residual: number;
  /** Whether `low` … `high` holds the measured value, or reaches to the right side of the bound. */
  readonly insideBand: boolean;
}

/** Every measured fact for an alloy against its card's curve, for figures, notebooks and tests. */
export function overageingResiduals(alloy: AlloyLike): readonly OverageingResidual[] {
  const card = resolveAlloy(alloy, 'over-ageing curve');
  return overageingEvidence(card.designation).map((row) => residualOf(card, row));
}

function residualOf(card: AlloyCard, row: OverageingRow): OverageingResidual {
  const { curve } = temperCurve(card, row.temper);
  const shape: OverageingShape = {
    gain: curve.gainFraction.value,
    riseS: curve.riseTimeS.value,
    softenS: curve.softenTimeS.value,
  };
  const dose = rowDose(card, row);
  const residual = rowResidual(card, row, shape);
  const { measured } = row;
  if (measured.kind === 'peak') {
    const nominal = peakDoseS(shape) / dose.nominal;
    const least = Math.min(dose.nominal, dose.lowEnergy, dose.highEnergy);
    const most = Math.max(dose.nominal, dose.lowEnergy, dose.highEnergy);
    const { low, value, high } = curve.riseTimeS;
    const band = {
      low: (nominal * dose.nominal * low) / (most * value),
      high: (nominal * dose.nominal * high) / (least * value),
    };
    return {
      row,
      doseS: dose.nominal,
      nominal,
      ...band,
      residual,
      insideBand: band.low <= 1 && 1 <= band.high,
    };
  }
  const kept = keptLines(card, row.temper, row.startYieldMPa ?? typicalYield(card, row.temper))(dose);
  const { kind, keptFraction } = measured;
  const insideBand =
    (kind === 'below' || kept.high >= keptFraction) && (kind === 'atLeast' || kept.low <= keptFraction);
  return { row, doseS: dose.nominal, ...kept, residual, insideBand };
}

/** Residual of one fact for a trial shape, in standard errors. */
export function rowResidual(card: AlloyCard, row: OverageingRow, shape: OverageingShape): number {
  const dose = rowDose(card, row).nominal;
  const { measured } = row;
  if (measured.kind === 'peak')
    return Math.log(dose / Math.max(peakDoseS(shape), 1)) / measured.standardError;
  const { curve } = temperCurve(card, row.temper);
  const start = row.startYieldMPa ?? typicalYield(card, row.temper);
  const kept = yieldKept(shape, curve.floorYieldMPa.value / start, curve.startDoseS.value)(dose);
  const { kind, keptFraction, standardError } = measured;
  return censoredResidual(kept, kind === 'kept' ? 'value' : kind, keptFraction, standardError);
}

/** A row's exposure on the three clocks; a peak is counted from T6, which has spent its own ageing already. */
export function rowDose(card: AlloyCard, { exposure, measured, temper }: OverageingRow): OverageingDose {
  const { activationEnergyJPerMol: q, referenceC } = card.overageing;
  const spent = measured.kind === 'peak' ? findTemper(card, temper).entry.ageing : undefined;
  const dose = (activationEnergyJPerMol: number): number => {
    const clock = { activationEnergyJPerMol, referenceC };
    const soaks = exposure.reduce((sum, s) => sum + equivalentTime(isothermal(s.tempC, s.timeS), clock), 0);
    const own = spent ? equivalentTime(isothermal(spent.tempC.value, spent.timeS.value), clock) : 0;
    return soaks - own;
  };
  return exposure.length === 0
    ? NO_DOSE
    : { nominal: dose(q.value), lowEnergy: dose(q.low), highEnergy: dose(q.high) };
}

const typicalYield = (card: AlloyCard, temper: string): number =>
  findTemper(card, temper).entry.yieldMPa.value;
