import { type AlloyCard, withMetal } from '../alloy';
import { acrossDraws, asExposure, peak } from '../exposure';
import { checkHistory } from '../history';
import {
  type Judged,
  judged,
  knownOptions,
  nowAndThen,
  requireList,
  requireNumber,
  TemperbookError,
} from '../quantity';
import { weightedQuantiles } from '../statistics';
import {
  allowanceOf,
  type LotWeights,
  lotDraws,
  type MeasuredBefore,
  measuredYield,
  ROUTINE_DRAWS,
} from '../strength';
import { type HeatDoubt, type HeatKnown, placeExposure, type SeenPlace } from './placeExposure';
import { type SoftReach, softReach } from './softReach';
import {
  type AfterTreatment,
  afterTreatments,
  TREATMENTS,
  type Treatment,
  treatmentNames,
} from './treatments';
import { vickersHardness } from './vickersHardness';

/** What `softZone` needs to know. */
export interface SoftZoneOptions extends HeatKnown, MeasuredBefore {
  /** The alloy, or alloy and temper in one word: 'A356-T6'. */
  readonly alloy: AlloyCard | string;
  readonly temper?: string;
  /** What coupons or a chart say of the lot of metal (`lotCard`, `chartLot`). */
  readonly lots?: readonly LotWeights[];
  /** Yield loss that is accepted, fraction; default 0.1. */
  readonly allowanceFraction?: number;
  /** Called now and then with the share of the places done, once it has taken two seconds. */
  readonly onProgress?: (share: number) => void;
}

/** One place of the soft zone. */
export interface SoftZonePoint {
  readonly distanceMm: number;
  readonly peakC: Judged;
  /** Yield over yield before welding: median, 5 and 95 %. */
  readonly kept: Readonly<Record<Treatment, Judged>>;
  /** Chance that the loss stays within the allowance; null where the record of a probe is blind. */
  readonly chanceKept: Readonly<Record<Treatment, number | null>>;
  /** Vickers hardness to expect; absent for castings, which have no such relation. */
  readonly vickers?: Readonly<Record<Treatment, Judged>>;
  readonly doubtful: boolean;
}

/** Strength kept against distance from a weld. */
export interface SoftZone {
  readonly alloy: string;
  readonly temper: string;
  readonly allowanceFraction: number;
  /** The places that did not melt, nearest first. */
  readonly points: readonly SoftZonePoint[];
  readonly reach: Readonly<Record<Treatment, SoftReach>>;
  /** What each treatment is, in words. */
  readonly treatments: Readonly<Record<Treatment, string>>;
  /** What was left out or is doubtful, in sentences. */
  readonly notes: readonly string[];
}

const OPTIONS = [
  'alloy',
  'temper',
  'measuredYieldMPa',
  'measuredHardnessHV',
  'lots',
  'allowanceFraction',
  'ambientC',
  'doubts',
  'fittedTo',
  'onProgress',
] as const satisfies readonly (keyof SoftZoneOptions)[];

/**
 * How far the soft zone of a weld reaches: strength kept at every place of a traverse as welded, after three weeks on the
 * shelf and after ageing again. Each place is an exposure (`placeExposure`), its strength comes from `strengthAfter`. The
 * reach is the outermost place with less than 1 − allowance left. Lots and what was measured before weigh it as they do a verdict.
 * @throws TemperbookError for options it does not know, an alloy or temper without an ageing practice, fewer than two places
 * that did not melt, places not nearest first, and a doubt that does not hold every place.
 */
export function softZone(places: readonly SeenPlace[], given: SoftZoneOptions): SoftZone {
  const options = withMetal(knownOptions(given, OPTIONS, 'softZone'));
  const { alloy: card, temper, doubts = [], lots = [] } = options;
  const metal = { alloy: card, temper, measuredYieldMPa: measuredYield(options, card), lots };
  const allowanceFraction = allowanceOf(options.allowanceFraction);
  requireNumber(options.ambientC, 'The air round the part (ambientC)');
  for (const place of requireList(places, 'Places of a soft zone')) checkPlace(place);
  checkPlaces(places, doubts);
  const tell = nowAndThen(options.onProgress);
  const treatments = treatmentNames(card, temper);
  const points = places.flatMap((place, k) => {
    if (place.molten) return [];
    const exposure = placeExposure(place, k, options);
    const after = afterTreatments(exposure, metal, allowanceFraction);
    tell((k + 1) / places.length);
    const top = peak(exposure.history).tempC;
    const peaks = weightedQuantiles(
      acrossDraws(exposure, (history) => peak(history).tempC),
      [0.05, 0.95],
    );
    return [pointOf(place, judged(top, peaks, '°C', exposure.because), after, card)];
  });
  const reach = (treatment: Treatment): SoftReach =>
    softReach(
      points.map(({ distanceMm, kept }) => ({ distanceMm, kept: kept[treatment] })),
      1 - allowanceFraction,
    );
  return {
    alloy: card.designation,
    temper,
    allowanceFraction,
    points,
    reach: byTreatment(reach),
    treatments,
    notes: [...notesOf(places, card), ...lotDraws(lots, ROUTINE_DRAWS).because],
  };
}

function byTreatment<T>(of: (treatment: Treatment) => T): Record<Treatment, T> {
  return Object.fromEntries(TREATMENTS.map((treatment) => [treatment, of(treatment)])) as Record<
    Treatment,
    T
  >;
}

function pointOf(
  { distanceMm, doubtful = false }: SeenPlace,
  peakC: Judged,
  after: AfterTreatment,
  card: AlloyCard,
): SoftZonePoint {
  return {
    distanceMm,
    peakC,
    kept: byTreatment((treatment) => after[treatment].yieldKeptFraction),
    chanceKept: byTreatment((treatment) => after[treatment].chanceKept),
    ...(card.family === 'Al-Mg-Si wrought'
      ? { vickers: byTreatment((treatment) => vickersHardness(after[treatment].yieldMPa)) }
      : {}),
    doubtful,
  };
}

function notesOf(places: readonly SeenPlace[], card: AlloyCard): string[] {
  const blind = places.flatMap(({ distanceMm, history }) =>
    'doubts' in history ? history.blind.map(({ because }) => `At ${distanceMm} mm: ${because}`) : [],
  );
  const melted = places.filter(({ molten }) => molten).map(({ distanceMm }) => distanceMm);
  const doubted = places.filter(({ molten, doubtful }) => doubtful && !molten);
  return [
    ...blind,
    ...(melted.length > 0
      ? [`Out to ${Math.max(...melted)} mm the metal melted: that is weld metal, not judged here.`]
      : []),
    ...(doubted.length > 0
      ? [
          `Not evenly warm through the thickness, so plan view is doubtful, at ${doubted.map(({ distanceMm }) => distanceMm).join(', ')} mm; where the face under the arc was hotter the band allows for it.`,
        ]
      : []),
    ...(card.family === 'Al-Mg-Si wrought'
      ? []
      : [
          `No relation turns the yield of ${card.designation} into a hardness: compare with cold metal of the same casting.`,
        ]),
  ];
}

function checkPlace(place: SeenPlace): void {
  // From plain JavaScript a place may be missing.
  const history = place?.history;
  if (history && 'doubts' in history) asExposure(history);
  else checkHistory(history);
}

function checkPlaces(places: readonly SeenPlace[], doubts: readonly HeatDoubt[]): void {
  const solid = places.filter(({ molten }) => !molten);
  if (solid.length < 2)
    throw new TemperbookError('A soft zone needs at least two places that did not melt', {
      found: `${solid.length} of ${places.length}`,
      remedy: 'Ask for places further from the weld',
    });
  for (const [k, { distanceMm }] of places.entries())
    if (k > 0 && !(distanceMm > places[k - 1]!.distanceMm))
      throw new TemperbookError('The places of a soft zone must go away from the weld', {
        found: `${places[k - 1]!.distanceMm} mm, then ${distanceMm} mm`,
      });
  for (const { of, ways } of doubts)
    for (const histories of ways)
      if (histories.length !== places.length)
        throw new TemperbookError(`The doubt about ${of} does not hold every place`, {
          found: `${histories.length} histories for ${places.length} places`,
        });
}
