import { type AlloyCard, loadAlloy } from '../alloy';
import { shiftTemperature, type ThermalHistory } from '../history';
import { type Judged, judged, TemperbookError } from '../quantity';
import {
  combineEffects,
  DEFAULT_ALLOWANCE,
  type Effect,
  effect,
  effectSentences,
  type JudgeOptions,
  recordCases,
  type Treated,
  type Treatment,
  treated,
  vickersHardness,
} from '../strength';
import type { Attachment, ToleranceClass } from '../thermocouple';
import { type SoftReach, softReach } from './softReach';

/** A place away from the weld with its thermal history, as `alongTraverse` gives it. */
export interface SoftZonePlace {
  readonly distanceMm: number;
  readonly history: ThermalHistory;
  /** The place melted: it is weld metal and not judged. */
  readonly molten?: boolean;
  readonly doubtful?: boolean;
  /** How much hotter the face under the arc was than the history says, K; default 0. */
  readonly faceExcessK?: number;
}

/** One source of doubt about the heat: the histories of all places, in their order, in each of its cases. */
export interface HeatDoubt {
  readonly of: string;
  readonly cases: readonly (readonly ThermalHistory[])[];
}

/** What `softZone` needs to know. */
export interface SoftZoneOptions extends Pick<JudgeOptions, 'alloy' | 'temper' | 'allowanceFraction'> {
  /** Air round the part, °C. */
  readonly ambientC: number;
  /** Independent doubts about the heat, such as one for each pair of `fittedCases`. */
  readonly doubts?: readonly HeatDoubt[];
  /** The probes the heat was fitted to: what they read low by, the fit and all its histories are low by. */
  readonly fittedTo?: { readonly attachment?: Attachment; readonly thermocouple?: ToleranceClass };
}

/** One place of the soft zone. */
export interface SoftZonePoint {
  readonly distanceMm: number;
  readonly peakC: Judged;
  /** Yield over yield before welding. */
  readonly kept: Readonly<Record<Treatment, Judged>>;
  /** Vickers hardness to expect; absent for castings, which have no such relation. */
  readonly vickers?: Readonly<Record<Treatment, Judged>>;
  /** Share of the hardening that dissolved: the part that rest and ageing bring back. */
  readonly dissolvedFraction: number;
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

/**
 * How far the soft zone of a weld reaches: strength kept at every place of a traverse as welded, after three
 * weeks on the shelf and after ageing again, through the softening model.
 *
 * The band holds, as independent effects: the softening model, the doubts about the heat given, the probes the
 * heat was fitted to (`fittedTo`), and the hotter face of metal not evenly warm through its thickness. The reach
 * is the outermost place with less than 1 − allowance left.
 * @throws TemperbookError as `considerRecovery`, for fewer than two places that did not melt, for places not
 * nearest first, and for a doubt that does not hold every place.
 */
export function softZone(places: readonly SoftZonePlace[], options: SoftZoneOptions): SoftZone {
  const { temper, allowanceFraction = DEFAULT_ALLOWANCE, doubts = [] } = options;
  const card = loadAlloy(options.alloy);
  checkPlaces(places, doubts);
  const treat = treated(card, temper);
  const points = places.flatMap((place, k) => {
    if (place.molten) return [];
    const cases = doubts.map(({ of, cases }) => ({ of, histories: cases.map((all) => all[k]!) }));
    return [pointOf(place, [...cases, ...recordDoubts(place, options)], treat, card)];
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
    reach: { asWelded: reach('asWelded'), rested: reach('rested'), reaged: reach('reaged') },
    treatments: treat.names,
    notes: notesOf(places, card),
  };
}

interface PlaceDoubt {
  readonly of: string;
  readonly histories: readonly ThermalHistory[];
}

function pointOf(
  { distanceMm, history, doubtful = false }: SoftZonePlace,
  doubts: readonly PlaceDoubt[],
  { run, kept }: Treated,
  card: AlloyCard,
): SoftZonePoint {
  const end = run(history);
  const now = kept(end);
  const peaks = doubts.map(({ of, histories }) => effect(of, top(history), histories.map(top)));
  const inCases = doubts.map(({ of, histories }) => ({ of, kept: histories.map((h) => kept(run(h))) }));
  const banded = (treatment: Treatment): Judged => {
    const { nominal, low, high, because } = now[treatment];
    const effects: Effect[] = [
      effect('the softening model', nominal, [low, high]),
      ...inCases.map((doubt) =>
        effect(
          doubt.of,
          nominal,
          doubt.kept.map((k) => k[treatment].nominal),
        ),
      ),
    ];
    const band = combineEffects(nominal, effects);
    return judged(nominal, [band.low, band.high], '1', [...effectSentences(effects), ...because]);
  };
  const all = { asWelded: banded('asWelded'), rested: banded('rested'), reaged: banded('reaged') };
  const hottest = combineEffects(top(history), peaks);
  const { startYieldMPa } = end.state.overageing;
  const vickers = (treatment: Treatment): Judged => vickersHardness(all[treatment], startYieldMPa);
  return {
    distanceMm,
    peakC: judged(top(history), [hottest.low, hottest.high], '°C', ['From the heat flow.']),
    kept: all,
    ...(card.family === 'Al-Mg-Si wrought'
      ? {
          vickers: { asWelded: vickers('asWelded'), rested: vickers('rested'), reaged: vickers('reaged') },
        }
      : {}),
    dissolvedFraction: end.state.dissolved.nominal,
    doubtful,
  };
}

/** What the probes of the log and plan view itself leave open at a place. */
function recordDoubts(
  { history, faceExcessK = 0 }: SoftZonePlace,
  { ambientC, fittedTo }: SoftZoneOptions,
): PlaceDoubt[] {
  const { timeS } = history;
  const rise = top(history) - ambientC;
  const { cooler, hotter, readLow } = recordCases({
    history,
    probe: { ambientC, sampled: false, ...fittedTo },
    neighbours: [],
    spanS: [timeS[0]!, timeS[timeS.length - 1]!],
  });
  return [
    ...(fittedTo
      ? [
          { of: 'the wire of the probes', histories: [cooler, hotter] },
          { of: 'probes that read low', histories: [readLow] },
        ]
      : []),
    ...(faceExcessK > 0 && rise > 0
      ? [{ of: 'the hotter face under the arc', histories: [hotFace(history, ambientC, faceExcessK / rise)] }]
      : []),
  ];
}

const hotFace = (history: ThermalHistory, ambientC: number, share: number): ThermalHistory =>
  shiftTemperature(history, (tempC) => share * Math.max(0, tempC - ambientC));

const top = ({ tempC }: ThermalHistory): number => tempC.reduce((a, b) => Math.max(a, b));

function notesOf(places: readonly SoftZonePlace[], card: AlloyCard): string[] {
  const melted = places.filter(({ molten }) => molten).map(({ distanceMm }) => distanceMm);
  const doubted = places.filter(({ molten, doubtful }) => doubtful && !molten);
  return [
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

function checkPlaces(places: readonly SoftZonePlace[], doubts: readonly HeatDoubt[]): void {
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
  for (const { of, cases } of doubts)
    for (const histories of cases)
      if (histories.length !== places.length)
        throw new TemperbookError(`The doubt about ${of} does not hold every place`, {
          found: `${histories.length} histories for ${places.length} places`,
        });
}
