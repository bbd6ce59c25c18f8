import { existsSync } from 'node:fs';
import { dirname } from 'node:path';
import { parseArgs } from 'node:util';
import {
  type Job,
  jobOptions,
  logOf,
  lotsOfJob,
  readJob,
  type WatchState,
  watchLog,
  withLog,
} from '../../job';
import { formatPercent, formatTemp } from '../../quantity';
import { isJobFile, REVIEW_OPTIONS, refuseOptions, reviewAndTell } from '../review';
import { jobOfOptions } from '../review/jobOfOptions';
import { keepNames, shown, unitsShown } from '../say';
import { onlyOne, required, shortest, UsageError } from '../usage';

/** `temperbook watch <job.json>`, or `temperbook watch <log file> --out folder …` with all options of `review`, which ends it */
export async function watch(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: { ...REVIEW_OPTIONS, port: { type: 'string', default: '0' } },
  });
  const path = onlyOne(positionals, 'the job file, or the log file to watch');
  const isJob = isJobFile(path);
  if (isJob) refuseOptions(args, ['out', 'port']);
  const outFolder = isJob ? (values.out ?? dirname(path)) : required(values.out, '--out <folder>');
  const port = portOf(values.port);
  const saidNow = (): Job => readJob(isJob ? path : jobOfOptions(path, values), { isLogToCome: true });
  const job = saidNow();
  const { file, read } = logOf(job);
  // Before anything is watched: nothing is read and nobody warned while a lot is weighed.
  const lots = lotsOfJob(job);
  const ending = endAsked();
  if (!(await thereBefore(shortest(file), ending))) return;
  const teller = stateTeller();
  const watching = await watchLog(file, {
    read,
    judge: (log) => jobOptions(job, log, lots),
    outFolder,
    port,
    units: unitsShown(),
    onState: teller.tell,
  });
  process.stdout.write(
    `Watching ${shortest(file)}. Page  ${watching.url}\nCtrl-C ends it with the record.\n`,
  );
  await ending;
  teller.end();
  const source = await watching.end();
  // What was added to the job meanwhile counts.
  const last = saidNow();
  await reviewAndTell(source === file ? last : withLog(last, source, read), { isOpen: !isJob, outFolder });
}

/** Waits for a log that the logger has not begun; false when the end was asked for first. */
async function thereBefore(path: string, ending: Promise<void>): Promise<boolean> {
  if (existsSync(path)) return true;
  process.stdout.write(`${path} is not there yet. Waiting for it.\n`);
  let isOver = false;
  void ending.then(() => {
    isOver = true;
  });
  while (!isOver && !existsSync(path)) await new Promise((resolve) => setTimeout(resolve, 100));
  return !isOver;
}

function portOf(text: string): number {
  const port = Number(text);
  if (/^\d+$/.test(text) && port <= 65535) return port;
  throw new UsageError(`--port takes a number up to 65535, not "${text}"`);
}

const endAsked = (): Promise<void> =>
  new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
  });

const BELL = '\x07';
/** On paper and in pipes the state is told this often, ms, besides every change. */
const EVERY_MS = 10_000;

/** Tells states: on a terminal in a block that is rewritten, elsewhere a line now and then; each new stop rings. */
function stateTeller(): { readonly tell: (state: WatchState) => void; readonly end: () => void } {
  const { stdout } = process;
  const isTerminal = stdout.isTTY === true;
  let height = 0;
  let told = '';
  let toldMs = 0;
  return {
    tell: (state) => {
      const stopped = state.level === 'stop' ? state.headline.replace(/\d.*/, '') : state.level;
      const isNew = stopped !== told;
      if (isNew && state.level === 'stop') stdout.write(BELL);
      if (isTerminal) {
        const lines = shownBlock(state);
        stdout.write(`${height > 0 ? `\x1b[${height}A` : ''}\x1b[J${lines.join('\n')}\n`);
        height = lines.length;
      } else if (isNew || Date.now() - toldMs > EVERY_MS) {
        stdout.write(`${shownBlock(state).join('\n')}\n`);
        toldMs = Date.now();
      }
      told = stopped;
    },
    end: () => {
      height = 0;
      stdout.write('\n');
    },
  };
}

function shownBlock(state: WatchState): string[] {
  keepNames(state.probes.map(({ name }) => name));
  return blockOf(state).map(shown);
}

function blockOf({ level, headline, probes, notes }: WatchState): string[] {
  const loud = process.stdout.isTTY === true && level === 'stop' ? `\x1b[1;7m ${headline} \x1b[0m` : headline;
  const widest = (process.stdout.columns || 200) - 1;
  return [
    loud,
    ...probes.map(({ name, tempC, usedShare, usedAtMost, say }) => {
      const temp = tempC === null ? 'no reading' : formatTemp(tempC);
      const used =
        usedShare === null || usedAtMost === null
          ? ''
          : `, used ${formatPercent(usedShare)}, at most ${formatPercent(usedAtMost)}`;
      return `  ${name}  ${temp}${used}. ${say}`.slice(0, widest);
    }),
    ...notes.map((note) => `  ${note.replace(/\s*\n\s*/g, ' ')}`.slice(0, widest)),
  ];
}
