import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type EvidenceRow, evidenceTable } from '../../kinetics';
import { formatDuration, formatPercent, formatTemp, type Judged } from '../../quantity';
import type { Saying } from './saying';
import { trySaying } from './trySaying';

/** What a saying is worth in the light of models and measured rows. */
export type SayingWord = 'true' | 'true if' | 'false' | 'nobody knows';

/** A saying of the trade with the answer to it. */
export interface SayingAnswer {
  readonly id: string;
  readonly topic: string;
  readonly says: string;
  readonly word: SayingWord;
  /** Why, in sentences with their numbers. */
  readonly because: readonly string[];
  /** Yield kept after each heat it was tried on, with its name. */
  readonly tried: readonly { readonly name: string; readonly kept: Judged }[];
  /** Measured rows near it. */
  readonly measured: readonly EvidenceRow[];
  /** Kind and year of what says so. */
  readonly sources: readonly string[];
}

/**
 * Every saying of data/models/sayings.json run through the models: true where it holds for all its heats, false where for none,
 * true if otherwise, nobody knows where nothing here can tell. A heat holds for a claim of kept or lost by the word of
 * `judgeHeats`; for a share of the yield where the middle lies inside and, undecided, where only the band does; for "as
 * strong as" likewise, by the ratio draw by draw.
 */
export function sayingAnswers(): readonly SayingAnswer[] {
  const { sayings } = JSON.parse(
    readFileSync(path.join(__dirname, '../../../data/models/sayings.json'), 'utf8'),
  ) as { readonly sayings: readonly Saying[] };
  return sayings.map(answerTo);
}

function answerTo({
  id,
  topic,
  says,
  sources,
  claim,
  triedOn = [],
  near,
  condition,
  because,
}: Saying): SayingAnswer {
  const tried = claim ? triedOn.map((one) => trySaying(one, claim)) : [];
  const holds = tried.map((one) => one.holds);
  const word: SayingWord =
    tried.length === 0
      ? 'nobody knows'
      : holds.every((one) => one === 'yes')
        ? 'true'
        : holds.every((one) => one === 'no')
          ? 'false'
          : 'true if';
  const measured = near ? evidenceTable().filter((row) => isNear(row, near)) : [];
  return {
    id,
    topic,
    says,
    word,
    because: [
      ...(because ? [because] : []),
      ...(condition && word === 'true if'
        ? [`${condition.charAt(0).toUpperCase()}${condition.slice(1)}.`]
        : []),
      ...tried.map(({ sentence }) => sentence),
      ...measured.map(
        ({ exposure, measured: { value }, lot }) =>
          `In the evidence (${lot}): ${exposure.map(stepWords).join(', ')}: ${formatPercent(value)} of the yield.`,
      ),
    ],
    tried: tried.map(({ name, kept }) => ({ name, kept })),
    measured,
    sources: sources.map(({ kind, year }) => `${kind}${year === null ? ', undated' : `, ${year}`}`),
  };
}

function isNear(
  { alloys, temper, property, unit, exposure, known }: EvidenceRow,
  { alloy, fromC, toC, toS }: NonNullable<Saying['near']>,
): boolean {
  const [step, ...more] = exposure;
  return (
    known !== 'practice' &&
    alloys.includes(alloy) &&
    temper === 'T6' &&
    property === 'yield' &&
    unit === 'fraction' &&
    more.length === 0 &&
    step !== undefined &&
    'tempC' in step &&
    step.tempC >= fromC &&
    step.tempC <= toC &&
    step.timeS <= toS
  );
}

const stepWords = (step: EvidenceRow['exposure'][number]): string =>
  'tempC' in step ? `${formatTemp(step.tempC)} for ${formatDuration(step.timeS)}` : 'a weld';
