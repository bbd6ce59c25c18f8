import { parentPort } from 'node:worker_threads';
import { type JudgeOptions, type SoFar, strengthSoFar } from '../../decision';
import { type ReadOptions, readLog } from '../../log';
import { TemperbookError } from '../../quantity';

/** The thread that judges what was read so far, so that reading and warning never wait for it. */
export interface JudgeRequest {
  readonly lines: Uint8Array;
  readonly read: ReadOptions;
  readonly judge: JudgeOptions;
}

/** What it answers. */
export type JudgeAnswer = { readonly soFar: SoFar } | { readonly because: string };

parentPort?.on('message', ({ lines, read, judge }: JudgeRequest) => {
  parentPort!.postMessage(answerTo(lines, read, judge));
});

function answerTo(lines: Uint8Array, read: ReadOptions, options: JudgeOptions): JudgeAnswer {
  try {
    return { soFar: strengthSoFar(readLog(lines, read), options) };
  } catch (error) {
    if (error instanceof TemperbookError) return { because: error.message };
    throw error;
  }
}
