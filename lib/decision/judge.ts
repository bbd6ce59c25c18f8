import { loadAlloy } from '../alloy';
import { asExposure, type Exposure, weightsOfSigns } from '../exposure';
import type { ThermalHistory } from '../history';
import type { ThermalLog } from '../log';
import { knownOptions, nowAndThen, requireList, TemperbookError } from '../quantity';
import { effectiveNumber } from '../statistics';
import {
  allowanceOf,
  CLOSE_DRAWS,
  isCloseToRule,
  jointChance,
  type LotWeights,
  lotsSentence,
  MOST_DRAWS,
  MUTE_BELOW,
  product,
  ROUTINE_DRAWS,
  type StrengthAfter,
  WORST_FIRST,
  weightsOfLots,
  wordOf,
} from '../strength';
import { checkReadings, type Reading, type ReadingWeights, readingWeights } from '../verify';
import { partAction } from './action/partAction';
import { assumptionsOf } from './assumptions';
import { casesOf } from './casesOf';
import { CAUTIONS } from './cautions';
import { isFixingUnknown, withFixingAsked } from './fixingAsked';
import { type ChannelCase, channelVerdict, strengthOf } from './judgeChannel';
import { JUDGE_OPTIONS, type JudgeOptions } from './judgeOptions';
import { metalsNamed } from './metalsNamed';
import { madeWith } from './part/madeWith';
import type { PartExposures } from './places/partExposures';
import type { Verdict } from './verdict';
import { verdictSentence } from './wording';

/** About what share of the work goes into finding what the metal saw, and into the draws. */
const SHARE_READ = 0.2;
const SHARE_DRAWN = 0.6;

/**
 * Judges what a log, an exposure or a single history did to the temper of the metal: per channel the yield kept with its
 * band, the chance that it stays within the allowance, the limits crossed, and what to do next; for the part the chance
 * that every judged place does. Strength comes from `strengthAfter`, the word from the rule of `wordOf`.
 *
 * A history is taken for a probe's record without other probes; an `Exposure` as it is, and so is each of `PartExposures`.
 * @throws TemperbookError for options it does not know, an unknown alloy or temper, an allowance outside 0–1, a channel
 * named in `byChannel` that the log does not have, or a log without a channel that can be judged.
 */
export function judge(
  record: ThermalLog | ThermalHistory | Exposure | PartExposures,
  given: JudgeOptions,
): Verdict {
  const options = metalsNamed(knownOptions(given, JUDGE_OPTIONS, 'judge'));
  const allowanceFraction = allowanceOf(options.allowanceFraction);
  const card = loadAlloy(options.alloy);
  const tell = nowAndThen(options.onProgress);
  const { cases, notJudged } = casesOf(record, options, allowanceFraction, (share) =>
    tell(SHARE_READ * share),
  );
  const openReadings = 'openReadings' in record ? record.openReadings : [];
  const readings = checkReadings(
    options.readings ?? [],
    cases.map(({ name }) => name),
  );
  checkBeforeAndAfter(cases, readings);
  const lots = requireList(options.lots ?? [], 'Lots');
  const {
    strengths,
    readings: told,
    effectiveDraws,
  } = weighed(cases, { readings, lots }, (share) => tell(SHARE_READ + SHARE_DRAWN * share));
  const channels = cases.map((one, k) => {
    const verdict = channelVerdict(one, strengths[k]!);
    return verdict.verdict === 'uncertain' && readings.length === 0 ? withFixingAsked(verdict, one) : verdict;
  });
  const isBlind =
    strengths.some(({ blind }) => blind.length > 0) || notJudged.some(({ isOnPart }) => isOnPart);
  const chance = jointChance(strengths, 1 - allowanceFraction);
  const worst = WORST_FIRST.find((word) => channels.some((c) => c.verdict === word))!;
  const verdict = worst === 'kept' ? wordOf(chance, isBlind) : worst;
  return {
    alloy: card.designation,
    temper: options.temper,
    allowanceFraction,
    verdict,
    chanceKept: isBlind ? null : chance,
    sentence: verdictSentence(verdict, channels, notJudged, openReadings),
    action: partAction(
      cases.map((channel, k) => ({ channel, strength: strengths[k]!, verdict: channels[k]! })),
      notJudged,
      options.part,
    ),
    channels,
    notJudged,
    openReadings,
    fixingNotStated: cases.filter(isFixingUnknown).map(({ name }) => name),
    ...(readings.length > 0 || lots.length > 0
      ? { readings: { given: readings, effectiveDraws, ...told } }
      : {}),
    assumptions: assumptionsOf(cases),
    madeWith: madeWith(cases.map(({ card: metal }) => metal)),
    cautions: CAUTIONS,
  };
}

interface Weighed {
  readonly strengths: readonly StrengthAfter[];
  readonly readings: Pick<ReadingWeights, 'contradicting' | 'because'>;
  /** Draws that the readings leave, as equally likely ones. */
  readonly effectiveDraws: number;
}

/** What is known of part and metal besides the record. */
interface Told {
  readonly readings: readonly Reading[];
  readonly lots: readonly LotWeights[];
}

/** A bar tested once was tested before the heat or after it: taken for both, it would say that nothing was lost. */
function checkBeforeAndAfter(cases: readonly ChannelCase[], readings: readonly Reading[]): void {
  for (const { channel, kind, value } of readings) {
    const before = cases.find(({ name }) => name === channel)?.measuredYieldMPa;
    if (kind === 'yield' && value === before)
      throw new TemperbookError('The same yield is given before and after the heat', {
        found: `${value} MPa as measuredYieldMPa and as a reading on "${channel}"`,
        expected: 'a yield before the heat from a bar that saw none of it',
        remedy: 'Keep it where it belongs: a bar cut after the heat is a reading',
      });
  }
}

/** With fewer effective draws than this more are asked. */
const FEW_EFFECTIVE = 200;

/** Strength of every case, with as many draws as tell on which side of the rule every chance lies. */
function weighed(cases: readonly ChannelCase[], given: Told, tell: (share: number) => void): Weighed {
  const ask = (count: number, goOn?: Weighed): Weighed =>
    withDraws(cases, given, count, tell, goOn?.strengths);
  let answer = ask(ROUTINE_DRAWS);
  for (const count of [CLOSE_DRAWS, MOST_DRAWS]) {
    const { strengths, effectiveDraws } = answer;
    const chances = [
      ...strengths.map(({ chanceOfRecorded }) => chanceOfRecorded),
      jointChance(strengths, 1 - cases[0]!.allowanceFraction),
    ];
    const isClose = chances.some((chance) => isCloseToRule(chance, effectiveDraws));
    if (effectiveDraws >= FEW_EFFECTIVE && !isClose) break;
    answer = ask(count, answer);
  }
  return answer;
}

function withDraws(
  cases: readonly ChannelCase[],
  { readings, lots }: Told,
  count: number,
  tell: (share: number) => void,
  goOn: readonly StrengthAfter[] = [],
): Weighed {
  const run = cases.map((one, k) =>
    strengthOf(one, count, { goOn: goOn[k], onDraw: (share) => tell((k + share) / cases.length) }),
  );
  const signs = cases.map(({ exposure, earlier }) =>
    weightsOfSigns([...earlier.map(asExposure), exposure], count),
  );
  const seen = signs.reduce(product, undefined);
  // Each place counts its own signs itself (`strengthAfter`); a draw is one truth for all places, so it counts the others' too.
  const weigh = (weights: Float64Array | undefined): readonly StrengthAfter[] =>
    cases.map((one, k) => {
      const others = signs.filter((_, other) => other !== k).reduce(product, undefined);
      return strengthOf(one, count, { weights: product(weights, others), goOn: run[k] });
    });
  const byLot = weightsOfLots(lots, count);
  const because = byLot ? [lotsSentence(lots, byLot)] : [];
  const lotSpeaks = byLot !== undefined && (effectiveNumber(byLot) >= MUTE_BELOW || count < MOST_DRAWS);
  const known = lotSpeaks ? byLot : undefined;
  const prior = product(known, seen);
  const before = prior ? weigh(known) : run;
  const unread = { strengths: before, effectiveDraws: prior ? effectiveNumber(prior) : count };
  if (readings.length === 0) return { ...unread, readings: { contradicting: [], because } };
  const { weights: read, ...told } = readingWeights(
    readings,
    cases.map(({ name, card }, k) => ({ name, card, draws: run[k]!.draws, weights: prior })),
  );
  const effectiveDraws = effectiveNumber(product(read, prior)!);
  if (effectiveDraws < MUTE_BELOW && count === MOST_DRAWS)
    return {
      ...unread,
      effectiveDraws,
      readings: {
        because: [...because, ...told.because],
        contradicting: [
          ...told.contradicting,
          `Hardly any draw of log and metal fits the readings (${Math.round(effectiveDraws)} of ${count}): they cannot weigh the verdict, which is without them.`,
        ],
      },
    };
  return {
    strengths: weigh(product(read, known)),
    readings: { ...told, because: [...because, ...told.because] },
    effectiveDraws,
  };
}
