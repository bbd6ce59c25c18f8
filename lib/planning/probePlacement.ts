import { type AlloyCard, loadAlloy, shopLimit, withMetal } from '../alloy';
import {
  condense,
  exactly,
  findPasses,
  fixingDoubt,
  peak,
  slowestInterval,
  USUAL_WIRE,
  wireDoubts,
} from '../exposure';
import { checkHistory, slice, type ThermalHistory } from '../history';
import { type Judged, judged, knownOptions, requireList, requireNumber, TemperbookError } from '../quantity';
import { type LotWeights, lotDraws, ROUTINE_DRAWS, strengthAfter, type VerdictWord } from '../strength';
import { faceDoubt, type SoftZonePlace } from './placeExposure';
import { type ProbeAndLimit, readingAtLimit } from './readingAtLimit';

/** What `probePlacement` needs to know. */
export interface PlacementOptions extends ProbeAndLimit {
  /** The alloy, or alloy and temper in one word: 'A356-T6'. */
  readonly alloy: AlloyCard | string;
  readonly temper?: string;
  readonly allowanceFraction?: number;
  /** What coupons or a chart say of the lot of metal. */
  readonly lots?: readonly LotWeights[];
  /** History of the hottest metal that must keep its temper. */
  readonly critical: ThermalHistory;
  /** How much hotter than told it may have been, K (`mayHideK` of `hottestMetal`); default 0. */
  readonly criticalMayHideK?: number;
  /** The same job with less and with more heat: how reading and metal go together there. */
  readonly otherHeats?: readonly {
    readonly critical: ThermalHistory;
    /** In the order of the places. */
    readonly places: readonly ThermalHistory[];
  }[];
}

const OPTIONS = [
  'alloy',
  'temper',
  'allowanceFraction',
  'lots',
  'limitC',
  'ambientC',
  'attachment',
  'thermocouple',
  'placedWithinMm',
  'critical',
  'criticalMayHideK',
  'otherHeats',
] as const satisfies readonly (keyof PlacementOptions)[];

/** What a probe at one place would tell of the metal that matters. */
export interface ProbePlace {
  readonly distanceMm: number;
  /** Metal there, °C. */
  readonly peakC: number;
  /** How much cooler the metal here peaks than the metal that matters, K. */
  readonly hidesK: number;
  /** How much later it peaks, in the pass that heats the metal that matters most, s. */
  readonly lagS: number;
  /** Rise here over the rise of the metal that matters; the band over the heats of the job. */
  readonly ratio: Judged;
  /** How much more than told this place and the metal that matters may have risen, as shares of their rise. */
  readonly mayHideShare: { readonly here: number; readonly critical: number };
  /** Fall of the peak per millimetre away from the weld, K. */
  readonly kPerMm: number;
  /**
   * Reading with the metal that matters at its limit, °C. Stop at `low`: there it may already be at the limit.
   * `nominal` is the likely reading, `high` the highest that still could mean it.
   */
  readonly readingAtLimitC: Judged;
  /** How far the metal that matters may be above what the reading suggests, K: the smaller, the better the place. */
  readonly blindK: number;
  /** Slowest usual logger interval that follows the metal here, s; absent when ten readings a second are too few. */
  readonly slowestIntervalS?: number;
  /** What a verdict from a probe here alone would say of the job as planned. */
  readonly verdictHere: VerdictWord;
  readonly doubtful: boolean;
}

/** The places of a line compared as places for a probe. */
export interface Placement {
  readonly limitC: number;
  /** Peak of the metal that matters as planned, °C; the band over the heats of the job. */
  readonly criticalPeakC: Judged;
  /** What a verdict from the same probe on the metal that matters itself would say. */
  readonly criticalVerdict: VerdictWord;
  readonly places: readonly ProbePlace[];
  /** The place that tells most: smallest `blindK` where plan view holds. */
  readonly best: ProbePlace;
}

/**
 * Where to put a probe: how the reading at each place of a line goes together with the hottest metal that must
 * keep its temper (`readingAtLimit`), and what a probe there would hide. Molten places are left out.
 * @throws TemperbookError for options it does not know, as `strengthAfter` and `shopLimit`, for no solid place, a critical metal that is not heated, and other heats
 * that do not hold every place.
 */
export function probePlacement(places: readonly SoftZonePlace[], given: PlacementOptions): Placement {
  const options = withMetal(knownOptions(given, OPTIONS, 'probePlacement'));
  const { critical, otherHeats = [] } = options;
  const criticalMayHideK = requireNumber(options.criticalMayHideK ?? 0, 'criticalMayHideK', { low: 0 });
  for (const place of requireList(places, 'Places for a probe', 1)) checkHistory(place?.history);
  const ambientC = requireNumber(options.ambientC, 'The air round the part (ambientC)');
  const limitC = requireNumber(shopLimit(options.limitC), 'limitC', { low: ambientC });
  const criticalPeakC = peak(critical).tempC;
  check(places, options, criticalPeakC);
  const solid = places.flatMap((place, k) =>
    place.molten
      ? []
      : [{ ...place, others: otherHeats.map((heat) => [heat.places[k]!, heat.critical] as const) }],
  );
  const peaks = solid.map(({ history }) => peak(history).tempC);
  const rows = solid.map(
    ({ distanceMm, history, doubtful = false, faceExcessK = 0, others }, k): ProbePlace => {
      const ratioOf = (here: ThermalHistory, there: ThermalHistory): number =>
        (peak(here).tempC - ambientC) / (peak(there).tempC - ambientC);
      const ratio = judged(
        ratioOf(history, critical),
        others.map(([here, there]) => ratioOf(here, there)),
        '1',
        ['From the job as planned; the band from the same job with other heats.'],
      );
      const kPerMm = slopeAt(solid, peaks, k);
      const mayHideShare = {
        here: faceExcessK / Math.max(1, peaks[k]! - ambientC),
        critical: criticalMayHideK / (criticalPeakC - ambientC),
      };
      const readingAtLimitC = readingAtLimit({ ratio, kPerMm, mayHideShare }, { ...options, criticalPeakC });
      const interval = slowestInterval(history, { activationEnergyJPerMol: 130_000 });
      return {
        distanceMm,
        peakC: peaks[k]!,
        hidesK: criticalPeakC - peaks[k]!,
        lagS: lagOf(history, critical),
        ratio,
        mayHideShare,
        kPerMm,
        readingAtLimitC,
        // What this place may itself be hotter than told stands in its middle: a reading says the less of the other metal.
        blindK:
          ((readingAtLimitC.nominal - ambientC) * (1 + mayHideShare.here / 2) -
            (readingAtLimitC.low - ambientC)) /
          ratio.nominal,
        ...(interval === undefined ? {} : { slowestIntervalS: interval }),
        verdictHere: verdictOf(history, options, faceExcessK),
        doubtful,
      };
    },
  );
  const best = (rows.some(({ doubtful }) => !doubtful) ? rows.filter((r) => !r.doubtful) : rows).reduce(
    (a, b) => (b.blindK < a.blindK ? b : a),
  );
  return {
    limitC,
    criticalPeakC: judged(
      criticalPeakC,
      [...otherHeats.map((heat) => peak(heat.critical).tempC), criticalPeakC].flatMap((peakC) => [
        peakC,
        peakC + criticalMayHideK,
      ]),
      '°C',
      ['From the job as planned; the band from the same job with other heats, and what the run may hide.'],
    ),
    criticalVerdict: verdictOf(critical, options, criticalMayHideK),
    places: rows,
    best,
  };
}

/** Fall of the peak per millimetre between the neighbours of a place, K; 0 with a single place. */
function slopeAt(places: readonly SoftZonePlace[], peaks: readonly number[], k: number): number {
  const before = Math.max(0, k - 1);
  const after = Math.min(places.length - 1, k + 1);
  if (before === after) return 0;
  return (peaks[before]! - peaks[after]!) / (places[after]!.distanceMm - places[before]!.distanceMm);
}

/** In the pass in which the critical metal is hottest: peak here less peak there, s. */
function lagOf(here: ThermalHistory, critical: ThermalHistory): number {
  const hottestS = peak(critical).timeS;
  const pass = findPasses(critical).find(({ startS, endS }) => startS <= hottestS && hottestS <= endS);
  return pass ? peak(slice(here, pass.startS, pass.endS)).timeS - hottestS : peak(here).timeS - hottestS;
}

/** What a verdict on metal with this history, read by such a probe, would say. */
function verdictOf(history: ThermalHistory, options: PlacementOptions, mayHideK: number): VerdictWord {
  const {
    alloy,
    temper,
    allowanceFraction,
    attachment = 'not stated',
    thermocouple = USUAL_WIRE,
    ambientC,
    lots = [],
  } = options;
  const short = condense(history);
  const exposure = {
    ...exactly(short),
    doubts: [
      ...wireDoubts(short, thermocouple),
      fixingDoubt(short, attachment, ambientC),
      ...faceDoubt(short, ambientC, mayHideK),
    ],
  };
  const asked = { allowanceFraction, draws: lotDraws(lots, ROUTINE_DRAWS).count, endOnly: true };
  return strengthAfter(exposure, { alloy, temper, lots }, asked).word;
}

function check(
  places: readonly SoftZonePlace[],
  { alloy, ambientC, otherHeats = [] }: PlacementOptions,
  criticalPeakC: number,
): void {
  const { solidusC } = loadAlloy(alloy).thermal;
  if (places.every(({ molten }) => molten))
    throw new TemperbookError('No place on this line stays solid', {
      found: `${places.length} places, all in the weld pool`,
      remedy: 'Ask for places further from the weld',
    });
  if (!(criticalPeakC > ambientC + 1 && criticalPeakC < solidusC.value))
    throw new TemperbookError('The metal that must keep its temper is not warmed, or it melts', {
      found: `a peak of ${criticalPeakC.toFixed(0)} °C`,
      expected: `between ambient (${ambientC} °C) and the beginning of melting (${solidusC.value} °C)`,
      remedy: 'Choose metal that the job heats without melting it',
    });
  for (const heat of otherHeats)
    if (heat.places.length !== places.length)
      throw new TemperbookError('A heat to compare with does not hold every place', {
        found: `${heat.places.length} histories for ${places.length} places`,
      });
}
