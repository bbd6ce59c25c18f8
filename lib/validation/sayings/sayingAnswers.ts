import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type HeatedPlace, judgeHeats } from '../../decision';
import { parseHeats } from '../../exposure';
import { ovenExposure } from '../../heatflow';
import { isothermal } from '../../history';
import { type EvidenceRow, evidenceTable } from '../../kinetics';
import {
  formatDuration,
  formatKept,
  formatPercent,
  formatTemp,
  type Judged,
  TemperbookError,
} from '../../quantity';
import { bandOfDraws, strengthAfter } from '../../strength';
import { spikeHistory } from '../scores/spikeGrid';

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
  /** Yield kept in each case it was tried on, with its name. */
  readonly cases: readonly { readonly name: string; readonly kept: Judged }[];
  /** Measured rows near it. */
  readonly measured: readonly EvidenceRow[];
  /** Kind and year of what says so. */
  readonly sources: readonly string[];
}

interface Case {
  readonly alloy: string;
  readonly heats?: string;
  /** The temperature is the metal's to the degree. */
  readonly exact?: boolean;
  readonly wallMm?: number;
  /** Other heats whose yield it is to equal. */
  readonly like?: string;
  readonly weld?: { readonly peakC: number; readonly coolingS: number };
  /** A rest or an age after the weld. */
  readonly after?: string;
}

/** What a saying claims: that the temper is kept, or lost, or so much of the yield left, or as strong as after other heats. */
type Claim =
  | { readonly keeps: true }
  | { readonly loses: true }
  | { readonly keptFrom: number; readonly keptTo: number }
  | { readonly recoversFrom: number; readonly recoversTo: number }
  | { readonly sameAs: number };

interface Saying {
  readonly id: string;
  readonly topic: string;
  readonly says: string;
  readonly sources: readonly { readonly kind: string; readonly year: number | null }[];
  readonly claim?: Claim;
  readonly cases?: readonly Case[];
  readonly near?: {
    readonly alloy: string;
    readonly fromC: number;
    readonly toC: number;
    readonly toS: number;
  };
  readonly condition?: string;
  readonly because?: string;
}

/** A metal temperature that somebody stated is taken to this. */
const STATED = '±5F';

/**
 * Every saying of data/models/sayings.json run through the models: true where it holds in all its cases, false where in none,
 * true if otherwise, nobody knows where nothing here can tell. A case holds for a claim of kept or lost by the word of
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
  cases = [],
  near,
  condition,
  because,
}: Saying): SayingAnswer {
  const tried = claim ? cases.map((one) => tryCase(one, claim)) : [];
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
    cases: tried.map(({ name, kept }) => ({ name, kept })),
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

interface Tried {
  readonly name: string;
  readonly kept: Judged;
  readonly holds: 'yes' | 'no' | 'open';
  readonly sentence: string;
}

function tryCase(one: Case, claim: Claim): Tried {
  const { alloy } = one;
  if (one.heats !== undefined && one.like !== undefined && 'sameAs' in claim)
    return sameAs(one, one.heats, one.like, claim.sameAs);
  if ('recoversFrom' in claim) return recovered(one, claim);
  const { name, steps } = stepsOf(one);
  const { word, places } = judgeHeats(steps, {
    alloy,
    oven: STATED,
    wallMm: one.wallMm,
    fan: true,
    countLeft: false,
  });
  const kept = places[0]!.yieldKeptFraction;
  return {
    name,
    kept,
    holds: holdsFor(claim, word, kept),
    sentence: `${name}: ${formatKept(kept)} of the yield is left.`,
  };
}

function stepsOf({ alloy, heats, exact, weld, after }: Case) {
  if (weld) {
    const spike = spikeHistory({ peakC: weld.peakC, coolingTimeConstantS: weld.coolingS, passes: 1 });
    return {
      name: `${alloy}, a pass to ${formatTemp(weld.peakC)}${after ? `, then ${after}` : ''}`,
      steps: [spike, ...(after ? heatsExactly(after) : [])],
    };
  }
  if (heats === undefined) throw new TemperbookError('A saying has a case without heat', { found: alloy });
  return { name: `${alloy}, ${heats}`, steps: exact ? heatsExactly(heats) : [heats] };
}

const heatsExactly = (words: string) => parseHeats(words).map(({ setC, timeS }) => isothermal(setC, timeS));

function holdsFor(
  claim: Claim,
  word: 'kept' | 'uncertain' | 'lost',
  { nominal, low, high }: Judged,
): Tried['holds'] {
  if ('keeps' in claim) return word === 'kept' ? 'yes' : word === 'lost' ? 'no' : 'open';
  if ('loses' in claim) return word === 'lost' ? 'yes' : word === 'kept' ? 'no' : 'open';
  if ('sameAs' in claim || 'recoversFrom' in claim) return 'open';
  const { keptFrom, keptTo } = claim;
  if (nominal >= keptFrom && nominal <= keptTo) return 'yes';
  return high >= keptFrom && low <= keptTo ? 'open' : 'no';
}

/** Less than this lost is nothing to bring back. */
const SOME_LOSS = 0.02;

/** How much of what a weld took a rest or an age brings back, draw by draw. */
function recovered(
  one: Case,
  { recoversFrom, recoversTo }: Extract<Claim, { readonly recoversFrom: number }>,
): Tried {
  const { name, steps } = stepsOf(one);
  const [before, now] = [stepsOf({ ...one, after: undefined }).steps, steps].map(
    (all) => judgeHeats(all, { alloy: one.alloy, countLeft: false }).places[0]!,
  ) as [HeatedPlace, HeatedPlace];
  const shares = Float64Array.from(before.strength.draws.yieldKept.subarray(0, SHARED_DRAWS), (kept, i) =>
    1 - kept < SOME_LOSS ? 0 : (now.strength.draws.yieldKept[i]! - kept) / (1 - kept),
  );
  const share = bandOfDraws(shares, '1', []);
  return {
    name,
    kept: now.yieldKeptFraction,
    holds: holdsFor({ keptFrom: recoversFrom, keptTo: recoversTo }, 'uncertain', share),
    sentence: `${name}: ${formatKept(before.yieldKeptFraction)} of the yield before, ${formatKept(now.yieldKeptFraction)} after; it brings back ${formatPercent(share.nominal)} of the loss.`,
  };
}

/** Draws that every answer has. */
const SHARED_DRAWS = 400;

/** Two ways of ageing the same draws of metal. */
function sameAs({ alloy, wallMm }: Case, heats: string, like: string, within: number): Tried {
  const [one, other] = [heats, like].map((words) => {
    const exposures = parseHeats(words).flatMap((heat) =>
      new Array(heat.times).fill(ovenExposure(heat, { oven: STATED, wallMm, fan: true })),
    );
    return strengthAfter(
      exposures[exposures.length - 1]!,
      { alloy },
      { earlier: exposures.slice(0, -1), draws: SHARED_DRAWS, endOnly: true },
    );
  }) as [ReturnType<typeof strengthAfter>, ReturnType<typeof strengthAfter>];
  const ratios = one.draws.yieldKept.map((kept, i) => kept / other.draws.yieldKept[i]!);
  const kept = bandOfDraws(ratios, '1', []);
  return {
    name: `${alloy}, ${heats} against ${like}`,
    kept,
    holds: holdsFor({ keptFrom: 1 - within, keptTo: 1 + within }, 'uncertain', kept),
    sentence: `${alloy}, ${heats}: ${formatKept(kept)} of the yield after ${like}.`,
  };
}
