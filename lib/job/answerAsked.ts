import { TemperbookError } from '../quantity';
import type { Asked } from './asked';
import type { JobFile, SaidProbe } from './jobFile';

/**
 * The job with an answer where it was asked; whether the answer can be used shows when the job is read (`readJob`).
 * @throws TemperbookError for an answer that is none of the choices.
 */
export function answerAsked(job: JobFile, { about, probe, choices }: Asked, answer: string): JobFile {
  if (choices && !choices.includes(answer))
    throw new TemperbookError('This is none of the answers', {
      found: `"${answer}"`,
      expected: `one of ${choices.map((choice) => `"${choice}"`).join(', ')}`,
    });
  switch (about) {
    case 'fixing':
      return {
        ...job,
        measuring: { ...job.measuring, attachment: answer as NonNullable<SaidProbe['attachment']> },
      };
    case 'metal':
      return { ...job, metal: metalWith(job, answer) };
    case 'metal of a probe':
      return withProbe(job, probe!, { metal: answer });
    case 'heat':
      throw new TemperbookError('A heat is told in the job file', {
        found: `"${answer}"`,
        expected: 'its keys oven, wallMm, fan',
      });
    case 'role':
      return withProbe(job, probe!, { role: answer as NonNullable<SaidProbe['role']> });
  }
}

/** A temper alone completes the alloy that was said. */
function metalWith({ metal }: JobFile, answer: string): NonNullable<JobFile['metal']> {
  const isTemper = /^(?:[FOW]|T[-\s]?\d{1,4})$/i.test(answer.trim());
  if (!isTemper || metal === undefined) return answer;
  return typeof metal === 'string' ? { alloy: metal, temper: answer } : { ...metal, temper: answer };
}

function withProbe(job: JobFile, name: string, said: SaidProbe): JobFile {
  return { ...job, probes: { ...job.probes, [name]: { ...job.probes?.[name], ...said } } };
}
