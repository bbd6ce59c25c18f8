import type { Verdict } from '../../decision';
import { TemperbookError } from '../../quantity';
import type { RecordedVerdict } from '../decisionRecord';
import { recordedExposure } from './recordedExposure';
import { recordedLot } from './recordedLot';

/** A verdict without its long arrays, and with what its metal saw made small enough to keep. */
export function recordedVerdict({ lots, ...verdict }: Verdict): RecordedVerdict {
  return {
    ...verdict,
    ...(lots ? { lots: lots.map(recordedLot) } : {}),
    channels: verdict.channels.map(({ track: _, exposure, earlier, ...channel }) => ({
      ...channel,
      exposure: recordedExposure(exposure),
      earlier: earlier.map(recordedExposure),
    })),
  };
}

/** A value through JSON and back: exactly what a file will hold. @throws TemperbookError for a number that is not finite. */
export const asRecorded = <Value>(value: Value): Value => JSON.parse(JSON.stringify(value, recordedValue));

/**
 * Numbers to the digits they can mean: seven, and never coarser than a thousandth (of a second, a °C, a MPa). The digits
 * beyond are rounding, which differs from one version of Node to the next. JSON would turn a number that is not finite
 * into nothing at all, so that is refused.
 */
function recordedValue(key: string, value: unknown): unknown {
  if (typeof value !== 'number' || Number.isInteger(value)) return value;
  if (!Number.isFinite(value))
    throw new TemperbookError('A record cannot hold this number', {
      column: key,
      found: String(value),
      expected: 'a finite number',
    });
  return Number(Math.abs(value) < 10_000 ? value.toPrecision(7) : value.toFixed(3));
}
