import {
  alloyAt,
  alongTraverse,
  nearestWeld,
  type PlanPoint,
  type PlatePlan,
  type PlateResult,
  planUnknowns,
  planWith,
  solvePlate,
  type TraversePlace,
  traverse,
} from '../../heatflow';
import { type Judged, knownOptions } from '../../quantity';
import { allowedPeak } from '../allowedPeak';
import { type Placement, type PlacementOptions, probePlacement } from '../probePlacement';
import { hottestToKeep, metalsOf, type PlanMetal, placeName } from './planPlaces';

/** What `placeProbe` may be told. */
export interface PlaceProbeOptions
  extends Pick<
    PlacementOptions,
    'allowanceFraction' | 'lots' | 'attachment' | 'thermocouple' | 'placedWithinMm'
  > {
  /** The metal that has to keep its strength; default the first alloy of the plan in T6, from an inch on. */
  readonly metal?: PlanMetal;
  /** The shop's limit for it, °C or as '440F'. */
  readonly limitC: number | string;
  /** Called with the share of the runs done. */
  readonly onProgress?: (share: number) => void;
}

const OPTIONS = [
  'metal',
  'limitC',
  'allowanceFraction',
  'lots',
  'attachment',
  'thermocouple',
  'placedWithinMm',
  'onProgress',
] as const satisfies readonly (keyof PlaceProbeOptions)[];

/** Where a probe tells most of a plan. */
export interface PlacedProbe {
  readonly placement: Placement;
  readonly line: readonly TraversePlace[];
  readonly critical: { readonly name: string; readonly at: PlanPoint; readonly distanceMm: number };
  /** How hot that metal may get for the times of this job. */
  readonly allowedC: Judged;
  /** The plan as it stands, with the places of the line among its probes. */
  readonly result: PlateResult;
  /** Peaks along the line with the least and the most heat the arc may give, °C. */
  readonly otherPeaksC: readonly (readonly number[])[];
}

/** Places along the line, mm from the weld. */
const DISTANCES_MM = [8, 12, 16, 20, 24, 28, 32, 36, 40, 50, 60];
const TOLERANCE_K = 2;
/** The metal that matters, under this name among the probes of the run. */
const CRITICAL = 'metal that matters';

/**
 * Where to put a probe before the arc is struck: finds the hottest metal that has to keep its strength, runs the plan as it stands
 * and with the least and the most heat its arc may give, and compares places on the line from the weld through that metal
 * (`probePlacement`), with what the run may hide of it.
 * @throws TemperbookError for options it does not know, and as `solvePlate` and `probePlacement`.
 */
export function placeProbe(plan: PlatePlan, given: PlaceProbeOptions): PlacedProbe {
  const { metal, onProgress, ...probe } = knownOptions(given, OPTIONS, 'placeProbe');
  const [own] = metalsOf(plan, metal ? [metal] : undefined) as [ReturnType<typeof metalsOf>[number]];
  const [at] = hottestToKeep(plan, [own]) as [PlanPoint];
  const weld = nearestWeld(plan, at);
  const line = traverse({ name: 'line', fromMm: weld.at, towardMm: at, distancesMm: DISTANCES_MM }).filter(
    ({ xMm, yMm }) => alloyAt(plan, [xMm, yMm]) === own.alloy.designation,
  );
  const places = [...line, { name: CRITICAL, xMm: at[0], yMm: at[1] }].map(({ name, xMm, yMm }) => ({
    name,
    xMm,
    yMm,
  }));
  const power = planUnknowns(plan).find(({ name }) => name === 'power')!;
  const solve = (factor: number, k: number) => {
    const run = solvePlate(
      { ...planWith(plan, { power: factor }), probes: [...plan.probes, ...places] },
      { toleranceK: TOLERANCE_K },
    );
    onProgress?.((k + 1) / 3);
    return run;
  };
  const [result, least, most] = [1, power.low, power.high].map(solve) as [
    PlateResult,
    PlateResult,
    PlateResult,
  ];
  const critical = (run: PlateResult) => run.probes.find(({ name }) => name === CRITICAL)!.history;
  const { columns, cellMm, originMm } = result.grid;
  const cell =
    Math.floor((at[1] - originMm[1]) / cellMm) * columns + Math.floor((at[0] - originMm[0]) / cellMm);
  const { alloy, temper } = own;
  const { ambientC } = plan.surface;
  const placement = probePlacement(alongTraverse(result, line), {
    ...probe,
    alloy,
    temper,
    ambientC,
    critical: critical(result),
    criticalMayHideK: result.doubt.differenceK[cell]!,
    otherHeats: [least, most].map((run) => ({
      critical: critical(run),
      places: alongTraverse(run, line).map(({ history }) => history),
    })),
  });
  const { allowanceFraction, lots } = probe;
  return {
    placement,
    line,
    critical: { name: placeName(alloy.designation, at), at, distanceMm: weld.distanceMm },
    allowedC: allowedPeak(critical(result), {
      alloy,
      temper,
      ambientC,
      ...(lots ? { lots } : {}),
      ...(allowanceFraction === undefined ? {} : { allowanceFraction }),
    }),
    result,
    otherPeaksC: [least, most].map((run) => alongTraverse(run, line).map(({ peakC }) => peakC)),
  };
}
