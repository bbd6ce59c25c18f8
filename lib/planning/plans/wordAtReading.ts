import { requireNumber } from '../../quantity';
import type { StopReading } from './stopReading';

/** What to do at a reading. */
export type StopWord = 'go on' | 'nearly' | 'stop';
/** Within this much below the reading to stop at, K, one gets ready. */
const NEARLY_K = 15;

/** What a reading of the watched probe asks for: for the bench, and for a program that watches a log as it grows. */
export function wordAtReading({ stopC }: Pick<StopReading, 'stopC'>, readingC: number): StopWord {
  requireNumber(readingC, 'The reading in °C');
  if (readingC >= stopC.low) return 'stop';
  return readingC >= stopC.low - NEARLY_K ? 'nearly' : 'go on';
}
