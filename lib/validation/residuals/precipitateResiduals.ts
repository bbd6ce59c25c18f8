import { isothermal, type ThermalHistory, thermalHistory } from '../../history';
import type { PrecipitateParameters } from '../../kinetics';
import {
  calibratedParameters,
  type PrecipitateModel,
  precipitateModel,
  publishedParameters,
} from '../../kinetics';
import { censoredResidual } from '../../statistics';
import { type PrecipitateRow, precipitateEvidence } from '../evidence/precipitateEvidence';

/** What one set of constants says of one measured fact. */
export interface RowPrediction {
  /** In the unit of the row; for a peak, model time over measured time. */
  readonly predicted: number;
  /** Measured minus predicted in standard errors; see `censoredResidual`. */
  readonly residual: number;
}

/** One measured fact beside both sets. */
export interface PrecipitateResidual {
  readonly row: PrecipitateRow;
  readonly published: RowPrediction;
  readonly calibrated: RowPrediction;
}

/** Seconds from one soak to the next in stepped rows: heating and cooling are not given. */
const CHANGE_S = 1;

/** Every measured fact against the published and the calibrated set, in one table. */
export function precipitateResiduals(): readonly PrecipitateResidual[] {
  const calibrated = calibratedParameters();
  return precipitateEvidence().map((row) => ({
    row,
    published: predictRow(row, publishedParameters),
    calibrated: predictRow(row, calibrated),
  }));
}

/** Prediction and residual of one fact. */
export function predictRow(row: PrecipitateRow, parameters: PrecipitateParameters): RowPrediction {
  const model = precipitateModel(row.alloy, { parameters });
  const { kind, measured, standardError } = row;
  if (kind === 'peak') {
    const { tempC, timeS } = row.exposure[row.exposure.length - 1]!;
    const predicted = peakTimeS(model, tempC) / timeS;
    return { predicted, residual: -Math.log(predicted) / standardError };
  }
  const start = model.start(row.from === 'quenched' ? { solutionTreated: true } : row.from);
  const end =
    row.exposure.length > 0 ? last(model.advance(start, soaks(row.exposure)).yieldMPa) : start.start.yieldMPa;
  const predicted = kind.startsWith('kept') ? end / start.start.yieldMPa : end;
  const side = /tLeast$/.test(kind) ? 'atLeast' : /elow$/.test(kind) ? 'below' : 'value';
  return { predicted, residual: censoredResidual(predicted, side, measured, standardError) };
}

function soaks(exposure: PrecipitateRow['exposure']): ThermalHistory {
  if (exposure.length === 1) return isothermal(exposure[0]!.tempC, exposure[0]!.timeS);
  const timeS: number[] = [];
  const tempC: number[] = [];
  let now = 0;
  for (const soak of exposure) {
    timeS.push(now, now + soak.timeS);
    tempC.push(soak.tempC, soak.tempC);
    now += soak.timeS + CHANGE_S;
  }
  return thermalHistory(timeS, tempC);
}

/** Time to the highest yield of a soak, s, between 5 minutes and 7 days, by a parabola in ln t. */
function peakTimeS(model: PrecipitateModel, tempC: number): number {
  const count = 160;
  const logS = Array.from({ length: count }, (_, i) => Math.log(300) + (Math.log(2000) * i) / (count - 1));
  const timeS = [0, ...logS.map(Math.exp)];
  const { yieldMPa } = model.advance(
    model.start({ solutionTreated: true }),
    thermalHistory(
      timeS,
      timeS.map(() => tempC),
    ),
  );
  let best = 1;
  for (let i = 2; i <= count; i++) if (yieldMPa[i]! > yieldMPa[best]!) best = i;
  if (best === 1 || best === count) return timeS[best]!;
  const [a, b, c] = [yieldMPa[best - 1]!, yieldMPa[best]!, yieldMPa[best + 1]!];
  const bend = a - 2 * b + c;
  const shift = bend < 0 ? (0.5 * (a - c)) / bend : 0;
  return Math.exp(logS[best - 1]! + shift * (logS[1]! - logS[0]!));
}

const last = (values: Float64Array): number => values[values.length - 1]!;
