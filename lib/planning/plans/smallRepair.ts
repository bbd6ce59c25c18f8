import { type PlanPoint, type PlanShape, type PlatePass, type PlatePlan, passLengthMm } from '../../heatflow';
import {
  formatDuration,
  formatPercent,
  type Judged,
  knownOptions,
  requireNumber,
  TemperbookError,
} from '../../quantity';
import type { VerdictWord } from '../../strength';
import type { SoftReach } from '../softReach';
import { type ComparePlansOptions, comparePlans, RUN_OPTIONS } from './comparePlans';
import { USUAL_KEEP_FROM_MM } from './planPlaces';
import type { PlanResult } from './planResult';

/** A bead laid to mend a spot: where, how long, and what the set is to show. */
export interface RepairBead {
  readonly name?: string;
  /** Middle of the bead. */
  readonly atMm: PlanPoint;
  readonly lengthMm: number;
  /** Direction of travel; default along x. */
  readonly towardMm?: PlanPoint;
  readonly amps: number;
  readonly volts: number;
  readonly process: NonNullable<PlatePass['process']>;
  readonly travelMmPerMin: number;
  /** Default 5 mm. */
  readonly sourceRadiusMm?: number;
}

/** What `smallRepair` needs besides plan and bead: as `comparePlans`. */
export interface SmallRepairOptions extends Omit<ComparePlansOptions, 'metals' | 'softZone'> {
  readonly alloy: string;
  readonly temper: string;
  readonly measuredYieldMPa?: number;
  /** Places that carry load, by name: they have to keep their strength. */
  readonly stressed: readonly { readonly name: string; readonly shape: PlanShape }[];
}

const OPTIONS = [
  ...RUN_OPTIONS,
  'alloy',
  'temper',
  'measuredYieldMPa',
  'stressed',
  'onProgress',
] as const satisfies readonly (keyof SmallRepairOptions)[];

/** What a small repair does, and what follows. */
export interface SmallRepair {
  /** How far from the bead less than the allowance leaves is kept; absent where the metal ends before a place can be told. */
  readonly softZone?: SoftReach;
  readonly heatJ: number;
  readonly stressed: readonly {
    readonly name: string;
    readonly yieldKeptFraction: Judged;
    readonly chanceKept: number;
    readonly verdict: VerdictWord;
    readonly peakC: number;
  }[];
  /** Accept it where it is; measure hardness there first; or treat the whole part again. */
  readonly then: 'accept locally' | 'measure first' | 'treat the whole part again';
  readonly because: readonly string[];
  readonly result: PlanResult;
}

const RADIUS_MM = 5;

/**
 * What one short bead on a finished part does: how far it softens the metal, whether that meets a place that carries load, and what
 * follows. The part is the plan's, cold, with its clamps; its own passes are left out. A stressed place that keeps its strength in
 * 95 of 100 draws lets the repair be accepted as it is, one that does not in 95 of 100 asks for a whole new heat treatment,
 * and between them a hardness reading decides.
 * @throws TemperbookError for options it does not know, no stressed place, a bead without length, and as `comparePlans`.
 */
export function smallRepair(plan: PlatePlan, bead: RepairBead, given: SmallRepairOptions): SmallRepair {
  const { alloy, temper, measuredYieldMPa, stressed, ...options } = knownOptions(
    given,
    OPTIONS,
    'smallRepair',
  );
  if (!Array.isArray(stressed) || stressed.length === 0)
    throw new TemperbookError('A repair is judged by the places that carry load', {
      found: 'none in stressed',
      remedy: 'Give each a name and a shape of the plan, in mm',
    });
  const repair: PlatePlan = { ...plan, passes: [passOf(bead)], airChanges: [], contacts: always(plan) };
  const own = { alloy, temper, ...(measuredYieldMPa === undefined ? {} : { measuredYieldMPa }) };
  const metals = [
    ...stressed.map(({ shape }) => ({ ...own, area: shape })),
    // The line of the soft zone goes through the hottest metal outside the weld.
    { ...own, keepFromMm: Math.min(USUAL_KEEP_FROM_MM, 12) },
  ];
  const result = comparePlans([{ name: bead.name ?? 'repair', plan: repair }], { ...options, metals })
    .plans[0]!;
  const places = stressed.map(({ name }, k) => {
    const {
      yieldKeptFraction,
      chanceKept,
      verdict,
      places: [place],
    } = result.metals[k]!;
    return { name, yieldKeptFraction, chanceKept, verdict, peakC: place!.peakC };
  });
  const zone = result.metals.at(-1)!.softZone;
  const [worst] = [...places].sort((a, b) => a.chanceKept - b.chanceKept);
  const then =
    worst!.verdict === 'kept'
      ? 'accept locally'
      : worst!.verdict === 'lost'
        ? 'treat the whole part again'
        : 'measure first';
  const reach = zone ? reachInWords(zone) : 'not told';
  return {
    ...(zone ? { softZone: zone } : {}),
    heatJ: result.heatJ,
    stressed: places,
    then,
    because: [
      `A bead of ${bead.lengthMm} mm at ${bead.amps} A burns ${formatDuration(passLengthMm(repair.passes[0]!) / (bead.travelMmPerMin / 60))} and softens the metal ${reach}.`,
      `${worst!.name} keeps ${formatPercent(worst!.yieldKeptFraction.nominal)} (${formatPercent(worst!.yieldKeptFraction.low)} to ${formatPercent(worst!.yieldKeptFraction.high)}); the chance that it is enough is ${formatPercent(worst!.chanceKept)}.`,
      {
        'accept locally':
          'The softened metal does not meet a place that carries load: it can be accepted as it is, with the softened zone in the record.',
        'measure first':
          'Whether the softened metal meets a place that carries load is not sure: measure hardness there against cold metal of the same part before you accept it.',
        'treat the whole part again':
          'The softened metal meets a place that carries load. Only solution treatment, quench and ageing of the whole part bring that back; ageing alone does not.',
      }[then],
      'What the code and the drawing say of repairs comes first.',
    ],
    result,
  };
}

/** The nearest place that is looked at lies 6 mm from the bead. */
const NEAREST_MM = 6;

function reachInWords({ mm, beyond }: SoftReach): string {
  if (beyond) return `at least ${mm.nominal.toFixed(0)} mm from its middle line, as far as was looked`;
  return mm.high === 0
    ? `less than ${NEAREST_MM} mm from its middle line`
    : `up to ${mm.nominal.toFixed(0)} mm from its middle line, ${mm.high.toFixed(0)} mm in 95 of 100`;
}

/** Clamps that stay on all the time; those tied to passes that are left out are left out too. */
const always = (plan: PlatePlan): NonNullable<PlatePlan['contacts']> =>
  (plan.contacts ?? []).filter(({ putOn, takenOff }) => putOn === undefined && takenOff === undefined);

function passOf(bead: RepairBead): PlatePass {
  const {
    atMm,
    towardMm = [atMm[0] + 1, atMm[1]],
    amps,
    volts,
    process,
    travelMmPerMin,
    sourceRadiusMm = RADIUS_MM,
  } = bead;
  const lengthMm = requireNumber(bead.lengthMm, 'lengthMm of the bead', { low: 0.5, high: 5000 });
  const [dx, dy] = [towardMm[0] - atMm[0], towardMm[1] - atMm[1]];
  const mm = Math.hypot(dx, dy);
  if (!(mm > 0)) throw new TemperbookError('The bead has no direction', { found: 'towardMm is atMm' });
  const half = lengthMm / 2 / mm;
  return {
    name: bead.name ?? 'repair',
    path: [
      [atMm[0] - half * dx, atMm[1] - half * dy],
      [atMm[0] + half * dx, atMm[1] + half * dy],
    ],
    travelMmPerMin,
    amps,
    volts,
    process,
    sourceRadiusMm,
  };
}
