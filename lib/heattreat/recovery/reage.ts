import { loadAlloy } from '../../alloy';
import { asExposure, type Exposure } from '../../exposure';
import { type ThermalHistory, thermalHistory } from '../../history';
import { formatDuration, formatTemp, formatTempSpan, requireNumber, TemperbookError } from '../../quantity';
import { ROUTINE_DRAWS, strengthAfter } from '../../strength';
import type { HeatedMetal } from './strengthOfPlace';

/** Strength against the time of a re-age at one set point, with what the furnace's own tolerance makes of it. */
export interface ReageCurve {
  readonly tempC: number;
  readonly toleranceK: number;
  readonly timeS: readonly number[];
  /** Share of the yield before the first heat, at the set point. */
  readonly nominal: readonly number[];
  /** At the worst and the best of the set point's tolerance. */
  readonly low: readonly number[];
  readonly high: readonly number[];
  /** 5 % line of the draws at the worst of the tolerance. */
  readonly worst: readonly number[];
}

/** Re-ages to try. */
export interface ReageGrid {
  readonly tempsC: readonly number[];
  readonly timesS: readonly number[];
  /** What the furnace holds, ± K. */
  readonly toleranceK: number;
}

/** Strength is read at the set point and at these shares of the tolerance beside it. */
const SHARES = [-1, -0.5, 0, 0.5, 1] as const;
/** Points of a curve; more would be thinned out. */
const MOST_TIMES = 150;

/**
 * Share of its yield that a place has after ageing again at each of some temperatures for each of some times, with the furnace anywhere
 * within its tolerance: `strengthAfter` going on from what the place saw, on common draws.
 * @throws TemperbookError for no temperature or time, or one that is not positive, and as `strengthAfter`.
 */
export function reageCurves(place: HeatedMetal, { tempsC, timesS, toleranceK }: ReageGrid): ReageCurve[] {
  if (tempsC.length === 0 || timesS.length === 0 || timesS.length > MOST_TIMES)
    throw new TemperbookError('A search for a re-age needs temperatures and times', {
      found: `${tempsC.length} temperatures, ${timesS.length} times`,
      expected: `at least one of each, and at most ${MOST_TIMES} times`,
    });
  requireNumber(toleranceK, 'Tolerance of the furnace in K', { low: 0, high: 50 });
  for (const timeS of timesS) requireNumber(timeS, 'Time of a re-age in s', { low: 1 });
  for (const tempC of tempsC) requireNumber(tempC, 'Temperature of a re-age in °C', { low: 50, high: 300 });
  const ascending = [...timesS].sort((a, b) => a - b);
  const { alloy, temper, measuredYieldMPa } = place;
  const metal = {
    alloy: loadAlloy(alloy),
    temper,
    ...(measuredYieldMPa === undefined ? {} : { measuredYieldMPa }),
  };
  const earlier = [...(place.earlier ?? []), place.exposure].map(asExposure);
  const alone = SHARES.indexOf(0);
  return tempsC.map((tempC) => {
    const rows = SHARES.map((share) =>
      alongTheAge(held(tempC + share * toleranceK, ascending), metal, earlier),
    );
    const across = (line: 'nominal' | 'low', pick: (...values: number[]) => number) =>
      ascending.map((_, k) => pick(...rows.map((row) => row[line][k]!)));
    return {
      tempC,
      toleranceK,
      timeS: ascending,
      nominal: rows[alone]!.nominal,
      low: across('nominal', Math.min),
      high: across('nominal', Math.max),
      worst: across('low', Math.min),
    };
  });
}

/** A hold with a sample at every time asked for. */
function held(tempC: number, timesS: readonly number[]): ThermalHistory {
  return thermalHistory(Float64Array.of(0, ...timesS), new Float64Array(timesS.length + 1).fill(tempC));
}

/** Share kept at every sample of an age but its first. One run serves every time: heat does not look ahead. */
function alongTheAge(
  age: ThermalHistory,
  metal: Parameters<typeof strengthAfter>[1],
  earlier: readonly Exposure[],
): { readonly nominal: number[]; readonly low: number[] } {
  const { nominal, low } = strengthAfter(age, metal, { earlier, draws: ROUTINE_DRAWS }).track;
  return { nominal: [...nominal.slice(1)], low: [...low.slice(1)] };
}

/** The re-age to ask for. */
export interface BestReage {
  readonly tempC: number;
  readonly timeS: number;
  readonly nominal: number;
  readonly worst: number;
  readonly because: string;
}

/** Low ends this close, as a share of the yield, are alike: draws and furnaces tell no more apart. */
const ALIKE = 0.005;

/**
 * The shortest re-age whose low end, the furnace at the worst of its tolerance, is within half a percent of the yield of the
 * highest there is; of equals the higher low end. It is the best of what was tried, not of all there is.
 * @throws TemperbookError when nothing was tried.
 */
export function bestReage(curves: readonly ReageCurve[]): BestReage {
  const tried = curves.flatMap(({ tempC, timeS, nominal, worst, toleranceK }) =>
    timeS.map((s, k) => ({ tempC, timeS: s, nominal: nominal[k]!, worst: worst[k]!, toleranceK })),
  );
  if (tried.length === 0) throw new TemperbookError('There is no re-age to choose from');
  const highest = tried.reduce((most, { worst }) => Math.max(most, worst), Number.NEGATIVE_INFINITY);
  const { toleranceK, ...best } = tried
    .filter(({ worst }) => worst >= highest - ALIKE)
    .reduce((a, b) => (b.timeS < a.timeS || (b.timeS === a.timeS && b.worst > a.worst) ? b : a));
  return {
    ...best,
    because: `Of ${tried.length} tried, ${formatDuration(best.timeS)} at ${formatTemp(best.tempC)} is the shortest whose low end is within half a percent of the highest, with the furnace anywhere within ± ${formatTempSpan(toleranceK)}.`,
  };
}
