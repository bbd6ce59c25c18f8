import { loadAlloy, meltsFromC } from '../../alloy';
import { formatDuration, formatTemp, formatTempSpan, requireNumber, TemperbookError } from '../../quantity';
import { loadSchedule } from '../schedule/loadSchedule';
import type { HoldStage, Schedule } from '../schedule/schedule';
import { leastSeconds } from '../schedule/soakHours';

/** A set point with the furnace it takes. */
export interface CommonHold {
  readonly lowC: number;
  readonly highC: number;
  readonly setC: number;
  /** The furnace must hold all of the load within this of the set point, ± K. */
  readonly needsUniformityK: number;
  readonly leastS: number;
  /** null where nothing limits it. */
  readonly mostS: number | null;
  readonly possible: boolean;
  readonly because: string;
}

/** One furnace cycle for several alloys. */
export interface FurnaceWindow {
  readonly solution: CommonHold | null;
  readonly age: CommonHold | null;
  /** Where something of the part begins to melt first, °C. */
  readonly meltsFromC: number;
  readonly because: readonly string[];
}

/** Fusion zone of 6061 with a 4xxx filler, or cast metal: the ternary eutectic of Al-Si-Mg, °C (from memory, high confidence). */
export const AL_SI_MG_EUTECTIC_C = 555;
/** Set point and spread stay this far under the first melting, K; judgement. */
const MELTING_MARGIN_K = 5;

/**
 * One solution treatment and one age for metals that go through the furnace together: the part of the bands that is
 * common to all schedules, under the first melting of any of them and of the weld between them, which no homogenising
 * has spared. An age in common needs a temperature and a time that every schedule takes.
 * @param schedules names or schedules, one for each metal.
 * @param uniformityK what the furnace holds, ± K; default 6, class 2.
 * @throws TemperbookError as `loadSchedule`, or for fewer than two schedules.
 */
export function furnaceWindow(
  schedules: readonly (string | Schedule)[],
  {
    uniformityK = 6,
    welded = true,
    thicknessMm = 12.7,
  }: { readonly uniformityK?: number; readonly welded?: boolean; readonly thicknessMm?: number } = {},
): FurnaceWindow {
  requireNumber(uniformityK, 'Uniformity of the furnace in K', { low: 0, high: 50 });
  if (!Array.isArray(schedules) || schedules.length < 2)
    throw new TemperbookError('A common furnace window needs two schedules or more', {
      found: String(schedules),
      expected: 'a list of schedules, one for each metal',
    });
  const plans = schedules.map((one) => loadSchedule(one));
  const melts = Math.min(
    ...plans.map(({ alloy, meltsFromC: own }) => own ?? meltsFromC(loadAlloy(alloy))),
    ...(welded ? [AL_SI_MG_EUTECTIC_C] : []),
  );
  const solutions = plans.flatMap(({ solution }) => (solution ? [solution] : []));
  const ages = plans.map(({ ages }) => ages);
  return {
    solution:
      solutions.length === plans.length
        ? common(plans, solutions, uniformityK, melts - MELTING_MARGIN_K, thicknessMm)
        : null,
    age: ages.every((steps) => steps.length === 1)
      ? common(
          plans,
          ages.map(([age]) => age!),
          uniformityK,
          melts,
          thicknessMm,
        )
      : null,
    meltsFromC: melts,
    because: [
      `Something begins to melt at ${formatTemp(melts)}${welded ? ', the weld between them included' : ''}.`,
      ...(solutions.length === plans.length ? [] : ['One of the schedules has no solution treatment.']),
      ...(ages.every((steps) => steps.length === 1)
        ? []
        : ['An age in steps, or none, has no window in common with another.']),
    ],
  };
}

function common(
  plans: readonly Schedule[],
  holds: readonly HoldStage[],
  uniformityK: number,
  ceilingC: number,
  thicknessMm: number,
): CommonHold {
  const lowC = Math.max(...holds.map((hold) => hold.lowC));
  const highC = Math.min(ceilingC, ...holds.map((hold) => hold.highC));
  const leastS = Math.max(...holds.map((hold) => leastSeconds(hold, thicknessMm).high));
  const most = Math.min(
    ...holds.map(({ mostH }) => (mostH === null ? Number.POSITIVE_INFINITY : mostH * 3600)),
  );
  const needsUniformityK = (highC - lowC) / 2;
  const told = plans
    .map(
      ({ name }, k) =>
        `${name}: ${formatTemp(holds[k]!.lowC)} to ${formatTemp(holds[k]!.highC)}, ${formatDuration(leastSeconds(holds[k]!, thicknessMm).high)}${holds[k]!.mostH === null ? ' or more' : ` to ${formatDuration(holds[k]!.mostH! * 3600)}`}`,
    )
    .join('; ');
  const because =
    lowC > highC
      ? `no temperature in common (${told})`
      : leastS > most
        ? `no time in common (${told})`
        : needsUniformityK < uniformityK
          ? `the common band of ${formatTemp(lowC)} to ${formatTemp(highC)} takes a furnace that holds ± ${formatTempSpan(needsUniformityK, 1)}; this one holds ± ${formatTempSpan(uniformityK, 1)}`
          : `all schedules take ${formatTemp(lowC)} to ${formatTemp(highC)}`;
  return {
    lowC,
    highC,
    setC: (lowC + highC) / 2,
    needsUniformityK,
    leastS,
    mostS: Number.isFinite(most) ? most : null,
    possible: lowC <= highC && leastS <= most && needsUniformityK >= uniformityK,
    because,
  };
}
