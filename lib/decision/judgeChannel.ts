import { type AlloyCard, meltsFromC, startTemper } from '../alloy';
import {
  acrossDraws,
  asExposure,
  type Exposure,
  exposureShare,
  findPasses,
  type ProbeRecord,
  peak,
  probeExposure,
} from '../exposure';
import { coverage, type ThermalHistory } from '../history';
import { formatChance, formatKept, formatPercent, formatTemp, type Judged, judged } from '../quantity';
import { weightedQuantiles } from '../statistics';
import {
  type Contribution,
  type FamilyBand,
  type Metal,
  type StrengthAfter,
  type StrengthOptions,
  strengthAfter,
} from '../strength';
import { exposureBudget } from './budget';
import { checkLimit, limitsFor } from './limits';
import type { ChannelVerdict, NotJudged } from './verdict';
import { channelSentence } from './wording';

/** A place of the part ready to judge: the record of its probe, and everything about its metal. */
export interface PlaceToJudge {
  readonly name: string;
  /** The record as it was read. */
  readonly history: ThermalHistory;
  readonly exposure: Exposure;
  readonly record?: ProbeRecord;
  /** Start and end of the log, s. */
  readonly spanS: readonly [number, number];
  readonly card: AlloyCard;
  readonly temper: string;
  readonly measuredYieldMPa?: number;
  readonly earlier: readonly (Exposure | ThermalHistory)[];
  readonly allowanceFraction: number;
  readonly limitC?: number | string;
  /** Worked out before, of this exposure and the metals of today (`StrengthOptions`). */
  readonly known?: StrengthOptions['known'];
}

/** The places that can be judged, and those that cannot with the reason. */
export interface PlacesToJudge {
  readonly places: readonly PlaceToJudge[];
  readonly notJudged: readonly NotJudged[];
}

/** The place of a probe: its exposure made from its record. */
export function probePlace(
  channel: Omit<PlaceToJudge, 'exposure' | 'history' | 'record'> & { readonly record: ProbeRecord },
): PlaceToJudge {
  return { ...channel, history: channel.record.history, exposure: probeExposure(channel.record) };
}

/** What so many draws of one channel say, weighed by readings where there are any. */
export function strengthOf(
  channel: PlaceToJudge,
  draws: number,
  {
    weights,
    ...others
  }: Pick<StrengthOptions, 'endOnly' | 'onDraw' | 'goOn'> & { readonly weights?: Float64Array } = {},
): StrengthAfter {
  const { exposure, card, temper, measuredYieldMPa, allowanceFraction, earlier, known } = channel;
  const metal: Metal = { alloy: card, temper, measuredYieldMPa };
  const weightsOf = weights ? () => weights : undefined;
  return strengthAfter(exposure, metal, { ...others, allowanceFraction, earlier, draws, weightsOf, known });
}

/** The verdict on one channel from what its draws came to (`strengthAfter`), and the steps that would settle it (`settleBy`). */
export function channelVerdict(
  channel: PlaceToJudge,
  strength: StrengthAfter,
  settle: readonly string[],
): ChannelVerdict {
  const { name, history, exposure, card, temper, measuredYieldMPa, allowanceFraction, spanS } = channel;
  const passes = findPasses(history);
  const limits = limitsFor(card, channel.limitC).map((limit) => checkLimit(limit, history, exposure));
  const { activationEnergyJPerMol, referenceC } = card.overageing;
  const { coveredS } = coverage(history);
  const topC = peak(history).tempC;
  const peaks = weightedQuantiles(
    acrossDraws(exposure, (drawn) => peak(drawn).tempC),
    [0.05, 0.95],
  );
  const yieldKeptFraction = {
    ...strength.yieldKeptFraction,
    because: [
      ...contributionSentences(strength.contributions),
      ...familySentences(strength.families),
      ...strength.because,
    ],
  };
  const { word: verdict, blind } = strength;
  return {
    name,
    alloy: card.designation,
    temper,
    ...(measuredYieldMPa === undefined ? {} : { measuredYieldMPa }),
    verdict,
    sentence: [
      channelSentence(
        { verdict, yieldKeptFraction, chance: strength.chanceOfRecorded, isBlind: blind.length > 0 },
        allowanceFraction,
      ),
      ...meltingSentence(card, topC),
      ...blind.map(({ because }) => because),
    ].join(' '),
    yieldKeptFraction,
    ultimateKeptFraction: strength.ultimateKeptFraction,
    asReadFraction: strength.asReadFraction!,
    chanceKept: strength.chanceKept,
    yieldMPa: yieldNow(strength.yieldMPa, card, temper, measuredYieldMPa),
    peakC: judged(topC, peaks, '°C', exposure.because),
    limits,
    passes,
    passShare: exposureShare(history, passes, {
      activationEnergyJPerMol: activationEnergyJPerMol.value,
      referenceC,
    }).perPass,
    coveredS,
    uncoveredS: spanS[1] - spanS[0] - coveredS,
    blind,
    doubts: strength.contributions,
    budget: exposureBudget(strength, { limitC: limits[0]?.limitC ?? referenceC, allowanceFraction }),
    settle,
    track: strength.track,
    exposure: asExposure(exposure),
    earlier: channel.earlier.map(asExposure),
  };
}

/** Effects below this do not show in a percentage. */
const NOTICEABLE = 0.005;

/** What moves the answer by half a percent or more, worst first, in sentences. */
function contributionSentences(all: readonly Contribution[]): string[] {
  const told = all
    .filter(({ drop, rise }) => Math.max(drop, rise) >= NOTICEABLE)
    .map(({ of, drop, rise }) => {
      const parts = [
        drop >= NOTICEABLE ? `down ${formatPercent(drop)}` : '',
        rise >= NOTICEABLE ? `up ${formatPercent(rise)}` : '',
      ];
      return `Doubt about ${of}: ${parts.filter(Boolean).join(', ')}.`;
    });
  return told.length ? told : ['No doubt moves the answer by half a percent.'];
}

/** The band with each family of models alone. */
function familySentences(families: readonly FamilyBand[]): string[] {
  return families.map(
    ({ yieldKeptFraction: kept, chance }) =>
      `${kept.because[0]} alone: ${formatKept(kept)}, within the allowance with a chance of ${formatChance(chance)}.`,
  );
}

function meltingSentence(card: AlloyCard, peakC: number): string[] {
  if (peakC < meltsFromC(card)) return [];
  return [
    `It passed ${formatTemp(meltsFromC(card))}, where metal of this alloy begins to melt: if the probe is to be believed, no figure of strength holds there.`,
  ];
}

function yieldNow(yieldMPa: Judged, card: AlloyCard, temper: string, measuredYieldMPa?: number): Judged {
  const { low, high } = startTemper(card, temper).entry.yieldMPa;
  return {
    ...yieldMPa,
    because: [
      measuredYieldMPa === undefined
        ? `From a part like others of its temper (${low}–${high} MPa before welding).`
        : `From ${Math.round(measuredYieldMPa)} MPa measured before welding.`,
    ],
  };
}
