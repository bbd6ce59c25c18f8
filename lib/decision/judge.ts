import { loadAlloy } from '../alloy';
import type { Exposure } from '../exposure';
import type { ThermalHistory } from '../history';
import type { ThermalLog } from '../log';
import { knownOptions, nowAndThen, requireList, TemperbookError } from '../quantity';
import { allowanceOf, jointChance, WORST_FIRST, wordOf } from '../strength';
import { checkReadings, type Reading } from '../verify';
import { partAction } from './action/partAction';
import { assumptionsOf } from './assumptions';
import { CAUTIONS } from './cautions';
import { isFixingUnknown, withFixingAsked } from './fixingAsked';
import { channelVerdict, type PlaceToJudge } from './judgeChannel';
import { JUDGE_OPTIONS, type JudgeOptions } from './judgeOptions';
import { metalsNamed } from './metalsNamed';
import { madeWith } from './part/madeWith';
import { weighedPart } from './part/weighedPart';
import type { PartExposures } from './places/partExposures';
import { placesToJudge } from './placesToJudge';
import { settleBy } from './settle';
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
 * A history is the course itself as a probe would read it, known between its points and whole: its wire and fixing count,
 * and not what readings may miss between them, before and after. That counts for a log alone, so readings belong in
 * `readLog`. An `Exposure` is taken as it is, and so is each of `PartExposures`.
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
  const { places, notJudged } = placesToJudge(record, options, allowanceFraction, (share) =>
    tell(SHARE_READ * share),
  );
  const openReadings = 'openReadings' in record ? record.openReadings : [];
  const readings = checkReadings(
    options.readings ?? [],
    places.map(({ name }) => name),
  );
  checkBeforeAndAfter(places, readings);
  const lots = requireList(options.lots ?? [], 'Lots');
  const {
    strengths,
    readings: told,
    effectiveDraws,
  } = weighedPart(places, { readings, lots }, { tell: (share) => tell(SHARE_READ + SHARE_DRAWN * share) });
  const settlings = places.map((one, k) => settleBy({ ...one, strength: strengths[k]! }));
  const channels = places.map((one, k) => {
    const verdict = channelVerdict(one, strengths[k]!, settlings[k]!.steps);
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
      places.map((channel, k) => ({
        channel,
        strength: strengths[k]!,
        verdict: channels[k]!,
        settling: settlings[k]!,
      })),
      notJudged,
      options.part,
    ),
    channels,
    notJudged,
    openReadings,
    fixingNotStated: places.filter(isFixingUnknown).map(({ name }) => name),
    ...(readings.length > 0 || lots.length > 0
      ? { readings: { given: readings, effectiveDraws, ...told } }
      : {}),
    ...(lots.length > 0 ? { lots } : {}),
    assumptions: assumptionsOf(places),
    madeWith: madeWith(places.map(({ card: metal }) => metal)),
    cautions: CAUTIONS,
  };
}

/** A bar tested once was tested before the heat or after it: taken for both, it would say that nothing was lost. */
function checkBeforeAndAfter(places: readonly PlaceToJudge[], readings: readonly Reading[]): void {
  for (const { channel, kind, value } of readings) {
    const before = places.find(({ name }) => name === channel)?.measuredYieldMPa;
    if (kind === 'yield' && value === before)
      throw new TemperbookError('The same yield is given before and after the heat', {
        found: `${value} MPa as measuredYieldMPa and as a reading on "${channel}"`,
        expected: 'a yield before the heat from a bar that saw none of it',
        remedy: 'Keep it where it belongs: a bar cut after the heat is a reading',
      });
  }
}
