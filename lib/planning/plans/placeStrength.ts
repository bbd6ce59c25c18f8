import path from 'node:path';
import type { Exposure } from '../../exposure';
import { inWorkers } from '../../quantity';
import { type Metal, strengthAfter } from '../../strength';

/** A place of a plan whose strength is asked for. */
export interface PlaceStrengthJob {
  readonly exposure: Exposure;
  readonly metal: Metal;
  readonly draws: number;
  readonly allowanceFraction: number;
}

/** What a plan needs of `strengthAfter`, small enough to pass between threads. */
export interface PlaceStrength {
  readonly yieldKept: Float64Array;
  readonly startYieldMPa: Float64Array;
  readonly because: readonly string[];
}

/** The strength of one place: `strengthAfter`; also what a worker calls. */
export function placeStrength({
  exposure,
  metal,
  draws,
  allowanceFraction,
}: PlaceStrengthJob): PlaceStrength {
  const after = strengthAfter(exposure, metal, { draws, allowanceFraction, endOnly: true });
  const { yieldKept, startYieldMPa } = after.draws;
  return { yieldKept, startYieldMPa, because: after.because };
}

/** The strength of many places, on several threads where that is possible. */
export function placeStrengths(
  jobs: readonly PlaceStrengthJob[],
  options: { readonly workers?: number | undefined; readonly onDone?: (share: number) => void },
): PlaceStrength[] {
  return inWorkers(
    { modulePath: path.join(__dirname, 'placeStrength'), name: 'placeStrength' },
    placeStrength,
    jobs,
    options,
  );
}
