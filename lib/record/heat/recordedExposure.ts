import {
  type BlindTime,
  type Doubt,
  type DoubtKind,
  type Exposure,
  onOneClock,
  type Spread,
  type WeighableSign,
} from '../../exposure';
import { thermalHistory } from '../../history';
import { thinExposure } from './thinExposure';

/** An exposure as plain data, rounded and thinned: what a later verdict needs of this heat. */
export interface RecordedExposure {
  readonly timeS: readonly number[];
  readonly tempC: readonly number[];
  /** Samples after which nothing was recorded until the next. */
  readonly gapAfter: readonly number[];
  readonly doubts: readonly RecordedDoubt[];
  readonly blind: readonly BlindTime[];
  readonly because: readonly string[];
  /** Sticks and readings by hand; absent without any. */
  readonly seen?: readonly WeighableSign[];
}

/** A doubt as plain data: shifts with their spread, or equally likely ways it ran. */
export interface RecordedDoubt {
  readonly kind: DoubtKind;
  readonly of: string;
  readonly spread?: Spread;
  readonly shiftK?: readonly number[];
  readonly runsK?: readonly (readonly number[])[];
}

/** Samples an exposure keeps in a record: 7 numbers or so each, some 20 kB for a probe. */
const MOST_SAMPLES = 500;
/** Times to a millisecond, temperatures and shifts to a hundredth: far below what any thermocouple tells. */
const PER_SECOND = 1000;
const PER_KELVIN = 100;

/** An exposure made small enough for a record. */
export function recordedExposure(exposure: Exposure): RecordedExposure {
  const { history, doubts, blind, because, seen } = thinExposure(onOneClock(exposure), MOST_SAMPLES);
  return {
    timeS: roundedTimes(history.timeS),
    tempC: rounded(history.tempC),
    gapAfter: [...(history.gapAfter ?? [])],
    doubts: doubts.map(({ kind, of, ...doubt }) =>
      'runsK' in doubt
        ? { kind, of, runsK: doubt.runsK.map(rounded) }
        : { kind, of, spread: doubt.spread, shiftK: rounded(doubt.shiftK) },
    ),
    blind,
    because,
    ...(seen ? { seen } : {}),
  };
}

/** The exposure that a record holds, ready for `strengthAfter`. @throws TemperbookError where it cannot be one. */
export function restoredExposure(recorded: RecordedExposure): Exposure {
  const { timeS, tempC, gapAfter, doubts, blind, because, seen } = recorded;
  return {
    history: thermalHistory(Float64Array.from(timeS), Float64Array.from(tempC), gapAfter),
    doubts: doubts.map(
      ({ kind, of, spread, shiftK, runsK }): Doubt =>
        runsK
          ? { kind, of, runsK: runsK.map((run) => Float64Array.from(run)) }
          : { kind, of, spread: spread!, shiftK: Float64Array.from(shiftK!) },
    ),
    blind,
    because,
    ...(seen ? { seen } : {}),
  };
}

const rounded = (values: Float64Array): number[] =>
  Array.from(values, (value) => Math.round(value * PER_KELVIN) / PER_KELVIN);

/** Two samples a millisecond apart, where two histories meet, must not become one. */
function roundedTimes(timeS: Float64Array): number[] {
  let last = Number.NEGATIVE_INFINITY;
  return Array.from(timeS, (time) => {
    last = Math.max(Math.round(time * PER_SECOND), last + 1);
    return last / PER_SECOND;
  });
}
