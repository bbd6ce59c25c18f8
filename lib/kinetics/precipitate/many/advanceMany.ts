import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { ThermalHistory } from '../../../history';
import { requireNumber, TemperbookError } from '../../../quantity';
import type { AlloyLike, StartState } from '../../temperModel';
import type { PrecipitateOptions } from '../precipitateModel';
import type { HistoryEnd, ManyReply, ManyTask } from './manyMessages';

/** How a batch is run. */
export interface AdvanceManyOptions {
  readonly model?: PrecipitateOptions;
  /** Threads; default: as many as the machine has cores. */
  readonly threads?: number;
  /** Called after each history with how many are done. */
  readonly onProgress?: (done: number, of: number) => void;
}

/** The compiled worker; the sources of this file are TypeScript, so threads need the built package. */
const WORKER_FILE = `${__dirname}/advanceManyWorker.js`;

/**
 * Advances many histories from one start on all cores, results in the order of the histories. A thread takes the
 * next history when it is done with one, so long and short ones mix without waiting.
 * @throws TemperbookError (as a rejected promise) naming the first history that could not be advanced; what
 * `onProgress` throws ends the batch the same way.
 */
export async function advanceMany(
  alloy: AlloyLike,
  from: StartState,
  histories: readonly ThermalHistory[],
  { model, threads = availableParallelism(), onProgress }: AdvanceManyOptions = {},
): Promise<HistoryEnd[]> {
  requireNumber(threads, 'The number of threads', { low: 1, high: 1024 });
  const ends = new Array<HistoryEnd>(histories.length);
  let next = 0;
  let done = 0;
  const runThread = (): Promise<void> =>
    new Promise((resolve, reject) => {
      const worker = new Worker(WORKER_FILE, { workerData: { alloy, from, model } });
      const stop = (failure?: Error) => {
        void worker.terminate();
        if (failure) reject(failure);
        else resolve();
      };
      const give = () => {
        if (next >= histories.length) return stop();
        const task: ManyTask = { index: next, history: histories[next]! };
        next++;
        worker.postMessage(task);
      };
      worker.on('error', (failure) => stop(failure as Error));
      worker.on('message', (reply: ManyReply) => {
        if (reply.failure !== undefined)
          return stop(
            new TemperbookError(`History ${reply.index} could not be advanced`, { found: reply.failure }),
          );
        ends[reply.index] = reply.end;
        try {
          onProgress?.(++done, histories.length);
        } catch (failure) {
          return stop(failure instanceof Error ? failure : new Error(String(failure)));
        }
        give();
      });
      give();
    });
  await Promise.all(Array.from({ length: Math.min(Math.floor(threads), histories.length) }, runThread));
  return ends;
}
