import { parentPort, workerData } from 'node:worker_threads';
import type { ThermalHistory } from '../../history';
import type { AlloyLike, StartState } from '../temperModel';
import type { HistoryEnd } from './advanceMany';
import { type PrecipitateOptions, precipitateModel } from './precipitateModel';

/** What a thread of `advanceMany` is given and what it answers. */
export interface ManyTask {
  readonly index: number;
  readonly history: ThermalHistory;
}
/** Where a history ended, or why it could not be advanced. */
export type ManyReply =
  | { readonly index: number; readonly end: HistoryEnd; readonly failure?: undefined }
  | { readonly index: number; readonly failure: string };

const {
  alloy,
  from,
  model: options,
} = workerData as {
  readonly alloy: AlloyLike;
  readonly from: StartState;
  readonly model?: PrecipitateOptions;
};
const model = precipitateModel(alloy, options);
const start = model.start(from);

parentPort!.on('message', ({ index, history }: ManyTask) => {
  parentPort!.postMessage(advanced(index, history));
});

function advanced(index: number, history: ThermalHistory): ManyReply {
  try {
    const { state, yieldMPa, yieldKeptFraction, stepErrorMPa } = model.advance(start, history);
    const last = yieldMPa.length - 1;
    return {
      index,
      end: { state, yieldMPa: yieldMPa[last]!, yieldKeptFraction: yieldKeptFraction[last]!, stepErrorMPa },
    };
  } catch (failure) {
    return { index, failure: failure instanceof Error ? failure.message : String(failure) };
  }
}
