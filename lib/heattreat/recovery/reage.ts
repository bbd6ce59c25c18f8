import { isothermal, type ThermalHistory } from '../../history';
import { formatDuration, formatTemp, type Judged, requireNumber, TemperbookError } from '../../quantity';

/** Strength after a re-age, in any unit: of the worst place, or of the one that matters. */
export type StrengthAfterAge = (age: ThermalHistory) => Pick<Judged, 'nominal' | 'low'>;

/** Strength against the time of a re-age at one set point, with what the furnace's own tolerance makes of it. */
export interface ReageCurve {
  readonly tempC: number;
  readonly toleranceK: number;
  readonly timeS: readonly number[];
  /** At the set point. */
  readonly nominal: readonly number[];
  /** Worst and best of the set point's tolerance. */
  readonly low: readonly number[];
  readonly high: readonly number[];
  /** Low end of the model's own band at the worst of the tolerance. */
  readonly worst: readonly number[];
}

/** Strength is read at the set point and at these shares of the tolerance beside it. */
const SHARES = [-1, -0.5, 0, 0.5, 1] as const;

/**
 * Strength after ageing again at each of some temperatures for each of some times, with the furnace anywhere within
 * its tolerance. The strength model is passed in.
 * @throws TemperbookError for no temperature or time, or one that is not positive.
 */
export function reageCurves(
  tempsC: readonly number[],
  timesS: readonly number[],
  toleranceK: number,
  strengthAfter: StrengthAfterAge,
): ReageCurve[] {
  if (tempsC.length === 0 || timesS.length === 0)
    throw new TemperbookError('A search for a re-age needs temperatures and times', {
      found: `${tempsC.length} temperatures, ${timesS.length} times`,
    });
  requireNumber(toleranceK, 'Tolerance of the furnace in K', { low: 0, high: 50 });
  for (const timeS of timesS) requireNumber(timeS, 'Time of a re-age in s', { low: 1 });
  return tempsC.map((tempC) => {
    requireNumber(tempC, 'Temperature of a re-age in °C', { low: 50, high: 300 });
    const rows = timesS.map((timeS) =>
      SHARES.map((share) => strengthAfter(isothermal(tempC + share * toleranceK, timeS))),
    );
    const nominals = rows.map((row) => row.map(({ nominal }) => nominal));
    return {
      tempC,
      toleranceK,
      timeS: timesS,
      nominal: nominals.map((row) => row[SHARES.indexOf(0)]!),
      low: nominals.map((row) => Math.min(...row)),
      high: nominals.map((row) => Math.max(...row)),
      worst: rows.map((row) => Math.min(...row.map(({ low }) => low))),
    };
  });
}

/** The re-age to ask for. */
export interface BestReage {
  readonly tempC: number;
  readonly timeS: number;
  readonly nominal: number;
  readonly worst: number;
  readonly because: string;
}

/**
 * The temperature and time whose low end is highest, the furnace at the worst of its tolerance; of equals the
 * shorter. It is the best of what was tried, not of all there is.
 */
export function bestReage(curves: readonly ReageCurve[]): BestReage {
  const tried = curves.flatMap(({ tempC, timeS, nominal, worst, toleranceK }) =>
    timeS.map((s, k) => ({ tempC, timeS: s, nominal: nominal[k]!, worst: worst[k]!, toleranceK })),
  );
  if (tried.length === 0) throw new TemperbookError('There is no re-age to choose from');
  const { toleranceK, ...best } = tried.reduce((a, b) =>
    b.worst > a.worst || (b.worst === a.worst && b.timeS < a.timeS) ? b : a,
  );
  return {
    ...best,
    because: `Of ${tried.length} tried, ${formatDuration(best.timeS)} at ${formatTemp(best.tempC)} has the highest low end with the furnace anywhere within ± ${toleranceK} K.`,
  };
}
