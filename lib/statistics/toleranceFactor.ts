import { requireNumber, TemperbookError } from '../quantity';
import { normalQuantile } from './normalDistribution';
import { tQuantile } from './studentT';

/** What a tolerance limit promises. */
export interface TolerancePromise {
  /** Number of readings the mean and the standard deviation come from. */
  readonly readings: number;
  /** Share of all parts on the safe side of the limit, e.g. 0.9. */
  readonly content: number;
  /** How sure, e.g. 0.95. */
  readonly confidence: number;
}

/**
 * One-sided tolerance factor k of a normal population: with the stated confidence, at least the share `content` of
 * all parts lies above mean − k s. k = t_{γ; n−1, z_p √n}/√n, the exact noncentral t, within 1e-9.
 * Source: Natrella, NBS Handbook 91 (1963); ISO 16269-6.
 * @throws TemperbookError on fewer than 2 readings, or a content or confidence outside 0.5 to 0.999.
 * @example toleranceFactor({ readings: 10, content: 0.9, confidence: 0.95 }) // 2.355
 */
export function toleranceFactor({ readings, content, confidence }: TolerancePromise): number {
  requireNumber(readings, 'Number of readings', { low: 2, high: 1e6 });
  if (!Number.isInteger(readings))
    throw new TemperbookError('Readings are counted in whole numbers', { found: String(readings) });
  requireNumber(content, 'Share of parts', { low: 0.5, high: 0.999 });
  requireNumber(confidence, 'Confidence', { low: 0.5, high: 0.999 });
  const root = Math.sqrt(readings);
  return tQuantile(confidence, readings - 1, normalQuantile(content) * root) / root;
}
