import { captureOutput } from './captureOutput';
import { endWithParent } from './endWithParent';
import type { RunEvent, RunRequest } from './messages';
import { startTslabSession } from './tslabSession';

/**
 * The child process in which `runNotebook` executes cells. A process of its own because a notebook may block
 * for minutes, end the process, print, or reject a promise long after its cell: here none of that can stop
 * the runner from telling what happened. It is started in the notebook's folder, as a Jupyter kernel is.
 */

/** How long work that cells started without awaiting it may go on after the last cell. */
const LEFTOVER_WAIT_S = 30;

Error.stackTraceLimit = 50;

/** Taken before any cell can put something else in their place. */
const { channel } = process;
const tell = process.send!.bind(process);

endWithParent();
process.once('message', (request: RunRequest) => void runCells(request));
process.once('disconnect', () => process.exit(1));

async function runCells({ cells }: RunRequest): Promise<void> {
  let current = cells[0]?.index ?? 0;
  // First the session: it must be the one to load tslab.
  const session = startTslabSession();
  captureOutput((piece) => void send({ kind: 'output', index: current, piece }));
  const failWith = (thrown: unknown) => fail(session.explain(current, thrown));
  process.on('unhandledRejection', failWith);
  process.on('uncaughtException', failWith);

  for (const { index, source } of cells) {
    current = index;
    await send({ kind: 'started', index });
    const failure = await session.run(index, source);
    if (failure !== undefined) return fail(failure);
    // A promise rejected in this cell is reported once the microtasks are done: before the next cell starts.
    await new Promise(setImmediate);
    await send({ kind: 'finished', index });
  }
  session.close();
  waitForLeftovers(current);
}

/** Ends once nothing is left to do, so that what a cell did not await can still print or fail. */
function waitForLeftovers(index: number): void {
  const message = `work that a cell started without awaiting it still ran ${LEFTOVER_WAIT_S} s after the last cell`;
  setTimeout(() => fail({ index, message, through: [] }), LEFTOVER_WAIT_S * 1000).unref();
  channel?.unref();
  process.once('beforeExit', () => void send({ kind: 'done' }));
}

function send(event: RunEvent): Promise<void> {
  return new Promise((resolve) => tell(event, undefined, {}, () => resolve()));
}

async function fail(failure: Extract<RunEvent, { kind: 'failed' }>['failure']): Promise<void> {
  await send({ kind: 'failed', failure });
  process.exit(1);
}
