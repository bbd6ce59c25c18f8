import type { OpenReading } from '../log';
import { formatChance, formatPercent, type Judged } from '../quantity';
import { KEPT_FROM, LOST_UP_TO, type VerdictWord } from '../strength';
import { THE_PART } from '../verify';
import type { ChannelVerdict, NotJudged } from './verdict';

/** The verdict as a welder would say it. */
export const VERDICT_IN_WORDS: Readonly<Record<VerdictWord, string>> = {
  kept: 'temper kept',
  uncertain: 'uncertain, check it',
  lost: 'temper lost',
};

/** What the sentence of a channel is made from. */
export interface ChannelAnswer {
  readonly verdict: VerdictWord;
  readonly yieldKeptFraction: Judged;
  /** Of staying within the allowance, for what was recorded. */
  readonly chance: number;
  readonly isBlind: boolean;
}

/** One sentence for a channel: what happened to the strength, the chance that it is enough, what to do about it. */
export function channelSentence(
  { verdict, yieldKeptFraction, chance, isBlind }: ChannelAnswer,
  allowanceFraction: number,
): string {
  const { nominal, low, high } = yieldKeptFraction;
  const needed = formatPercent(1 - allowanceFraction);
  const band = `between ${formatPercent(low)} and ${formatPercent(high)}`;
  const change =
    nominal > 1.005
      ? `Yield has risen to about ${formatPercent(nominal)} of what it was, ${band} (the metal aged further and lost some ductility)`
      : nominal > 0.995
        ? `Yield is as good as unchanged, ${band}`
        : `About ${formatPercent(nominal)} of the yield is left, ${band}`;
  const that = `the chance that it keeps the ${needed} you asked for is ${formatChance(chance)}`;
  if (isBlind && verdict === 'uncertain')
    return `${change} as far as it was recorded, but not all of it was.`;
  switch (verdict) {
    case 'kept':
      return `${change}; ${that}.`;
    case 'lost':
      return `${change}; ${that}${isBlind ? ', and the record does not even hold all the heat' : ''}.`;
    case 'uncertain':
      return `${change}; ${that}: measure before you decide.`;
  }
}

/** The rule by which the word follows from the chance, as it is printed beside it. */
export const WORD_RULE = `Kept from a chance of ${formatPercent(KEPT_FROM)} on, lost up to ${formatPercent(LOST_UP_TO)}; between them, measure.`;

/** What a file that can be read in two ways leaves open, and what settles it. */
export function openReadingSentence({ because, option, taken, other }: OpenReading): string {
  return `${because} It is read as ${taken.words}, but may be meant as ${other.map(({ words }) => words).join(' or ')}: say which (reading option ${option}); until then this log clears nothing.`;
}

/** One sentence for the whole log: the worst probe speaks, then the part as a whole. */
export function verdictSentence(
  verdict: VerdictWord,
  channels: readonly Pick<ChannelVerdict, 'name' | 'verdict'>[],
  notJudged: readonly NotJudged[] = [],
  openReadings: readonly OpenReading[] = [],
): string {
  const named = (word: VerdictWord): string =>
    channels
      .filter((channel) => channel.verdict === word)
      .map(({ name }) => name)
      .join(', ');
  const [lost, uncertain] = [named('lost'), named('uncertain')];
  const namesOf = (isOnPart: boolean) =>
    notJudged.filter((one) => one.isOnPart === isOnPart).map(({ name }) => name);
  const [unknown, left] = [namesOf(true), namesOf(false)];
  const also = [
    ...(lost && uncertain ? [`Uncertain at ${uncertain}.`] : []),
    ...openReadings.map(openReadingSentence),
    ...(unknown.length > 0 ? [`Nothing is known of the metal at ${unknown.join(', ')}: measure there.`] : []),
    ...(left.length > 0 ? [`Not judged: ${left.join(', ')}.`] : []),
  ];
  const told = channels.length === 1 && channels[0]!.name === THE_PART;
  const first = told ? TOLD[verdict] : wordSentence(verdict, lost, uncertain, unknown.length > 0);
  return [first, ...also].join(' ');
}

/** Of heats that were told no probe can be named. */
const TOLD: Readonly<Record<VerdictWord, string>> = {
  kept: 'The temper held.',
  lost: 'The temper is lost.',
  uncertain: 'What was told of the heat cannot clear the part: measure before you decide.',
};

function wordSentence(verdict: VerdictWord, lost: string, uncertain: string, isUnseen: boolean): string {
  switch (verdict) {
    case 'kept':
      return 'The temper held wherever a probe looked.';
    case 'lost':
      return `The temper is lost at ${lost}.`;
    case 'uncertain':
      if (isUnseen && !uncertain) return 'The temper held wherever a probe read, but not every probe did.';
      return uncertain
        ? `The log cannot clear ${uncertain}: measure there before you decide.`
        : 'Each probe by itself is likely fine, but not surely all of them together: measure at the weakest before you decide.';
  }
}
