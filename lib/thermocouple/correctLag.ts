import { median } from 'simple-statistics';
import { checkHistory, type Stretch, stretches, type ThermalHistory, thermalHistory } from '../history';
import { requireNumber, TemperbookError } from '../quantity';

/** A lagging sensor and how its slope is taken. */
export interface LagOptions {
  /** Time constant τ of the sensor where it sat, s: sheathed or in air, and known. */
  readonly timeConstantS: number;
  /** The slope is fitted over this many readings before and after each one; default 2, so five in all. */
  readonly halfWindow?: number;
}

/** A history freed of a sensor's lag, beside what it was. */
export interface LagCorrection {
  readonly history: ThermalHistory;
  readonly rawPeakC: number;
  readonly peakC: number;
  /** How much more the corrected readings scatter than the raw ones. */
  readonly noiseGain: number;
  /** Readings within half a window of an end or a gap, left as read. */
  readonly leftAsRead: number;
  readonly notes: readonly string[];
}

/** Gain of noise that ends the use of a correction: that of plain differences at τ = 5 Δt. */
const GREATEST_GAIN = Math.sqrt(1 + 25 / 2);
/** A step of the display's last digit may shift a corrected reading by no more than this, °C. */
const GREATEST_DIGIT_SHIFT_C = 2;
/** This many equal readings at the very top, reached by a jump of this many last digits, are a clamped channel. */
const CLAMPED_READINGS = 4;
const CLAMPED_JUMP = 3;

/**
 * Corrects a history for the first-order lag of its sensor: τ dT_i/dt + T_i = T_t, so T_t = T_i + τ dT_i/dt, with the
 * slope by least squares over 2m + 1 readings. On a steady ramp of β K/s a lagging reading is low by β τ.
 *
 * Only for a sheathed or air-coupled sensor whose τ is known where it sat: a wire welded to aluminium answers
 * in milliseconds and must not be corrected, and a maker's figure in water is not that of a clamped probe.
 * The scatter of the readings grows by √(1 + 3 τ²/(m (m+1) (2m+1) Δt²)). Gaps stay; m readings at the ends of
 * every recorded stretch are left as read and counted.
 *
 * Source: elementary; gain of a least-squares slope after Savitzky and Golay.
 * @throws TemperbookError when the correction would mostly amplify noise (gain above 3.67: the window is too
 * narrow), when readings are too coarse for τ, when the top of the trace is clamped, or when no stretch is
 * as long as the window.
 * @example lagNoiseGain(5, 1, 1) // 3.67
 */
export function correctLag(history: ThermalHistory, options: LagOptions): LagCorrection {
  checkHistory(history);
  const { timeS, tempC, gapAfter } = history;
  const tauS = requireNumber(options.timeConstantS, 'Time constant of the sensor in s', {
    low: Number.MIN_VALUE,
  });
  const m = requireNumber(options.halfWindow ?? 2, 'Half window of the slope in readings', {
    low: 1,
    high: 1000,
  });
  if (!Number.isInteger(m))
    throw new TemperbookError('The half window counts readings', {
      found: `${m}`,
      expected: 'a whole number',
    });
  const parts = stretches(history).filter(({ first, last }) => last - first >= 2 * m);
  if (parts.length === 0)
    throw new TemperbookError('No recorded stretch is long enough to take a slope', {
      found: `${timeS.length} readings`,
      expected: `at least ${2 * m + 1} readings in a row without a gap`,
    });
  const intervalS = median(Array.from(timeS.subarray(1), (t, i) => t - timeS[i]!));
  const noiseGain = lagNoiseGain(tauS, intervalS, m);
  refuseNoise(noiseGain, tauS, intervalS, m);
  const digitC = lastDigit(tempC);
  refuseCoarseReadings(digitC, tauS, intervalS, m);
  refuseClampedTop(tempC, digitC);
  const corrected = tempC.slice();
  for (const part of parts) correctStretch(history, part, tauS, m, corrected);
  const changed = parts.reduce((sum, { first, last }) => sum + last - first + 1 - 2 * m, 0);
  return {
    history: thermalHistory(timeS, corrected, gapAfter),
    rawPeakC: highest(tempC),
    peakC: highest(corrected),
    noiseGain,
    leftAsRead: timeS.length - changed,
    notes: [
      `Corrected for a sensor lag of ${tauS} s with the slope over ${2 * m + 1} readings; scatter grows ${noiseGain.toFixed(1)} times`,
      `${timeS.length - changed} readings beside ends and gaps are left as read`,
    ],
  };
}

/** Factor by which white noise of the readings grows in `correctLag`; s, s, readings. */
export function lagNoiseGain(timeConstantS: number, intervalS: number, halfWindow: number): number {
  const m = halfWindow;
  return Math.sqrt(1 + (3 * (timeConstantS / intervalS) ** 2) / (m * (m + 1) * (2 * m + 1)));
}

function correctStretch(
  { timeS, tempC }: ThermalHistory,
  { first, last }: Stretch,
  tauS: number,
  m: number,
  corrected: Float64Array,
): void {
  for (let i = first + m; i <= last - m; i++) {
    let meanS = 0;
    let meanC = 0;
    for (let k = i - m; k <= i + m; k++) {
      meanS += (timeS[k]! - timeS[i]!) / (2 * m + 1);
      meanC += (tempC[k]! - tempC[i]!) / (2 * m + 1);
    }
    let spread = 0;
    let product = 0;
    for (let k = i - m; k <= i + m; k++) {
      const offS = timeS[k]! - timeS[i]! - meanS;
      spread += offS * offS;
      product += offS * (tempC[k]! - tempC[i]! - meanC);
    }
    corrected[i] = tempC[i]! + (tauS * product) / spread;
  }
}

function refuseNoise(gain: number, tauS: number, intervalS: number, m: number): void {
  if (gain <= GREATEST_GAIN * (1 + 1e-12)) return;
  let needed = m;
  while (lagNoiseGain(tauS, intervalS, needed) > GREATEST_GAIN) needed++;
  throw new TemperbookError('This lag correction would mostly amplify noise', {
    found: `a time constant of ${tauS} s with readings every ${intervalS} s: scatter grows ${gain.toFixed(1)} times`,
    expected: `at most ${GREATEST_GAIN.toFixed(2)} times`,
    remedy: `Take the slope over more readings: a half window of ${needed}`,
  });
}

/** One step of the last digit in the middle of a window tilts its slope by 1.5 q/((2m + 1) Δt). */
function refuseCoarseReadings(digitC: number, tauS: number, intervalS: number, m: number): void {
  const shiftC = (1.5 * digitC * tauS) / ((2 * m + 1) * intervalS);
  if (shiftC > GREATEST_DIGIT_SHIFT_C)
    throw new TemperbookError('The readings are too coarse for this lag correction', {
      found: `steps of ${Number(digitC.toPrecision(2))} °C, each of which would shift the result by ${shiftC.toFixed(1)} °C`,
      expected: `a shift of at most ${GREATEST_DIGIT_SHIFT_C} °C`,
      remedy: 'Take the slope over more readings, or leave the record as it is and widen its band',
    });
}

/** A top reached by more than the display's own step that then stands exactly still is a limit, not a peak. */
function refuseClampedTop(tempC: Float64Array, digitC: number): void {
  const topC = highest(tempC);
  const start = tempC.indexOf(topC);
  let end = start;
  while (tempC[end + 1] === topC) end++;
  const readings = end - start + 1;
  if (start === 0 || readings < CLAMPED_READINGS || topC - tempC[start - 1]! < CLAMPED_JUMP * digitC) return;
  throw new TemperbookError("The top of this trace is clamped, so its slope there is not the sensor's", {
    found: `${readings} readings of exactly ${topC} °C`,
    remedy: 'Read the log again with a wider range, or mark these readings as a fault',
  });
}

/** The display's last digit: the smallest step between two readings, °C; 0 when they never change. */
function lastDigit(tempC: Float64Array): number {
  let digitC = Number.POSITIVE_INFINITY;
  for (let i = 1; i < tempC.length; i++) {
    const step = Math.abs(tempC[i]! - tempC[i - 1]!);
    if (step > 0 && step < digitC) digitC = step;
  }
  return digitC === Number.POSITIVE_INFINITY ? 0 : digitC;
}

function highest(values: Float64Array): number {
  let top = values[0]!;
  for (const value of values) if (value > top) top = value;
  return top;
}
