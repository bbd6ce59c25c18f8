import { formatPercent, type Judged, judged, requireNumber, TemperbookError } from '../quantity';
import { ARC_EFFICIENCY, acTigEfficiency, type WeldProcess } from './arcEfficiency';

/**
 * A band for the efficiency when the shop knows better than the table; a value fitted by `calibrateToLog` fits in
 * as it is.
 */
export type EfficiencyBand = Pick<Judged, 'nominal' | 'low' | 'high' | 'because'>;

/** Arc power: what the meters show, or the instrument's true power for AC and pulsed current. One of the two. */
export type ArcReading =
  | { readonly amps: number; readonly volts: number; readonly arcPowerW?: never }
  /** Mean of instantaneous volts times amps, W. */
  | { readonly arcPowerW: number; readonly amps?: never; readonly volts?: never };

/** Speed: set directly, or from the time the arc burned over a length. One of the two. */
export type TravelReading =
  | { readonly travelMmPerS: number; readonly arcOnS?: never; readonly lengthMm?: never }
  | { readonly arcOnS: number; readonly lengthMm: number; readonly travelMmPerS?: never };

/** What a welder knows of a pass. */
export type WeldReading = ArcReading &
  TravelReading & {
    readonly process: WeldProcess;
    /** AC TIG only: share of the cycle with the electrode negative, 0.3…1. */
    readonly acBalance?: number;
    readonly efficiency?: EfficiencyBand;
  };

/** Heat of one pass. Efficiency, and with it everything net, is always a band. */
export interface HeatInput {
  readonly arcPowerW: number;
  readonly travelMmPerS: number;
  /** Before efficiency, J/mm: what ISO/TR 18491 calls arc energy. */
  readonly arcEnergyJPerMm: number;
  readonly efficiency: Judged;
  /** Enters the part, W. */
  readonly netPowerW: Judged;
  /** Enters the part per length, J/mm. */
  readonly netHeatJPerMm: Judged;
}

/**
 * Heat input of a pass: Q = k U I / v, J/mm with V, A and mm/s.
 *
 * Volts times amps of two meters is right for steady DC. For pulsed current and AC it can be far off: give
 * `arcPowerW` from an instrument that multiplies before it averages (ISO/TR 18491 methods B and C).
 *
 * Source: EN 1011-1 and ISO/TR 17671-1 for k and the formula. Worked example: TIG AC, 150 A, 14 V, 3 mm/s: arc
 * energy 700 J/mm, net 420 J/mm, between 280 and 525.
 * @throws TemperbookError for an unknown process, zero travel or arc-on time, readings no welding set gives or that
 * are given twice, an efficiency outside its own band, or a balance for a process without one.
 */
export function heatInput(reading: WeldReading): HeatInput {
  const arcPowerW = arcPower(reading);
  const travelMmPerS = travelSpeed(reading);
  const efficiency = efficiencyOf(reading);
  const arcEnergyJPerMm = arcPowerW / travelMmPerS;
  const scaled = (factor: number, unit: string): Judged =>
    judged(
      efficiency.nominal * factor,
      [efficiency.low * factor, efficiency.high * factor],
      unit,
      efficiency.because,
    );
  return {
    arcPowerW,
    travelMmPerS,
    arcEnergyJPerMm,
    efficiency,
    netPowerW: scaled(arcPowerW, 'W'),
    netHeatJPerMm: scaled(arcEnergyJPerMm, 'J/mm'),
  };
}

function arcPower({ amps, volts, arcPowerW }: ArcReading): number {
  if (arcPowerW === undefined)
    return (
      requireNumber(amps, 'The welding current in A', { low: 0.5, high: 2000 }) *
      requireNumber(volts, 'The arc voltage in V', { low: 5, high: 60 })
    );
  if (amps !== undefined || volts !== undefined)
    throw new TemperbookError('The arc power is given twice', {
      found: `${arcPowerW} W beside ${amps} A and ${volts} V`,
      remedy: 'Give arcPowerW when an instrument showed it, else amps and volts',
    });
  return requireNumber(arcPowerW, 'The arc power in W', { low: 1, high: 200_000 });
}

function travelSpeed({ travelMmPerS, arcOnS, lengthMm }: TravelReading): number {
  if (travelMmPerS !== undefined && (arcOnS !== undefined || lengthMm !== undefined))
    throw new TemperbookError('The travel speed is given twice', {
      found: `${travelMmPerS} mm/s beside ${lengthMm} mm in ${arcOnS} s`,
      remedy: 'Give travelMmPerS, or arcOnS and lengthMm',
    });
  const speed =
    travelMmPerS ??
    requireNumber(lengthMm, 'The weld length in mm', { low: 0 }) /
      requireNumber(arcOnS, 'The arc-on time in s', { low: Number.MIN_VALUE });
  if (speed > 0 && speed <= 1000) return speed;
  throw new TemperbookError('The travel speed is not usable', {
    found: `${speed} mm/s`,
    expected: 'above 0 and up to 1000 mm/s',
    remedy: 'Give the speed in mm/s, or the arc-on time in s with the weld length in mm',
  });
}

function efficiencyOf({ process, acBalance, efficiency }: WeldReading): Judged {
  if (!Object.hasOwn(ARC_EFFICIENCY, process))
    throw new TemperbookError('The welding process is not known', {
      found: String(process),
      expected: `one of ${Object.keys(ARC_EFFICIENCY).join(', ')}`,
    });
  if (acBalance !== undefined && process !== 'TIG AC')
    throw new TemperbookError(`An AC balance means nothing for ${process}`, {
      remedy: "Say process: 'TIG AC', or leave the balance out",
    });
  if (efficiency) {
    const { nominal, low, high, because } = efficiency;
    for (const value of [nominal, low, high])
      requireNumber(value, 'The arc efficiency', { low: 0.05, high: 1 });
    if (!(low < high))
      throw new TemperbookError('Arc efficiency is never known exactly: give a band', {
        found: `${low} to ${high}`,
        expected: 'low below high',
      });
    requireNumber(nominal, 'The arc efficiency within its own band', { low, high });
    return judged(nominal, [low, high], '1', because);
  }
  const { value, low, high, source, note } =
    acBalance === undefined ? ARC_EFFICIENCY[process] : acTigEfficiency(acBalance);
  return judged(value, [low, high], '1', [
    `Efficiency of ${process} taken as ${formatPercent(value)}, between ${formatPercent(low)} and ${formatPercent(high)} (${source}).`,
    ...(note ? [note] : []),
  ]);
}
