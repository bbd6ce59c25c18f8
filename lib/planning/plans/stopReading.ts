import { shopLimit } from '../../alloy';
import { slowestInterval } from '../../exposure';
import {
  drawKnobs,
  type PlanPoint,
  type PlanSurfaceOptions,
  type PlatePlan,
  planSurface,
} from '../../heatflow';
import { type Judged, judged, knownOptions, requireNumber, TemperbookError } from '../../quantity';
import { weightedQuantiles } from '../../statistics';
import type { LotWeights } from '../../strength';
import type { Attachment, ToleranceClass } from '../../thermocouple';
import { allowedPeak } from '../allowedPeak';
import { readingAtLimit } from '../readingAtLimit';
import { momentAtLimit } from './momentAtLimit';
import { planExposure } from './planExposure';
import { hottestToKeep, metalsOf, type PlanMetal, placeName } from './planPlaces';
import { SLOPE_MM, slopeProbes } from './slopeProbes';

/** What `stopReading` needs to know. */
export interface StopReadingOptions extends Pick<PlanSurfaceOptions, 'seed' | 'workers' | 'longestWaitS'> {
  /** The probe of the plan that is watched. */
  readonly probe: string;
  /** The metal that has to keep its strength; default the first alloy of the plan in T6, from an inch on. */
  readonly metal?: PlanMetal;
  readonly allowanceFraction?: number;
  /** What coupons or a chart say of its lot. */
  readonly lots?: readonly LotWeights[];
  /** The shop's own limit for that metal, °C or as '440F'; default what the times of this job allow (`allowedPeak`). */
  readonly limitC?: number | string;
  readonly attachment?: Attachment;
  readonly thermocouple?: ToleranceClass;
  readonly placedWithinMm?: number;
  readonly onProgress?: (share: number) => void;
}

const OPTIONS = [
  'probe',
  'metal',
  'allowanceFraction',
  'lots',
  'limitC',
  'attachment',
  'thermocouple',
  'placedWithinMm',
  'seed',
  'workers',
  'longestWaitS',
  'onProgress',
] as const satisfies readonly (keyof StopReadingOptions)[];

/** When to stop, for one plan and one probe. */
export interface StopReading {
  readonly probe: string;
  readonly probeAt: PlanPoint;
  readonly alloy: string;
  readonly temper: string;
  /** The hottest metal that has to keep its strength. */
  readonly critical: { readonly name: string; readonly at: PlanPoint; readonly peakC: Judged };
  /** How hot it may get, °C, and who says so. */
  readonly limitC: number;
  readonly limitFrom: string;
  /** How much it still warms once the arc is out, K: that much the limit is taken lower. */
  readonly overshootK: Judged;
  /** Rise at the probe over the rise of that metal at the moment it comes to the limit: the probe lags. */
  readonly ratio: Judged;
  /** How much later the probe peaks, s. */
  readonly lagS: number;
  /** Reading at which to take the arc off: at `low` in 95 of 100 the metal is not yet at its limit. */
  readonly stopC: Judged;
  /** Highest reading of the job as planned, °C: well above it something is not as planned. */
  readonly plannedC: number;
  /** Slowest usual logger interval that follows the probe, s. */
  readonly slowestIntervalS?: number;
  readonly notes: readonly string[];
}

const DRAWS = 200;

/**
 * What the probe of a plan may show before one must stop. In every plausible job the metal that matters comes to its limit at
 * some moment; what it still warms with the arc out is taken off the limit first (overshoot), and the rise at the probe is read at
 * that very moment, so that its lag is in it. Fixing, wire and place as `readingAtLimit`.
 * @throws TemperbookError for options it does not know, a probe the plan does not have or that may melt, a limit at or below the air,
 * and as `planSurface`.
 */
export function stopReading(plan: PlatePlan, given: StopReadingOptions): StopReading {
  const options = knownOptions(given, OPTIONS, 'stopReading');
  const { probe: name, seed = 1, allowanceFraction, attachment, thermocouple, placedWithinMm } = options;
  const probe = plan.probes.find((one) => one.name === name);
  if (!probe)
    throw new TemperbookError('The plan has no such probe', {
      found: `"${name}"`,
      expected: plan.probes.map((one) => `"${one.name}"`).join(', ') || 'a plan with probes',
    });
  const { ambientC } = plan.surface;
  const limitAboveAir = (limit: number): number => requireNumber(limit, 'limitC', { low: ambientC + 1 });
  // Before the runs: a slip is told at once.
  const givenC = options.limitC === undefined ? undefined : limitAboveAir(shopLimit(options.limitC));
  const metal = metalsOf(plan, options.metal ? [options.metal] : undefined)[0]!;
  const card = metal.alloy;
  const [at] = hottestToKeep(plan, [metal], options.longestWaitS) as [PlanPoint];
  const critical = placeName(card.designation, at);
  const beside = slopeProbes(plan, probe);
  const surface = planSurface(
    { ...plan, probes: [...plan.probes, { name: critical, xMm: at[0], yMm: at[1] }, ...beside] },
    {
      seed,
      ...(options.workers === undefined ? {} : { workers: options.workers }),
      ...(options.longestWaitS === undefined ? {} : { longestWaitS: options.longestWaitS }),
      ...(options.onProgress ? { onDone: options.onProgress } : {}),
    },
  );
  const knobs = drawKnobs(surface.unknowns, DRAWS, seed);
  const there = surface.ways(critical, knobs);
  const here = surface.ways(name, knobs);
  const passesOf = surface.clocks(knobs);
  const exposure = planExposure(surface, critical, knobs);
  const own = allowedPeak(exposure, {
    alloy: card,
    temper: metal.temper,
    ambientC,
    ...(metal.measuredYieldMPa === undefined ? {} : { measuredYieldMPa: metal.measuredYieldMPa }),
    ...(options.lots ? { lots: options.lots } : {}),
    ...(allowanceFraction === undefined ? {} : { allowanceFraction }),
  });
  const limitC = givenC ?? limitAboveAir(own.low);
  const found = knobs.map((_, i) =>
    momentAtLimit(
      { timeS: there.timeS[i]!, tempC: there.tempC[i]! },
      { timeS: here.timeS[i]!, tempC: here.tempC[i]! },
      passesOf[i]!,
      limitC,
      ambientC,
    ),
  );
  const band = (of: (one: (typeof found)[number]) => number, unit: string, because: string): Judged => {
    const [low, middle, high] = weightedQuantiles(Float64Array.from(found, of), [0.05, 0.5, 0.95]) as [
      number,
      number,
      number,
    ];
    return judged(middle, [low, high], unit, [because]);
  };
  const overshootK = band(
    ({ overshoot }) => overshoot,
    'K',
    'What it still warms with the arc out, over the plausible jobs.',
  );
  const ratio = band(
    (one) => one.ratio,
    '1',
    'At the moment the metal that matters comes to its limit, over the plausible jobs.',
  );
  const peakC = band((one) => one.peakC, '°C', 'Over the plausible jobs.');
  const index = (probeName: string) => surface.plan.probes.findIndex((one) => one.name === probeName);
  const run = surface.asPlanned;
  const top = (probeName: string) => run.histories[index(probeName)]!.tempC.reduce((a, b) => Math.max(a, b));
  const planned = top(name);
  const [outer, inner] = beside.map(({ name: probeName }) => top(probeName));
  const kPerMm = outer === undefined || inner === undefined ? 0 : Math.abs(outer - inner) / (2 * SLOPE_MM);
  const stopC = readingAtLimit(
    {
      ratio,
      kPerMm,
      mayHideShare: {
        here: run.mayHideK[index(name)]! / Math.max(1, planned - ambientC),
        critical: run.mayHideK[index(critical)]! / Math.max(1, top(critical) - ambientC),
      },
    },
    {
      limitC: Math.max(ambientC + 1, limitC - overshootK.high),
      ambientC,
      criticalPeakC: Math.max(peakC.nominal, ambientC + 1),
      ...(attachment === undefined ? {} : { attachment }),
      ...(thermocouple === undefined ? {} : { thermocouple }),
      ...(placedWithinMm === undefined ? {} : { placedWithinMm }),
    },
  );
  const interval = slowestInterval(run.histories[index(name)]!, { activationEnergyJPerMol: 130_000 });
  return {
    probe: name,
    probeAt: [probe.xMm, probe.yMm],
    alloy: card.designation,
    temper: metal.temper,
    critical: { name: critical, at, peakC },
    limitC,
    limitFrom:
      options.limitC === undefined
        ? 'what the times of this job allow in 95 of 100'
        : `the limit you gave; the times of this job allow ${own.low.toFixed(0)} °C in 95 of 100`,
    overshootK,
    ratio,
    lagS: weightedQuantiles(
      Float64Array.from(found, ({ lag }) => lag),
      [0.5],
    )[0]!,
    stopC,
    plannedC: planned,
    ...(interval === undefined ? {} : { slowestIntervalS: interval }),
    notes: [
      ...surface.notes,
      ...(ratio.low < FEW
        ? [
            `The probe sees only ${(100 * ratio.low).toFixed(0)} % of the rise of the metal that matters: put it nearer.`,
          ]
        : []),
    ],
  };
}

/** A probe that sees less of the rise than this hardly warns. */
const FEW = 0.4;
