import { type AnswerIf, mixedAnswer, type OpenVerdict } from '../decision';
import { TemperbookError } from '../quantity';
import type { Job } from './job';
import { type Review, type ReviewOptions, reviewJob } from './reviewJob';

/** The review of a part if it is one metal. */
export interface ReviewIf extends AnswerIf {
  readonly review: Review;
}

/**
 * Reviews a job whose metal its words leave open ("like 356, temper not known") for every metal it may be: `reviewJob` of
 * each, and the word that holds for all that weigh more than 5 % (`mixedAnswer`). Brinell read on cold metal of the part
 * (`reference` of its readings, their mean) weighs them. A record is of one metal, so there is none of the whole.
 * @throws TemperbookError for a job that names one metal, and as `mixedAnswer` and `reviewJob`.
 */
export function reviewOpenJob(job: Job, options: ReviewOptions = {}): OpenVerdict<ReviewIf> {
  const { open, alloy: _, temper: __, ...known } = job.metal;
  if (open === undefined)
    throw new TemperbookError('The metal of this job is not open', {
      file: job.file,
      expected: 'words that leave it open, such as "like 356, temper not known"',
      remedy: 'reviewJob is for one metal',
    });
  const cold = (job.said.readings ?? []).flatMap(({ kind, reference }) =>
    kind === 'brinell' && reference !== undefined ? [reference] : [],
  );
  const coldBrinell = cold.length > 0 ? cold.reduce((sum, one) => sum + one, 0) / cold.length : undefined;
  return mixedAnswer(open, coldBrinell, ({ card, temper }) => {
    const review = reviewJob({ ...job, metal: { ...known, alloy: card.designation, temper } }, options);
    return { word: review.verdict.verdict, chanceKept: review.verdict.chanceKept, review };
  });
}
