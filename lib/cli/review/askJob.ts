import { createInterface } from 'node:readline/promises';
import { type Asked, answerAsked, askedOf, type Job, type JobFile, readJob } from '../../job';
import type { ThermalLog } from '../../log';
import { TemperbookError } from '../../quantity';

/** Whether somebody sits at the other end. */
export const canAsk = (): boolean => process.stdin.isTTY === true && process.stderr.isTTY === true;

/**
 * Asks what a job leaves unsaid about its log, what moves the answer most first. An empty answer leaves it unsaid; one that
 * cannot be used is asked again with the reason.
 */
export async function askJob(
  given: JobFile,
  log: ThermalLog,
  input: NodeJS.ReadableStream = process.stdin,
  output: NodeJS.WritableStream = process.stderr,
): Promise<Job> {
  const terminal = createInterface({ input, output });
  // Read by its lines, so that none is lost that was typed before its question.
  const lines = terminal[Symbol.asyncIterator]();
  const left = new Set<string>();
  let job = readJob(given);
  try {
    for (;;) {
      const next = askedOf(job, log).find(({ key }) => !left.has(key));
      if (!next) return job;
      output.write(questionText(next));
      const { value: answer, done } = await lines.next();
      // A terminal that ends leaves the rest unsaid.
      if (done) return job;
      if (answer.trim() === '') {
        left.add(next.key);
        continue;
      }
      try {
        job = readJob(answerAsked(job.said, next, chosen(next, answer.trim())));
      } catch (error) {
        if (!(error instanceof TemperbookError)) throw error;
        output.write(`${error.message}\n`);
      }
    }
  } finally {
    terminal.close();
  }
}

function questionText({ question, choices = [], meanwhile }: Asked): string {
  const list = choices.map((choice, k) => `  ${k + 1}  ${choice}\n`).join('');
  const how = choices.length > 0 ? `1 to ${choices.length}, or ` : '';
  return `${question}\n${list}${how}Enter if you do not know (${meanwhile}): `;
}

/** A choice may be given by its number. */
function chosen({ choices = [] }: Asked, answer: string): string {
  return (/^\d+$/.test(answer) ? choices[Number(answer) - 1] : undefined) ?? answer;
}
