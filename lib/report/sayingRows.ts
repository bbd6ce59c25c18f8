import { formatKept } from '../quantity';
import type { SayingAnswer } from '../validation';
import type { TableRow } from './table';

/** Every saying, what it is worth, and the yield left after each heat it was tried on. */
export function sayingRows(answers: readonly SayingAnswer[]): readonly TableRow[] {
  return answers.map(({ says, word, tried }) => ({
    'They say': says,
    'It is': word,
    'Yield left': tried.map(({ kept }) => formatKept(kept)).join('; ') || 'no number',
  }));
}

/** Every reason of every answer, a row each, with the sources of the saying. */
export function sayingReasonRows(answers: readonly SayingAnswer[]): readonly TableRow[] {
  return answers.flatMap(({ says, word, because, sources }) =>
    because.map((reason, at) => ({
      'They say': at === 0 ? says : null,
      'It is': at === 0 ? word : null,
      Because: reason,
      'Said in': at === 0 ? sources.join('; ') : null,
    })),
  );
}
