import {
  alloyAt,
  alongTraverse,
  type CalibrationChannel,
  coarserPlan,
  fitPlan,
  nearestWeld,
  type PlanFit,
  type PlanPoint,
  type PlanUnknown,
  type PlatePlan,
  type PlateResult,
  planUnknowns,
  solveMany,
  solvePlate,
  type TraversePlace,
} from '../../heatflow';
import { knownOptions, requireNumber, TemperbookError } from '../../quantity';
import { allowanceOf, type LotWeights } from '../../strength';
import type { Attachment, ToleranceClass } from '../../thermocouple';
import type { SoftZonePlace } from '../placeExposure';
import { type SoftZone, softZone } from '../softZone';
import { linePlaces, metalsOf, type PlanMetal } from './planPlaces';
import { unknownPlace } from './unknownPlace';

/** What `fittedSoftZones` may be told. */
export interface FittedZonesOptions {
  /** The metals on the sides of the weld; default every alloy the plan names, in T6. */
  readonly metals?: readonly PlanMetal[];
  /** What coupons or a chart say of the lots of metal in the part. */
  readonly lots?: readonly LotWeights[];
  readonly allowanceFraction?: number;
  /** The probe of the plan each channel is; default the probe of the channel's name. */
  readonly probeOf?: Readonly<Record<string, string>>;
  readonly attachment?: Attachment;
  readonly thermocouple?: ToleranceClass;
  /** How far from its marked place a probe may really sit, mm; default 1. */
  readonly placedWithinMm?: number;
  /** Plausible fits that are run; default 16. */
  readonly draws?: number;
  readonly seed?: number;
  readonly workers?: number;
  /** Told of each thing as it begins. */
  readonly onProgress?: (doing: string) => void;
}

const OPTIONS = [
  'metals',
  'lots',
  'allowanceFraction',
  'probeOf',
  'attachment',
  'thermocouple',
  'placedWithinMm',
  'draws',
  'seed',
  'workers',
  'onProgress',
] as const satisfies readonly (keyof FittedZonesOptions)[];

/** One side of the weld. */
export interface FittedSide {
  readonly zone: SoftZone;
  readonly line: readonly TraversePlace[];
  /** Where the line begins on the weld, and the place it goes through. */
  readonly fromMm: PlanPoint;
  readonly throughMm: PlanPoint;
}

/** The soft zones on all sides of a weld, from its log. */
export interface FittedZones {
  readonly fit: PlanFit;
  /** What the fit calls its unknowns, for a table of it. */
  readonly unknowns: Readonly<Record<string, PlanUnknown>>;
  /** The fitted plan, run on the plan's own cells. */
  readonly result: PlateResult;
  readonly plan: PlatePlan;
  readonly sides: readonly FittedSide[];
}

const DRAWS = 16;
/** Error a step may add, K: a fit compares small differences, its answer does not. */
const ANSWER_TOLERANCE_K = 2;

/**
 * How far the soft zone of a logged weld reaches on each of its sides: the plan fitted to the log (`fitPlan`: arc efficiency, air,
 * clamps, where each probe really sits, with metal and travel speed as nuisances), plausible fits run on the plan's own cells as
 * the doubt of every place, and `softZone` along a line from the weld through the probe of each metal.
 * @throws TemperbookError for options it does not know, a channel without a probe in the plan, and as `fitPlan` and `softZone`.
 */
export function fittedSoftZones(
  channels: readonly CalibrationChannel[],
  plan: PlatePlan,
  given: FittedZonesOptions = {},
): FittedZones {
  const options = knownOptions(given, OPTIONS, 'fittedSoftZones');
  const { probeOf = {}, draws = DRAWS, seed = 1, onProgress, attachment, thermocouple } = options;
  requireNumber(Number.isInteger(draws) ? draws : Number.NaN, 'draws', { low: 3, high: 1000 });
  const withinMm = requireNumber(options.placedWithinMm ?? 1, 'placedWithinMm', { low: 0.01, high: 20 });
  const metals = metalsOf(plan, options.metals);
  const probes = channels.flatMap(
    ({ name }) => plan.probes.find((one) => one.name === (probeOf[name] ?? name)) ?? [],
  );
  if (probes.length < channels.length) throw notInPlan(channels, plan);
  const unknowns = Object.fromEntries(
    probes.map(({ name }): [string, PlanUnknown] => [`place of ${name}`, unknownPlace(plan, name, withinMm)]),
  );
  onProgress?.('fitting the plan to the log');
  const fit = fitPlan(channels, coarserPlan(plan), {
    probeOf,
    more: unknowns,
    nuisance: planUnknowns(plan).filter(({ name }) => NUISANCE.has(name)),
  });
  const sides = metals.map(({ alloy }, m) => {
    const own = probes.filter((probe) => isOf(plan, probe, alloy.designation));
    const through = own.sort((a, b) => distanceOf(plan, a) - distanceOf(plan, b))[0];
    if (!through)
      throw new TemperbookError(`No logged probe sits on ${alloy.designation}`, {
        remedy: 'Log one on each side of the weld, or leave that metal out of metals',
      });
    const point: PlanPoint = [through.xMm, through.yMm];
    return { point, line: linePlaces(plan, alloy.designation, point, m + 1) };
  });
  const planWithLines = (values?: Parameters<PlanFit['planFor']>[0]): PlatePlan => {
    const fitted = fit.planFor(values);
    return {
      ...fitted,
      cellMm: plan.cellMm,
      probes: [...fitted.probes, ...sides.flatMap(({ line }) => line.map(asProbe))],
    };
  };
  onProgress?.(`running the fitted plan and ${draws} plausible fits`);
  const fittedPlan = planWithLines();
  const result = solvePlate(fittedPlan, { toleranceK: ANSWER_TOLERANCE_K });
  const runs = solveMany(
    fit.draws(draws, seed).map((values) => ({
      plan: planWithLines(values),
      toleranceK: ANSWER_TOLERANCE_K,
      longestWaitS: LONGEST_WAIT_S,
    })),
    { workers: options.workers },
  );
  onProgress?.('working out the strength');
  const indexOf = (name: string) => fittedPlan.probes.findIndex((probe) => probe.name === name);
  return {
    fit,
    unknowns,
    result,
    plan: fittedPlan,
    sides: metals.map(({ alloy, temper, measuredYieldMPa }, m): FittedSide => {
      const { line, point } = sides[m]!;
      // What melts in a plausible fit is weld metal as well.
      const places: SoftZonePlace[] = alongTraverse(result, line).map((place, k) => ({
        ...place,
        molten: place.molten || runs.some((run) => run.molten[indexOf(line[k]!.name)]),
      }));
      const zone = softZone(places, {
        alloy,
        temper,
        measuredYieldMPa,
        lots: options.lots,
        allowanceFraction: allowanceOf(options.allowanceFraction),
        ambientC: plan.surface.ambientC,
        fittedTo: {
          ...(attachment === undefined ? {} : { attachment }),
          ...(thermocouple === undefined ? {} : { thermocouple }),
        },
        doubts: [
          { of: 'the fit', ways: runs.map((run) => line.map(({ name }) => run.histories[indexOf(name)]!)) },
        ],
      });
      return { zone, line, fromMm: nearestWeld(plan, point).at, throughMm: point };
    }),
  };
}

/** All names at once, and the one that is probably meant. */
function notInPlan(channels: readonly CalibrationChannel[], { probes }: PlatePlan): TemperbookError {
  const list = (all: readonly { readonly name: string }[]) => all.map(({ name }) => `"${name}"`).join(', ');
  const meant = channels.flatMap(({ name }) => {
    const within = probes.find((probe) => probe.name !== name && name.includes(probe.name));
    return within ? [`"${within.name}" is probably "${name}"`] : [];
  })[0];
  return new TemperbookError('The probes of the plan are not called as the channels of the log', {
    found: `${list(channels)} in the log, ${list(probes) || 'no probe'} in the plan`,
    expected: 'a probe of the plan for every channel on the part',
    remedy: `Call each probe of the plan as its channel${meant ? `: ${meant}` : ''}; or say which it is in probeOf`,
  });
}

const LONGEST_WAIT_S = 4 * 3600;
const NUISANCE = new Set(['conductivity', 'heat capacity', 'travel speed']);

const asProbe = ({ name, xMm, yMm }: TraversePlace) => ({ name, xMm, yMm });
const distanceOf = (plan: PlatePlan, { xMm, yMm }: PlatePlan['probes'][number]): number =>
  nearestWeld(plan, [xMm, yMm]).distanceMm;

function isOf(plan: PlatePlan, { xMm, yMm }: PlatePlan['probes'][number], designation: string): boolean {
  return alloyAt(plan, [xMm, yMm]) === designation;
}
