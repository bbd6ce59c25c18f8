import { readFileSync } from 'node:fs';
import path from 'node:path';

/** A prediction with its band where the model had one. */
export interface FrozenBand {
  readonly nominal: number;
  readonly low?: number;
  readonly high?: number;
}

/** What the kit said of one row of evidence before its constants were fitted to the rows. */
export interface FrozenPrediction {
  readonly id: string;
  readonly alloy?: string;
  readonly model: (FrozenBand & { readonly name: string }) | null;
  /** The verdict for the same history as a record of unknown quality. */
  readonly judged?: FrozenBand | null;
  readonly why?: string;
}

/** The predictions and the ids of the rows held back, as written down before the fit: the mark to beat. */
export function frozenPredictions(): {
  readonly heldOut: readonly string[];
  readonly rows: readonly FrozenPrediction[];
} {
  const file = path.join(__dirname, '../../../data/published/frozenPredictions.json');
  return JSON.parse(readFileSync(file, 'utf8'));
}
