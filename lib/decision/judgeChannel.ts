import { type AlloyCard, findTemper, meltsFromC } from '../alloy';
import { exposureShare, findPasses, peak } from '../exposure';
import { coverage, type ThermalHistory } from '../history';
import { type SofteningTrajectory, softeningModel } from '../kinetics';
import { formatPercent, formatTemp, type Judged, judged, type Sourced } from '../quantity';
import type { AgedStart } from '../strength';
import {
  combineEffects,
  type Effect,
  effect,
  effectSentences,
  modelLines,
  type ProbeDoubt,
  type RecordCases,
  recordCases,
} from '../strength';
import { exposureBudget } from './budget';
import { checkLimit, limitsFor } from './limits';
import { settleBy } from './settle';
import type { ChannelVerdict, StrengthTrack, VerdictWord } from './verdict';
import { channelSentence } from './wording';

/** One channel ready to judge: its history, and everything about its probe and metal. */
export interface ChannelCase {
  readonly name: string;
  readonly history: ThermalHistory;
  /** The other probes of the log: they stand in for time this one did not record. */
  readonly neighbours: readonly ThermalHistory[];
  /** Start and end of the log, s. */
  readonly spanS: readonly [number, number];
  readonly card: AlloyCard;
  readonly temper: string;
  readonly measuredYieldMPa?: number;
  readonly probe: ProbeDoubt;
  readonly allowanceFraction: number;
  readonly limitC?: number;
}

/**
 * Judges the metal under one probe. The softening model runs on the record as read and on what the record may
 * have hidden (`recordCases`); each doubt's effect on the strength is a difference to the record as read, and
 * independent doubts add as squares on either side (`combineEffects`). In-range models that disagree with the
 * one that governs widen the band to their own answer.
 */
export function judgeChannel(channel: ChannelCase): ChannelVerdict {
  const { name, history, card, temper, measuredYieldMPa, allowanceFraction, spanS } = channel;
  const from: AgedStart = measuredYieldMPa === undefined ? temper : { temper, measuredYieldMPa };
  const model = softeningModel(card);
  const run = (h: ThermalHistory): SofteningTrajectory => model.advance(model.start(from), h);

  const cases = recordCases(channel);
  const asRead = run(history);
  const runs = { cooler: run(cases.cooler), hotter: run(cases.hotter), readLow: run(cases.readLow) };
  const end = history.timeS.length - 1;
  const { startYieldMPa, temper: curveTemper } = asRead.state.overageing;
  const effects = effectsAt(end, asRead, runs);
  const nominal = asRead.yieldKeptFraction[end]!;
  if (cases.unrecorded) {
    const covered = run(cases.unrecorded.history);
    const ends = [covered.yieldKeptLow, covered.yieldKeptHigh].map((line) => line[line.length - 1]!);
    if (cases.unrecorded.unknownS > 0)
      ends.push(card.overageing.curves[curveTemper]!.floorYieldMPa.low / startYieldMPa);
    effects.push(effect('time the probe did not record', nominal, ends));
  }
  const worse = [cases.readLow, ...(cases.unrecorded ? [cases.unrecorded.history] : [])];
  const { lines, independent } = modelLines(history, card, from, asRead, worse);
  const band = combineEffects(nominal, effects);
  const low = Math.min(nominal, Math.max(band.low, leastYieldMPa(card, curveTemper) / startYieldMPa));
  const wider = independent.filter(({ kept }) => kept.low < low || kept.nominal > band.high);
  const reached = wider.flatMap(({ kept }) => [kept.low, kept.nominal]);
  const yieldKeptFraction = judged(nominal, [low, band.high, ...reached], '1', [
    ...effectSentences(effects),
    ...wider.map(
      ({ model: by, kept }) =>
        `The ${by}, says ${formatPercent(kept.nominal)}, ${formatPercent(kept.low)} at its lowest: the band reaches to it.`,
    ),
    ...cases.because,
  ]);

  const verdict = verdictWord(yieldKeptFraction, 1 - allowanceFraction, cases);
  const typical = measuredYieldMPa === undefined ? findTemper(card, temper).entry.yieldMPa : undefined;
  const yieldMPa = yieldOf(yieldKeptFraction, startYieldMPa, typical);
  const passes = findPasses(history);
  const limits = limitsFor(card, channel.limitC).map((limit) => checkLimit(limit, history, cases));
  const { activationEnergyJPerMol, referenceC } = card.overageing;
  const { coveredS } = coverage(history);
  return {
    name,
    verdict,
    sentence: [
      channelSentence({ verdict, yieldKeptFraction }, allowanceFraction),
      ...meltingSentence(card, peak(history).tempC),
      ...cases.warnings,
    ].join(' '),
    yieldKeptFraction,
    yieldMPa,
    peakC: judged(
      peak(history).tempC,
      [peak(cases.cooler).tempC, peak(cases.readLow).tempC],
      '°C',
      cases.because,
    ),
    limits,
    passes,
    passShare: exposureShare(history, passes, {
      activationEnergyJPerMol: activationEnergyJPerMol.value,
      referenceC,
    }).perPass,
    coveredS,
    uncoveredS: spanS[1] - spanS[0] - coveredS,
    models: lines,
    budget: exposureBudget(model, asRead.state, {
      limitC: limits[0]?.limitC ?? referenceC,
      allowanceFraction,
      isCleared: verdict === 'kept',
    }),
    settle: settleBy({ name, verdict }, card, temper, 1 - allowanceFraction),
    track: trackOf(asRead, runs, yieldKeptFraction, peak(history).timeS),
    remarks: asRead.remarks,
  };
}

type Runs = Readonly<Record<'cooler' | 'hotter' | 'readLow', SofteningTrajectory>>;

function effectsAt(i: number, asRead: SofteningTrajectory, { cooler, hotter, readLow }: Runs): Effect[] {
  const nominal = asRead.yieldKeptFraction[i]!;
  return [
    effect('thermocouple tolerance', nominal, [cooler.yieldKeptFraction[i]!, hotter.yieldKeptFraction[i]!]),
    effect('a probe that reads low (attachment, missed peaks)', nominal, [readLow.yieldKeptFraction[i]!]),
    effect('the softening model', nominal, [asRead.yieldKeptLow[i]!, asRead.yieldKeptHigh[i]!]),
  ];
}

/** The least metal of a temper can be softened to, by coarsening or by dissolution, MPa. */
function leastYieldMPa({ overageing, dissolution }: AlloyCard, temper: string): number {
  return Math.min(overageing.curves[temper]!.floorYieldMPa.low, dissolution.floorYieldMPa.low);
}

function meltingSentence(card: AlloyCard, peakC: number): string[] {
  if (peakC < meltsFromC(card)) return [];
  return [
    `It passed ${formatTemp(meltsFromC(card))}, where metal of this alloy begins to melt: if the probe is to be believed, no figure of strength holds there.`,
  ];
}

/**
 * The band along the record. From the hottest reading on it reaches as far as that of the verdict, which also holds
 * what the other models say and what the probe may have hidden.
 */
function trackOf(asRead: SofteningTrajectory, runs: Runs, verdict: Judged, hottestS: number): StrengthTrack {
  const low = new Float64Array(asRead.timeS.length);
  const high = new Float64Array(asRead.timeS.length);
  for (let i = 0; i < low.length; i++) {
    const band = combineEffects(asRead.yieldKeptFraction[i]!, effectsAt(i, asRead, runs));
    const after = asRead.timeS[i]! >= hottestS;
    low[i] = after ? Math.min(band.low, verdict.low) : band.low;
    high[i] = after ? Math.max(band.high, verdict.high) : band.high;
  }
  // At the end it is the verdict's, which is held where no metal can be softer.
  low[low.length - 1] = verdict.low;
  high[high.length - 1] = verdict.high;
  return { timeS: asRead.timeS, nominal: asRead.yieldKeptFraction, low, high };
}

function verdictWord({ low, high }: Judged, needed: number, { warnings }: RecordCases): VerdictWord {
  if (high < needed) return 'lost';
  return low >= needed && warnings.length === 0 ? 'kept' : 'uncertain';
}

/** Yield now, MPa: a typical start yield brings its own spread from part to part, a measured one does not. */
function yieldOf(kept: Judged, startYieldMPa: number, typical?: Sourced): Judged {
  const nominal = kept.nominal * startYieldMPa;
  const { low, high } = combineEffects(nominal, [
    effect('strength kept', nominal, [kept.low * startYieldMPa, kept.high * startYieldMPa]),
    effect('start', nominal, typical ? [kept.nominal * typical.low, kept.nominal * typical.high] : []),
  ]);
  return judged(nominal, [low, high], 'MPa', [
    typical
      ? `From a typical ${Math.round(startYieldMPa)} MPa before welding (${typical.low}–${typical.high} from part to part).`
      : `From ${Math.round(startYieldMPa)} MPa measured before welding.`,
  ]);
}
