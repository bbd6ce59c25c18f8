import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { MessageChannel, receiveMessageOnPort, Worker } from 'node:worker_threads';

/** A function of a module that workers can load by themselves: the module's path without its ending, and the name. */
export interface WorkerTask {
  readonly modulePath: string;
  readonly name: string;
}

/** How many hands at most by routine: every one loads the kit for itself. */
const USUAL_WORKERS = 4;
const WAIT_MS = 1000;

interface Answer {
  readonly index: number;
  readonly result?: unknown;
  readonly failed?: boolean;
}

/** What a worker does: takes the next job until there is none. */
const WORKER = `
const { workerData } = require('node:worker_threads');
const { modulePath, name, jobs, counters, port } = workerData;
const [NEXT, DONE] = [0, 1];
for (;;) {
  const index = Atomics.add(counters, NEXT, 1);
  if (index >= jobs.length) break;
  let answer;
  try {
    answer = { index, result: require(modulePath)[name](jobs[index]) };
  } catch {
    answer = { index, failed: true };
  }
  port.postMessage(answer);
  Atomics.add(counters, DONE, 1);
  Atomics.notify(counters, DONE);
}
`;

/**
 * A slow function run on every job, on several threads where the kit is built, and waited for. The answers come in the
 * order of the jobs and are the same however many hands there are: each job is run alone. A job that fails on a worker is
 * run again here, so that its error is thrown as it is.
 * @param workers 0 or 1: all here. Default one for each processor, four at most.
 * @param onDone called after each job with the share of them done; what it throws stops everything.
 */
export function inWorkers<Job, Result>(
  { modulePath, name }: WorkerTask,
  here: (job: Job) => Result,
  jobs: readonly Job[],
  {
    workers = Math.min(USUAL_WORKERS, availableParallelism()),
    onDone,
  }: { readonly workers?: number | undefined; readonly onDone?: (share: number) => void } = {},
): Result[] {
  const results = new Array<Result>(jobs.length);
  let done = 0;
  const put = (index: number, result: Result): void => {
    results[index] = result;
    done++;
    onDone?.(done / jobs.length);
  };
  if (Math.min(workers, jobs.length) < 2 || !existsSync(`${modulePath}.js`)) {
    for (const [index, job] of jobs.entries()) put(index, here(job));
    return results;
  }
  const counters = new Int32Array(new SharedArrayBuffer(8));
  const hands = Array.from({ length: Math.min(workers, jobs.length) }, () => {
    const { port1, port2 } = new MessageChannel();
    const worker = new Worker(WORKER, {
      eval: true,
      workerData: { modulePath, name, jobs, counters, port: port2 },
      transferList: [port2],
    });
    worker.unref();
    return { worker, port: port1 };
  });
  try {
    while (done < jobs.length) {
      Atomics.wait(counters, 1, done, WAIT_MS);
      for (const { port } of hands)
        for (let message = receiveMessageOnPort(port); message; message = receiveMessageOnPort(port)) {
          const { index, result, failed } = message.message as Answer;
          put(index, failed ? here(jobs[index]!) : (result as Result));
        }
    }
  } finally {
    for (const { worker, port } of hands) {
      port.close();
      void worker.terminate();
    }
  }
  return results;
}
