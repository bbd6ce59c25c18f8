import type { ThermalHistory } from '../../../history';
import type { PrecipitateState } from '../precipitateState';

/** What is kept of each history of a batch: where it ends. */
export interface HistoryEnd {
  readonly state: PrecipitateState;
  readonly yieldMPa: number;
  readonly yieldKeptFraction: number;
  readonly stepErrorMPa: number;
}

/** What a thread of `advanceMany` is given and what it answers. */
export interface ManyTask {
  readonly index: number;
  readonly history: ThermalHistory;
}
/** Where a history ended, or why it could not be advanced. */
export type ManyReply =
  | { readonly index: number; readonly end: HistoryEnd; readonly failure?: undefined }
  | { readonly index: number; readonly failure: string };
