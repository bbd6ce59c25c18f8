import { type AlloyCard, startTemper } from '../../alloy';
import { asExposure, type Exposure, type TemperatureSign, weightsOfSigns, withSigns } from '../../exposure';
import { ovenAsks, ovenExposure } from '../../heatflow';
import type { ThermalHistory } from '../../history';
import type { ThermalLog } from '../../log';
import { judged, knownOptions, TemperbookError } from '../../quantity';
import {
  allowanceOf,
  jointChance,
  type Metal,
  type StrengthAfter,
  strengthAfter,
  type VerdictWord,
  WORST_FIRST,
  wordOf,
} from '../../strength';
import { THE_PART } from '../../verify';
import { JUDGE_OPTIONS } from '../judgeOptions';
import { metalsNamed } from '../metalsNamed';
import { placesToJudge } from '../placesToJudge';
import { settleBy } from '../settle';
import { channelSentence, VERDICT_IN_WORDS } from '../wording';
import { heatsLeft } from './heatsLeft';
import type { HeatedPlace, HeatStep, HeatsOptions, HeatsVerdict } from './heatsVerdict';
import { ovenOptions, type ReadHeat, readHeats, toldExposures } from './toldHeat';
import { whatWasLost } from './whatWasLost';

const OPTIONS = [
  ...JUDGE_OPTIONS.filter((name) => name !== 'readings' && name !== 'earlier'),
  'oven',
  'wallMm',
  'fan',
  'seen',
  'countLeft',
] as const satisfies readonly (keyof HeatsOptions)[];

/**
 * What heats did to a part of which there may be no log at all: "390F 1.5h", "8 x 200C 20min", a weld's log and then three
 * bakes. Words become exposures (`ovenExposure`), a log brings one for each probe, and strength is `strengthAfter` of all of
 * them in their order, with the word of `wordOf`.
 * @param steps the heats, in their order; at most one log among them.
 * @throws TemperbookError as `parseHeats`, `ovenExposure` and `judge`; for a heat at which the alloy begins to melt; and for
 * more than one log.
 */
export function judgeHeats(steps: HeatStep | readonly HeatStep[], given: HeatsOptions): HeatsVerdict {
  const {
    oven,
    wallMm,
    fan,
    seen = [],
    countLeft = true,
    ...options
  } = knownOptions(given, OPTIONS, 'judgeHeats');
  const allowanceFraction = allowanceOf(options.allowanceFraction);
  const named = metalsNamed(options);
  const made = { oven, wallMm, fan };
  const all = (Array.isArray(steps) ? steps : [steps]).flatMap((step: HeatStep) => stepsOf(step));
  if (all.length === 0) throw new TemperbookError('There is no heat to judge', { expected: 'at least one' });
  const logs = all.filter(isLog);
  if (logs.length > 1)
    throw new TemperbookError('More than one log is given', {
      found: `${logs.length} logs`,
      expected: 'at most one among the heats',
      remedy: 'Judge the later log by itself, with the earlier as the record of the part',
    });
  const { places: asked, notJudged } = logs[0]
    ? placesToJudge(logs[0], named, allowanceFraction)
    : {
        places: [
          {
            name: THE_PART,
            card: named.alloy as AlloyCard,
            temper: named.temper,
            measuredYieldMPa: named.measuredYieldMPa,
            exposure: undefined,
            earlier: [],
          },
        ],
        notJudged: [],
      };
  const before = asked.map(({ card, temper, measuredYieldMPa, exposure, earlier, name }): Placed => {
    const told = all.flatMap((step): Exposure[] => {
      if (isLog(step)) return [exposure!];
      if (!isTold(step)) return [asExposure(step)];
      return toldExposures({ ...step, seen: signsAt(step.seen ?? [], name) }, card, made);
    });
    const exposures = [...earlier.map(asExposure), ...told];
    const last = exposures.length - 1;
    exposures[last] = withSigns(exposures[last]!, signsAt(seen, name));
    return { name, card, temper, metal: { alloy: card, temper, measuredYieldMPa }, exposures };
  });
  checkPlaces(
    [...seen, ...all.filter(isTold).flatMap((step) => step.seen ?? [])],
    before.map(({ name }) => name),
  );
  const strengths = withEqualDraws(before, allowanceFraction);
  const places = before.map(({ name, card, temper, exposures }, k): HeatedPlace => {
    const strength = strengths[k]!;
    const { word, blind, yieldKeptFraction, chanceOfRecorded: chance } = strength;
    return {
      name,
      alloy: card.designation,
      temper,
      word,
      sentence: channelSentence(
        { verdict: word, yieldKeptFraction, chance, isBlind: blind.length > 0 },
        allowanceFraction,
      ),
      yieldKeptFraction,
      yieldMPa: strength.yieldMPa,
      ...ultimateNow(card, temper, strength),
      lost: whatWasLost(strength),
      chanceKept: strength.chanceKept,
      settle: settleBy({ name, card, temper, strength, allowanceFraction }).steps,
      exposures,
      strength,
    };
  });
  const isBlind =
    places.some(({ chanceKept }) => chanceKept === null) || notJudged.some(({ isOnPart }) => isOnPart);
  const chance = jointChance(strengths, 1 - allowanceFraction);
  const worst = WORST_FIRST.find((one) => places.some(({ word }) => word === one))!;
  const word = worst === 'kept' ? wordOf(chance, isBlind) : worst;
  const last = countLeft ? all.filter(isTold).at(-1) : undefined;
  const left =
    last &&
    (word === 'kept'
      ? heatsLeft(strengths, ovenExposure(last.heat, ovenOptions(last, made)), allowanceFraction)
      : { more: 0, sentence: 'It is not cleared: no further heat until it is measured.' });
  return {
    word,
    chanceKept: isBlind ? null : chance,
    allowanceFraction,
    sentence: sentenceOf(word, places),
    places,
    notJudged,
    ...(left ? { left } : {}),
    asks: [...new Set(all.filter(isTold).flatMap((one) => ovenAsks(ovenOptions(one, made))))],
    because: [...new Set(places.flatMap(({ strength }) => strength.because))],
  };
}

interface Placed {
  readonly metal: Metal;
  readonly exposures: readonly Exposure[];
  readonly name: string;
  readonly card: AlloyCard;
  readonly temper: string;
}

type Step = ReadHeat | ThermalLog | Exposure | ThermalHistory;
const isLog = (step: Step): step is ThermalLog => 'channels' in step;
const isTold = (step: Step): step is ReadHeat => 'heat' in step;

const stepsOf = (step: HeatStep): Step[] =>
  typeof step === 'string' || 'heat' in step || 'setC' in step ? readHeats(step) : [step];

/** All strengths with as many draws, joined draw by draw, and weighed by the signs of every place together. */
function withEqualDraws(places: readonly Placed[], allowanceFraction: number): StrengthAfter[] {
  const ask = (
    { metal, exposures }: Placed,
    k: number,
    draws?: number,
    goOn?: StrengthAfter,
  ): StrengthAfter => {
    const others = places.flatMap((place, other) => (other === k ? [] : place.exposures));
    const isSeen = others.some(({ seen = [] }) => seen.length > 0);
    return strengthAfter(exposures[exposures.length - 1]!, metal, {
      allowanceFraction,
      earlier: exposures.slice(0, -1),
      draws,
      goOn,
      endOnly: true,
      ...(isSeen ? { weightsOf: ({ yieldKept }) => weightsOfSigns(others, yieldKept.length)! } : {}),
    });
  };
  const first = places.map((place, k) => ask(place, k));
  const most = Math.max(...first.map(({ draws }) => draws.yieldKept.length));
  return first.map((strength, k) =>
    strength.draws.yieldKept.length === most ? strength : ask(places[k]!, k, most, strength),
  );
}

const signsAt = (seen: readonly TemperatureSign[], name: string): readonly TemperatureSign[] =>
  seen.filter(({ place }) => place === undefined || place === name);

function checkPlaces(seen: readonly TemperatureSign[], names: readonly string[]): void {
  for (const { place } of seen)
    if (place === undefined ? names.length > 1 : !names.includes(place))
      throw new TemperbookError('Where was that seen?', {
        found: place === undefined ? 'a stick or reading without a place' : `"${place}"`,
        expected: `one of ${names.map((name) => `"${name}"`).join(', ')}`,
      });
}

function sentenceOf(word: VerdictWord, places: readonly HeatedPlace[]): string {
  if (places.length === 1) return `${capital(VERDICT_IN_WORDS[word])}. ${places[0]!.sentence}`;
  const worst = WORST_FIRST.flatMap((one) => places.filter((place) => place.word === one))[0]!;
  return `${capital(VERDICT_IN_WORDS[word])}. Worst at ${worst.name}: ${worst.sentence}`;
}

/** The typical ultimate strength of the temper, by the share that is left of it. */
function ultimateNow(
  card: AlloyCard,
  temper: string,
  { ultimateKeptFraction: kept }: StrengthAfter,
): Pick<HeatedPlace, 'ultimateMPa'> {
  const { entry } = startTemper(card, temper);
  if (kept === null || entry.ultimateMPa === undefined) return {};
  const { value, low, high } = entry.ultimateMPa;
  return {
    ultimateMPa: judged(value * kept.nominal, [low * kept.low, high * kept.high], 'MPa', [
      'The typical ultimate strength of the temper, by the share that is left of it.',
    ]),
  };
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
