import { asExposure, type BlindTime, type Exposure, weightsOfSigns } from '../exposure';
import type { ThermalHistory } from '../history';
import { type Judged, knownOptions, once, requireList } from '../quantity';
import { effectiveNumber, weightedQuantiles, weightedShare } from '../statistics';
import { allowanceOf } from './allowance';
import { type Contribution, contributions } from './contributions';
import { type FamilyBand, familyBands } from './familyBands';
import { lotsSentence, lotsSpeak, weightsOfLots } from './lot';
import { drawMetals, type Metal, type MetalDraws } from './metal';
import { type DrawsOnTheWay, runDraws } from './runDraws';
import { bandOfDraws } from './summary';
import { KEPT_FROM, LOST_UP_TO, type VerdictWord, wordOf } from './verdictWord';

/** Draws by routine, and how many more where a chance lies close to the rule. */
export const ROUTINE_DRAWS = 400;
/** Draws where a chance lies close to the rule. */
export const CLOSE_DRAWS = 1600;
/** Draws where it still does. */
export const MOST_DRAWS = 4000;

/** What else `strengthAfter` may be told. */
export interface StrengthOptions {
  /** Yield loss that is accepted, fraction; default 0.1. */
  readonly allowanceFraction?: number;
  /** Heats the part had before, in their order. */
  readonly earlier?: readonly (Exposure | ThermalHistory)[];
  /** How much each draw weighs in the light of readings, besides lots and what was seen of the heats; default all alike. */
  readonly weightsOf?: (draws: DrawsOnTheWay) => Float64Array;
  /** Number of draws; default 400, and up to 4,000 where the chance lies close to the rule. */
  readonly draws?: number;
  /** An answer to the very same question with fewer draws, or other weights: its draws are not run again. */
  readonly goOn?: StrengthAfter;
  /** The line as read and what each doubt contributes, worked out before of the very same record and metals. */
  readonly known?: Pick<StrengthAfter, 'asReadFraction' | 'contributions'>;
  /** What the heats before came to, in the place of `earlier`: its draws go on with their weights, lots counted; only the end is asked for. */
  readonly after?: StrengthAfter;
  /** Leave out the course in time, the line as read and what each doubt contributes: only the end is asked for. */
  readonly endOnly?: boolean;
  /** Called after every draw with the share of them that is done; more may follow where the chance lies close to the rule. */
  readonly onDraw?: (share: number) => void;
}

const METAL = ['alloy', 'temper', 'measuredYieldMPa', 'lots'] as const satisfies readonly (keyof Metal)[];
const OPTIONS = [
  'allowanceFraction',
  'earlier',
  'weightsOf',
  'draws',
  'goOn',
  'known',
  'after',
  'endOnly',
  'onDraw',
] as const satisfies readonly (keyof StrengthOptions)[];

/** Strength along an exposure: plain arrays of equal length. */
export interface StrengthTrack {
  readonly timeS: Float64Array;
  readonly nominal: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** What became of the strength. */
export interface StrengthAfter {
  /** Yield now over yield before: median, 5 and 95 % of the draws. Of the recorded part where the record is blind. */
  readonly yieldKeptFraction: Judged;
  /** Ultimate strength likewise; null where no source carries it. */
  readonly ultimateKeptFraction: Judged | null;
  readonly yieldMPa: Judged;
  /** The middle metal on the record exactly as it was read; null where only the end was asked for. Worked out when it is asked for. */
  readonly asReadFraction: number | null;
  /** Share of draws within the allowance; null where part of the record is blind. */
  readonly chanceKept: number | null;
  /** The same for what was recorded, blind or not. */
  readonly chanceOfRecorded: number;
  readonly word: VerdictWord;
  readonly blind: readonly BlindTime[];
  /** Worked out when they are asked for; none where only the end was. */
  readonly contributions: readonly Contribution[];
  /** The same with each family of models below half an hour alone. */
  readonly families: readonly FamilyBand[];
  /** Worked out when it is asked for: an answer with too few draws is never drawn. */
  readonly track: StrengthTrack;
  readonly draws: DrawsOnTheWay;
  /** By draw; absent where nothing weighs. */
  readonly weights?: Float64Array;
  /** How many equally likely draws say as much. */
  readonly effectiveDraws: number;
  readonly because: readonly string[];
}

/** The course in time is drawn with about so many points. */
const TRACK_POINTS = 300;
/** A chance this many Monte Carlo errors from the rule needs no more draws. */
const CLOSE_ERRORS = 3;
const FEW_EFFECTIVE = 200;

/**
 * The strength metal keeps after an exposure: draw i of the record (every doubt at its place, `placeInRange`) run through
 * plausible metal i, so the band holds what the record hides and how the metal answers, each once. Nothing else in the kit
 * makes strength; every door asks here.
 *
 * 400 draws, in low-discrepancy order; 1,600, then 4,000, where the chance lies within three Monte Carlo errors of the rule
 * (`wordOf`) or readings leave fewer than 200 effective draws. The first draws are not run again.
 * @throws TemperbookError for options it does not know, as `drawMetals`, `asExposure` and `weightsOfSigns`, for an allowance outside 0 to 1, and doubts that do not fit their history.
 * @example strengthAfter(isothermal(20, 3600), { alloy: '6061', temper: 'T6' }).chanceKept // 1
 */
export function strengthAfter(
  exposure: Exposure | ThermalHistory,
  metal: Metal,
  options: StrengthOptions = {},
): StrengthAfter {
  knownOptions(metal, METAL, 'The metal of strengthAfter');
  knownOptions(options, OPTIONS, 'strengthAfter');
  const allowance = allowanceOf(options.allowanceFraction);
  const all = [...requireList(options.earlier ?? [], 'Earlier heats'), exposure].map(asExposure);
  const { weightsOf, onDraw, after } = options;
  const endOnly = options.endOnly || after !== undefined;
  const lookAt = endOnly ? new Uint32Array(0) : samplesToShow(all[all.length - 1]!.history);
  const needed = 1 - allowance;
  // What went before holds what the lots say already.
  const given = after ? [] : (metal.lots ?? []);
  const lots = lotsSpeak(given) ? given : [];
  const ask = (count: number, goOn?: DrawsOnTheWay): Asked => {
    const metals = after ? { metals: after.draws.metals, because: after.because } : drawMetals(metal, count);
    const run = runDraws(all, metals, { lookAt, onDraw, goOn, after: after?.draws });
    const known = product(weightsOfLots(lots, count) ?? after?.weights, weightsOfSigns(all, count));
    const weights = product(known, weightsOf?.(run));
    const chance = weightedShare((i) => run.yieldKept[i]! >= needed, count, weights);
    return { metals, run, weights, chance, effectiveDraws: weights ? effectiveNumber(weights) : count };
  };
  const draws = after?.draws.metals.length ?? options.draws;
  const first = draws ?? ROUTINE_DRAWS;
  const goOn = options.goOn && continues(options.goOn, first, lookAt) ? options.goOn : undefined;
  let asked = ask(first, goOn?.draws);
  for (const count of draws === undefined ? [CLOSE_DRAWS, MOST_DRAWS] : [])
    if (needsMore(asked)) asked = ask(count, asked.run);
  const byLots = weightsOfLots(given, asked.run.yieldKept.length);
  const told = byLots ? [lotsSentence(given, byLots)] : [];
  return answerOf(all, asked, lookAt, needed, told, { ...options, endOnly, goOn });
}

/** Weights that all hold; undefined where none do. */
export function product(a: Float64Array | undefined, b: Float64Array | undefined): Float64Array | undefined {
  return a && b ? a.map((weight, i) => weight * b[i]!) : (a ?? b);
}

/** An answer with more draws than are asked now, or without the course in time, has nothing to add to. */
const continues = ({ draws }: StrengthAfter, count: number, lookAt: Uint32Array): boolean =>
  draws.metals.length <= count && draws.onTheWay.length === lookAt.length;

/** Draws that were run, and what they say of the rule. */
interface Asked {
  readonly metals: MetalDraws;
  readonly run: DrawsOnTheWay;
  readonly weights: Float64Array | undefined;
  readonly chance: number;
  readonly effectiveDraws: number;
}

function answerOf(
  all: readonly Exposure[],
  { metals, run, weights, chance, effectiveDraws }: Asked,
  lookAt: Uint32Array,
  needed: number,
  ofLots: readonly string[],
  { endOnly, goOn, after, known: given }: StrengthOptions,
): StrengthAfter {
  const last = all[all.length - 1]!;
  const blind = [...(after?.blind ?? []), ...all.flatMap((one) => one.blind)];
  // Neither line as read nor contributions ask for more draws than these, or for weights.
  const known = given ?? (goOn && goOn.draws.metals.length >= AS_READ_DRAWS ? goOn : undefined);
  const because = [...all.flatMap((one) => one.because), ...metals.because];
  const asRead = once(() => known?.asReadFraction ?? asReadFraction(all, metals));
  const byDoubt = once(() => known?.contributions ?? contributions(all, metals));
  const track = once(() => trackOf(last.history, run, lookAt, weights));
  return {
    yieldKeptFraction: bandOfDraws(run.yieldKept, '1', because, weights),
    ultimateKeptFraction: run.ultimateKept ? bandOfDraws(run.ultimateKept, '1', because, weights) : null,
    yieldMPa: bandOfDraws(
      run.yieldKept.map((kept, i) => kept * run.startYieldMPa[i]!),
      'MPa',
      because,
      weights,
    ),
    get asReadFraction(): number | null {
      return endOnly ? null : asRead();
    },
    chanceKept: blind.length > 0 ? null : chance,
    chanceOfRecorded: chance,
    word: wordOf(chance, blind.length > 0),
    blind,
    get contributions(): readonly Contribution[] {
      return endOnly ? [] : byDoubt();
    },
    families: familyBands(run, needed, weights),
    get track(): StrengthTrack {
      return track();
    },
    draws: run,
    ...(weights ? { weights } : {}),
    effectiveDraws,
    because: [...because, ...ofLots],
  };
}

function trackOf(
  { timeS }: ThermalHistory,
  run: DrawsOnTheWay,
  lookAt: Uint32Array,
  weights: Float64Array | undefined,
): StrengthTrack {
  const lines = run.onTheWay.map((values) => weightedQuantiles(values, [0.05, 0.5, 0.95], weights));
  return {
    timeS: Float64Array.from(lookAt, (i) => timeS[i]!),
    low: Float64Array.from(lines, ([low]) => low!),
    nominal: Float64Array.from(lines, ([, nominal]) => nominal!),
    high: Float64Array.from(lines, ([, , high]) => high!),
  };
}

/** Metals for the line as read: its median needs no more. */
const AS_READ_DRAWS = 200;

function asReadFraction(all: readonly Exposure[], metals: MetalDraws): number {
  const exact = all.map((one) => ({ ...one, doubts: [] }));
  const { yieldKept } = runDraws(exact, { ...metals, metals: metals.metals.slice(0, AS_READ_DRAWS) });
  return weightedQuantiles(yieldKept, [0.5])[0]!;
}

function needsMore({ chance, effectiveDraws }: Asked): boolean {
  return effectiveDraws < FEW_EFFECTIVE || isCloseToRule(chance, effectiveDraws);
}

/** Whether so many draws cannot tell on which side of the rule a chance lies. */
export function isCloseToRule(chance: number, effectiveDraws: number): boolean {
  const error = Math.sqrt(Math.max(chance * (1 - chance), 1 / effectiveDraws) / effectiveDraws);
  return [KEPT_FROM, LOST_UP_TO].some((rule) => Math.abs(chance - rule) < CLOSE_ERRORS * error);
}

/** About 300 samples to show: first, last, and the hottest of every stretch of equally many samples. */
function samplesToShow({ tempC }: ThermalHistory): Uint32Array {
  const last = tempC.length - 1;
  const every = Math.max(1, Math.ceil(tempC.length / TRACK_POINTS));
  const chosen = new Set<number>([0, last]);
  for (let from = 0; from <= last; from += every) {
    let hottest = from;
    for (let i = from; i < Math.min(from + every, last + 1); i++)
      if (tempC[i]! > tempC[hottest]!) hottest = i;
    chosen.add(hottest);
  }
  return Uint32Array.from([...chosen].sort((a, b) => a - b));
}
