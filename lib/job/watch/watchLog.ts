import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { JudgeOptions } from '../../decision';
import type { ReadOptions, ThermalLog } from '../../log';
import { TemperbookError, type Units } from '../../quantity';
import { writeWhole } from '../../report';
import { FollowedFile } from './followFile';
import type { JudgeAnswer, JudgeRequest } from './judgeWorker';
import { type ReadingsNow, readingsNow } from './readingsNow';
import { serveWatch, type WatchServer } from './serveWatch';
import { type Judgement, spend, stateInUsUnits, type WatchState, watchState } from './watchState';
import { wholeLines } from './wholeLines';

/** What to watch, and who is told. */
export interface WatchOptions {
  readonly read: ReadOptions;
  /** How to judge, once it is known what probes the log has. */
  readonly judge: (log: ThermalLog) => JudgeOptions;
  /** Where what was read is kept when the logger begins its file anew. */
  readonly outFolder: string;
  /** Port of the page on this machine, 0 for any that is free; no page without it. */
  readonly port?: number;
  /** Of the page; metric unless given. */
  readonly units?: Units;
  readonly onState: (state: WatchState) => void;
}

/** A log being watched. */
export interface Watch {
  /** Address of the page, where one is served. */
  readonly url?: string;
  /** Stops watching; the path of the log to review, which holds everything that was read. */
  end(): Promise<string>;
}

/** The file is looked at this often, ms. */
const EVERY_MS = 200;
/** Between two rows of the log at most so much time is counted as spent, s: more is a gap. */
const LONGEST_STEP_S = 5;

/**
 * Follows a log that is still being written and tells five times a second how it stands: what the probes read, at once; what
 * that did to the strength, as fast as a thread of its own can judge it, counted on meanwhile (`spend`). It only reads.
 * @throws TemperbookError when the page cannot be served, before anything is watched.
 */
export async function watchLog(path: string, options: WatchOptions): Promise<Watch> {
  const server = options.port === undefined ? undefined : await serveWatch(options.port);
  const watching = new Watching(path, options, server);
  const timer = setInterval(() => watching.look(), EVERY_MS);
  watching.look();
  return {
    ...(server ? { url: server.url } : {}),
    end: async () => {
      clearInterval(timer);
      const source = watching.end();
      await server?.end('The watch has ended: see the record.');
      return source;
    },
  };
}

class Watching {
  readonly #path: string;
  readonly #options: WatchOptions;
  readonly #server: WatchServer | undefined;
  readonly #file: FollowedFile;
  readonly #worker = new Worker(join(__dirname, 'judgeWorker.js'));
  #judging: Map<string, number> | undefined;
  #judgedBytes = 0;
  #judgement: Judgement | undefined;
  #cannotJudge = '';
  #now: ReadingsNow | string | undefined;
  #lastRowMs = Date.now();
  #lost = false;
  readonly #kept: string;

  constructor(path: string, options: WatchOptions, server: WatchServer | undefined) {
    this.#path = path;
    this.#options = options;
    this.#server = server;
    this.#file = new FollowedFile(path);
    const ending = extname(path);
    this.#kept = join(options.outFolder, `${basename(path, ending)}-watched${ending || '.csv'}`);
    this.#worker.on('message', (answer: JudgeAnswer) => this.#take(answer));
    this.#worker.on('error', (error) => {
      this.#cannotJudge = error.message;
    });
  }

  look(): void {
    const notes: string[] = [];
    const found = this.#file.poll();
    this.#lost = found.is === 'not there' && this.#file.bytes.length > 0;
    if (found.is === 'not there')
      notes.push(this.#lost ? 'The log is gone; what was read is kept.' : 'The log is not there yet.');
    if (found.is === 'locked') notes.push(`The log cannot be read just now: ${found.because}.`);
    if (found.is === 'read' && found.beganAnew) notes.push(...this.#keepNote());
    if (found.is !== 'locked' && found.grew) this.#read();
    if (this.#file.restarts > 0)
      notes.push(
        `The logger began its file anew ${this.#file.restarts} ${this.#file.restarts === 1 ? 'time' : 'times'}: heat in between is not recorded.`,
      );
    if (this.#cannotJudge !== '') notes.push(`The strength cannot be worked out: ${this.#cannotJudge}`);
    const silentS = (Date.now() - this.#lastRowMs) / 1000;
    const state = watchState(basename(this.#path), this.#now, this.#judgement, { silentS, notes });
    this.#options.onState(state);
    this.#server?.show(this.#options.units === 'us' ? stateInUsUnits(state) : state);
  }

  /** Everything there is to review, as one file. */
  end(): string {
    this.look();
    this.#file.close();
    void this.#worker.terminate();
    const isWhole = !this.#lost && this.#file.restarts === 0;
    if (isWhole) return this.#path;
    return this.#keep();
  }

  #read(): void {
    const lines = wholeLines(this.#file.bytes);
    const before = this.#now;
    const now = readingsNow(lines, this.#options.read);
    if (typeof now !== 'string' && typeof before === 'object') {
      const overS = now.atS - before.atS;
      if (overS !== 0) this.#lastRowMs = Date.now();
      if (overS > 0 && overS < LONGEST_STEP_S) {
        if (this.#judgement) spend(this.#judgement, now, overS);
        if (this.#judging && this.#judgement) spend({ ...this.#judgement, spent: this.#judging }, now, overS);
      }
    } else if (typeof now !== 'string') this.#lastRowMs = Date.now();
    this.#now = now;
    if (typeof now === 'string' || this.#judging || lines.length <= this.#judgedBytes) return;
    this.#judgedBytes = lines.length;
    this.#judge(lines, now.log);
  }

  #judge(lines: Buffer, log: ThermalLog): void {
    const { read, judge } = this.#options;
    try {
      const request: JudgeRequest = { lines: Uint8Array.from(lines), read, judge: judge(log) };
      this.#worker.postMessage(request);
      this.#judging = new Map();
    } catch (error) {
      if (!(error instanceof TemperbookError)) throw error;
      this.#cannotJudge = error.message;
    }
  }

  /** What was spent since the rows that were judged goes on counting. */
  #take(answer: JudgeAnswer): void {
    const spent = this.#judging ?? new Map<string, number>();
    this.#judging = undefined;
    this.#cannotJudge = 'because' in answer ? answer.because : '';
    if ('soFar' in answer) this.#judgement = { soFar: answer.soFar, spent };
  }

  #keepNote(): string[] {
    try {
      this.#keep();
      return [];
    } catch (error) {
      return [
        `What was read before cannot be kept on the disk: ${error instanceof Error ? error.message : String(error)}`,
      ];
    }
  }

  /** Writes what was read beside the records, over what an earlier part of it left and nothing else. */
  #keep(): string {
    const { bytes } = this.#file;
    mkdirSync(this.#options.outFolder, { recursive: true });
    for (let n = 1; ; n++) {
      const ending = extname(this.#kept);
      const place = n === 1 ? this.#kept : `${this.#kept.slice(0, -ending.length)}-${n}${ending}`;
      if (existsSync(place) && !isStartOf(readFileSync(place), bytes)) continue;
      writeWhole(place, (unfinished) => writeFileSync(unfinished, bytes, { flush: true }));
      return place;
    }
  }
}

const isStartOf = (part: Buffer, whole: Buffer): boolean => part.equals(whole.subarray(0, part.length));
