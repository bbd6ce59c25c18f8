import type { Judged } from '../quantity';

/** What one model says about one channel, and whether it was the one to decide. */
export interface ModelLine {
  readonly model: string;
  /** Absent when the model was left out. */
  readonly yieldKeptFraction?: Judged;
  readonly governs: boolean;
  /** Why it governs, why it only informs, or why it was left out. */
  readonly reason: string;
}
