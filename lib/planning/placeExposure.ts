import {
  betweenDoubt,
  condense,
  type Doubt,
  type Exposure,
  fixingDoubt,
  risesOf,
  USUAL_WIRE,
  wireDoubts,
  withRises,
} from '../exposure';
import { type ThermalHistory, tempAt } from '../history';
import type { Attachment, ToleranceClass } from '../thermocouple';

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

/** A place away from the weld as a run has it, or as a probe there read it (`exposureOf`), with what its record leaves open. */
export interface SeenPlace extends Omit<SoftZonePlace, 'history'> {
  readonly history: ThermalHistory | Exposure;
}

/** One source of doubt about the heat: the histories of all places, in their order, in each of the ways it may have gone. */
export interface HeatDoubt {
  readonly of: string;
  readonly ways: readonly (readonly ThermalHistory[])[];
}

/** What is known of how the heat of the places was found. */
export interface HeatKnown {
  /** Air round the part, °C. */
  readonly ambientC: number;
  /** Independent doubts about the heat, such as one for each pair of `farthestFits`, or the draws of a fit. */
  readonly doubts?: readonly HeatDoubt[];
  /**
   * The probes the heat was fitted to, or that read it: what they read low by, all its histories are low by. An exposure
   * knows its own probe.
   */
  readonly fittedTo?: { readonly attachment?: Attachment; readonly thermocouple?: ToleranceClass };
}

/** Levels at which the path from one way of a doubt to the other is drawn. */
const LEVELS = 9;

/**
 * What metal at a place saw: its history in a heat-flow run, or what a probe read; each doubt about the heat anywhere between its
 * ways; the probes the heat was fitted to; and the face under the arc, up to `faceExcessK` hotter.
 */
export function placeExposure(
  place: SeenPlace,
  index: number,
  { ambientC, doubts = [], fittedTo }: HeatKnown,
): Exposure {
  const seen = 'doubts' in place.history ? place.history : inRun(place.history, ambientC, fittedTo);
  const { history } = seen;
  return {
    ...seen,
    doubts: [
      ...doubts.map(({ of, ways }) =>
        heatDoubt(
          of,
          ways.map((all) => shiftTo(history.timeS, historyOf(place), all[index]!)),
          history.timeS.length,
        ),
      ),
      ...seen.doubts,
      ...faceDoubt(history, ambientC, place.faceExcessK ?? 0),
    ],
  };
}

/** The history of a place without its doubts. */
export const historyOf = ({ history }: SeenPlace): ThermalHistory =>
  'doubts' in history ? history.history : history;

function inRun(whole: ThermalHistory, ambientC: number, fittedTo: HeatKnown['fittedTo']): Exposure {
  const because = ['From the heat flow.'];
  if (!fittedTo) return { history: condense(whole), doubts: [], blind: [], because };
  const rises = risesOf(whole);
  const history = withRises(whole, rises);
  return {
    history,
    doubts: [
      ...wireDoubts(history, fittedTo.thermocouple ?? USUAL_WIRE),
      fixingDoubt(history, fittedTo.attachment ?? 'not stated', ambientC),
      ...betweenDoubt(history, rises),
    ],
    blind: [],
    because,
  };
}

/** Plausible jobs as one doubt, each at its own times, and how far what tells of them may be off either way at worst. */
export const waysDoubts = (
  of: string,
  runsK: readonly Float64Array[],
  runsS: readonly Float64Array[],
  error: { readonly of: string; readonly shiftK: Float64Array },
): Doubt[] => [
  { kind: 'heat flow', of, runsK, runsS },
  { kind: 'heat flow', ...error, spread: { shape: 'even', low: -1, high: 1 } },
];

/** Anywhere between the ways, in their order, with the history as it stands among them. */
function heatDoubt(of: string, shifts: readonly Float64Array[], samples: number): Doubt {
  const nothing = new Float64Array(samples);
  const [first = nothing, last = nothing] = shifts;
  const stops = shifts.length > 2 ? shifts : shifts.length === 1 ? [nothing, first] : [first, nothing, last];
  if (shifts.length > 2) return { kind: 'heat flow', of, runsK: stops };
  const runsK = Array.from({ length: LEVELS }, (_, level) => {
    const at = (level / (LEVELS - 1)) * (stops.length - 1);
    const k = Math.min(stops.length - 2, Math.floor(at));
    return nothing.map((_, i) => stops[k]![i]! + (at - k) * (stops[k + 1]![i]! - stops[k]![i]!));
  });
  return { kind: 'heat flow', of, runsK };
}

/** How much hotter another run had the place, K at the times asked for: runs step on times of their own. */
const shiftTo = (timeS: Float64Array, history: ThermalHistory, other: ThermalHistory): Float64Array =>
  timeS.map((t) => tempAt(other, t) - tempAt(history, t));

/** The face under the arc, up to `faceExcessK` hotter than told where the history is hottest, and in proportion elsewhere. */
export function faceDoubt({ tempC }: ThermalHistory, ambientC: number, faceExcessK: number): Doubt[] {
  const rise = tempC.reduce((top, temp) => Math.max(top, temp), ambientC) - ambientC;
  if (!(faceExcessK > 0 && rise > 0)) return [];
  return [
    {
      kind: 'hotter face',
      of: 'the hotter face under the arc',
      spread: { shape: 'even', low: 0, high: 1 },
      shiftK: tempC.map((temp) => (faceExcessK * Math.max(0, temp - ambientC)) / rise),
    },
  ];
}
