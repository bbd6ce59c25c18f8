import { fork } from 'node:child_process';
import path from 'node:path';

/** What a review tells the process that started it for one of many logs. */
export interface ReviewedLog {
  readonly verdict: string;
  readonly chance: string;
  readonly record: string;
}

/** The answer of one log, or why there is none. */
export type Answer = { readonly reviewed: ReviewedLog } | { readonly failed: string };

/** A process that reviews one log after another, for as long as none of them ends it. */
export interface Reviewer {
  readonly hasEnded: () => boolean;
  /** `temperbook review` with these arguments, one call at a time. */
  readonly review: (args: readonly string[]) => Promise<Answer>;
  readonly end: () => void;
}

/** Starts such a process. Most of what the command takes on one small log is its start, which many logs then share. */
export function startReviewer(): Reviewer {
  const child = fork(path.join(__dirname, 'reviewInTurn.js'), { stdio: ['ignore', 'ignore', 'pipe', 'ipc'] });
  let answer: (answer: Answer) => void = () => {};
  let ended = false;
  let said = '';
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    said += text;
  });
  child.on('message', (message: ReviewedLog | { readonly failed: string }) =>
    answer('failed' in message ? message : { reviewed: message }),
  );
  const endedBy = (why: string): void => {
    ended = true;
    answer({ failed: withoutProgress(said) || why });
  };
  child.on('error', (error) => endedBy(error.message));
  child.on('close', (code, signal) => endedBy(`it ended by ${signal ?? `code ${code}`}`));
  return {
    hasEnded: () => ended,
    review: (args) =>
      new Promise((resolve) => {
        said = '';
        answer = resolve;
        child.send([...args], (error) => {
          if (error) child.kill();
        });
      }),
    end: () => child.disconnect(),
  };
}

/** What a process said, without how far it had come. */
const withoutProgress = (said: string): string => said.replace(/^[\w ]+: \d+ %\n/gm, '').trim();
