import { loadAlloy } from '../alloy';
import type { Exposure } from '../exposure';
import type { ThermalHistory } from '../history';
import type { ThermalLog } from '../log';
import { knownOptions, requireNumber } from '../quantity';
import {
  CLOSE_DRAWS,
  DEFAULT_ALLOWANCE,
  isCloseToRule,
  jointChance,
  MOST_DRAWS,
  ROUTINE_DRAWS,
  type StrengthAfter,
  WORST_FIRST,
  wordOf,
} from '../strength';
import { assumptionsOf } from './assumptions';
import { casesOf } from './casesOf';
import { CAUTIONS } from './cautions';
import { type ChannelCase, channelVerdict, strengthOf } from './judgeChannel';
import { JUDGE_OPTIONS, type JudgeOptions } from './judgeOptions';
import type { Verdict } from './verdict';
import { verdictSentence } from './wording';

/**
 * Judges what a log, an exposure or a single history did to the temper of the metal: per channel the yield kept with its
 * band, the chance that it stays within the allowance, the limits crossed, and what to do next; for the part the chance
 * that every judged place does. Strength comes from `strengthAfter`, the word from the rule of `wordOf`.
 *
 * A history is taken for a probe's record without other probes; an `Exposure` as it is.
 * @throws TemperbookError for options it does not know, an unknown alloy or temper, an allowance outside 0–1, a channel
 * named in `byChannel` that the log does not have, or a log without a channel that can be judged.
 */
export function judge(record: ThermalLog | ThermalHistory | Exposure, given: JudgeOptions): Verdict {
  const options = knownOptions(given, JUDGE_OPTIONS, 'judge');
  const allowanceFraction = requireNumber(
    options.allowanceFraction ?? DEFAULT_ALLOWANCE,
    'Allowed loss of yield (as a fraction, 0.1 for 10 %)',
    { low: 0, high: 1 },
  );
  const card = loadAlloy(options.alloy);
  const { cases, notJudged } = casesOf(record, options, allowanceFraction);
  const strengths = enoughDraws(cases);
  const channels = cases.map((one, k) => channelVerdict(one, strengths[k]!));
  const isBlind = strengths.some(({ blind }) => blind.length > 0);
  const chance = jointChance(strengths, 1 - allowanceFraction);
  const worst = WORST_FIRST.find((word) => channels.some((c) => c.verdict === word))!;
  const verdict = worst === 'kept' ? wordOf(chance, isBlind) : worst;
  return {
    alloy: card.designation,
    temper: options.temper,
    allowanceFraction,
    verdict,
    chanceKept: isBlind ? null : chance,
    sentence: verdictSentence(verdict, channels, notJudged),
    channels,
    notJudged,
    assumptions: assumptionsOf(cases),
    cautions: CAUTIONS,
  };
}

/** Strength of every case, with as many draws as tell on which side of the rule every chance lies. */
function enoughDraws(cases: readonly ChannelCase[]): StrengthAfter[] {
  let strengths = cases.map((one) => strengthOf(one, ROUTINE_DRAWS));
  for (const count of [CLOSE_DRAWS, MOST_DRAWS]) {
    const chances = [
      ...strengths.map(({ chanceOfRecorded }) => chanceOfRecorded),
      jointChance(strengths, 1 - cases[0]!.allowanceFraction),
    ];
    if (!chances.some((chance) => isCloseToRule(chance, strengths[0]!.effectiveDraws))) break;
    strengths = cases.map((one) => strengthOf(one, count));
  }
  return strengths;
}
