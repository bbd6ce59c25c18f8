import { formatChance, formatKept, formatPercent } from '../../quantity';
import {
  jointChance,
  KEPT_FROM,
  type StrengthAfter,
  type VerdictWord,
  WORST_FIRST,
  wordOf,
} from '../../strength';
import { THE_PART } from '../../verify';
import type { PlaceToJudge } from '../judgeChannel';
import { type Settling, settleBy } from '../settle';
import type { ChannelVerdict, NotJudged } from '../verdict';
import { worstChannel } from '../worstChannel';
import type { AsWelded, PartAction, PartKnown } from './action';
import { asWelded } from './asWelded';
import { waysOn } from './waysOn';

/** One judged place with everything its verdict came from. */
export interface JudgedPlace {
  readonly channel: PlaceToJudge;
  readonly strength: StrengthAfter;
  readonly verdict: ChannelVerdict;
  /** What would settle the verdict of this place alone. */
  readonly settling: Settling;
}

/** What a verdict says to do. */
export const ACTION_IN_WORDS: Readonly<Record<VerdictWord, string>> = {
  kept: 'Use it',
  uncertain: 'Measure first',
  lost: 'Do not use it as it is',
};

/**
 * What to do with the part. The word follows from the joint chance of all judged places, but for soft zones of wrought metal
 * that codes reckon with beside a weld (`asWelded`): those are named in the headline and are no loss of the casting. Where
 * only wrought metal was judged it is the part, and its loss counts.
 */
export function partAction(
  places: readonly JudgedPlace[],
  notJudged: readonly NotJudged[],
  part?: PartKnown,
): PartAction {
  const { allowanceFraction } = places[0]!.channel;
  const soft = ordinarySoftZones(places);
  const held = places.filter(({ verdict }) => !soft.some(({ name }) => name === verdict.name));
  const unseen = notJudged.filter(({ isOnPart }) => isOnPart);
  const isBlind = unseen.length > 0 || held.some(({ strength }) => strength.blind.length > 0);
  const joint = jointChance(
    held.map(({ strength }) => strength),
    1 - allowanceFraction,
  );
  const worst = WORST_FIRST.find((word) => held.some(({ verdict }) => verdict.verdict === word))!;
  const word = worst === 'kept' ? wordOf(joint, isBlind) : worst;
  const named = worstChannel(held.map(({ verdict }) => verdict))!;
  const deciding = held.find(({ verdict }) => verdict === named)!;
  const chance = isBlind ? null : joint;
  // Places that are likely fine one by one may be too many together: then the weakest is measured.
  const isOpen = deciding.verdict.verdict === 'uncertain' || joint < KEPT_FROM;
  const settling = isOpen ? settlingAs(word, deciding) : { steps: [], plans: [] };
  const tubes = soft.map(({ name }) => name).join(', ');
  const asAlways = soft.length > 0 ? null : asWelded(deciding.channel, deciding.verdict);
  return {
    word,
    headline: `${ACTION_IN_WORDS[word]}${word === 'kept' && tubes ? `, with as-welded strength at ${tubes}` : ''}`,
    place: named.name,
    chance,
    reason: reasonOf(word, deciding, held, unseen, chance),
    asWelded: soft,
    plans: settling.plans,
    now: [
      ...stepsOf(word, deciding, settling, held, unseen),
      ...(asAlways && !isBlind
        ? [`Where the design does not count on the temper beside the weld: ${asAlways.sentence}`]
        : []),
    ],
    ways: word === 'kept' || part === undefined ? [] : waysOn(deciding, places, part),
  };
}

/** What would settle a place that is looked at with the part's word. */
function settlingAs(word: VerdictWord, { channel, strength, verdict, settling }: JudgedPlace): Settling {
  return word === verdict.verdict ? settling : settleBy({ ...channel, strength: { ...strength, word } });
}

/** Soft zones as codes have them, beside at least one place that is none. */
function ordinarySoftZones(places: readonly JudgedPlace[]): AsWelded[] {
  const soft = places.flatMap(({ channel, verdict }) => asWelded(channel, verdict) ?? []);
  const castings = places.filter(({ channel }) => channel.card.family !== 'Al-Mg-Si wrought');
  return castings.length > 0 ? soft : [];
}

function reasonOf(
  word: VerdictWord,
  { verdict: { name, sentence, yieldKeptFraction }, channel: { allowanceFraction } }: JudgedPlace,
  held: readonly JudgedPlace[],
  unseen: readonly NotJudged[],
  chance: number | null,
): string {
  const needed = formatPercent(1 - allowanceFraction);
  const together =
    held.length > 1 && chance !== null
      ? ` The chance that ${allOf(held.length)} places together keep the ${needed} is ${formatChance(chance)}.`
      : '';
  const blind = held.filter(({ strength }) => strength.blind.length > 0).map(({ verdict }) => verdict.name);
  const hole = [
    ...(blind.length > 0 ? [` Heat may be missing from the record at ${blind.join(', ')}.`] : []),
    ...(unseen.length > 0
      ? [` Nothing is known of the metal at ${unseen.map((one) => one.name).join(', ')}.`]
      : []),
  ].join('');
  if (word === 'kept')
    return held.length > 1
      ? `Every judged place keeps the ${needed} of its yield you asked for, with a chance of ${formatChance(chance!)} for ${allOf(held.length)} together. ${name} comes nearest to it: ${formatKept(yieldKeptFraction)}.`
      : `${name === THE_PART ? '' : `${name}: `}${sentence}`;
  return `${name === THE_PART ? '' : `${name} decides. `}${sentence}${together}${hole}`;
}

const allOf = (count: number): string => (count === 2 ? 'both' : `all ${count}`);

/** Above this a gain of yield is worth a word about ductility. */
const ROSE_FROM = 1.02;

function stepsOf(
  word: VerdictWord,
  { verdict }: JudgedPlace,
  settling: Settling,
  held: readonly JudgedPlace[],
  unseen: readonly NotJudged[],
): string[] {
  const others = held.filter((one) => one.verdict !== verdict && one.verdict.settle.length > 0);
  const rose = held.filter((one) => one.verdict.yieldKeptFraction.nominal > ROSE_FROM);
  const likewise = others.map((one) => one.verdict.name).join(', ');
  return [
    `${FIRST_STEP[word]}${word === 'uncertain' && likewise ? ` Then likewise at ${likewise}.` : ''}`,
    ...settling.steps,
    ...(unseen.length > 0 ? [`Measure at ${unseen.map(({ name }) => name).join(', ')} too.`] : []),
    ...(rose.length > 0
      ? [
          `The yield rose at ${rose.map((one) => one.verdict.name).join(', ')}: metal that ages on stretches less before it breaks. Where the part must bend before it breaks, count that against it.`,
        ]
      : []),
  ];
}

const FIRST_STEP: Readonly<Record<VerdictWord, string>> = {
  kept: 'Nothing needs measuring for the temper. Check the weld itself as you always do.',
  uncertain: 'Hold the part until one of these is measured, or go on as if the strength were lost.',
  lost: 'Set the part aside and choose one of the ways to go on, or show by a test that it is strong enough.',
};
