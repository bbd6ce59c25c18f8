import { parentPort, workerData } from 'node:worker_threads';
import type { ThermalHistory } from '../../../history';
import type { AlloyLike, StartState } from '../../temperModel';
import { type PrecipitateOptions, precipitateModel } from '../precipitateModel';
import type { ManyReply, ManyTask } from './manyMessages';

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
