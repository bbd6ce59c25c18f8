import type { Exposure } from '../../exposure';
import { thermalHistory } from '../../history';
import { formatDuration, type Sourced, TemperbookError } from '../../quantity';
import { normalQuantile } from '../../statistics';
import type { Dip } from './coupon';

/** Heat transfer to a small piece, W/(m² K): stirred salt, stirred oil, a furnace of moving air with its radiation. */
const FILM: Readonly<Record<Dip['into'], Sourced>> = {
  salt: film(1000, 600, 2000),
  oil: film(350, 200, 600),
  furnace: film(40, 20, 80),
};

function film(value: number, low: number, high: number): Sourced {
  return { value, low, high, unit: 'W/(m² K)', source: 'textbook range for small parts', known: 'memory' };
}

/** Density times specific heat of aluminium near 200 °C, J/(m³ K): 2700 × 960, from memory. */
const VOLUMETRIC_HEAT = 2.6e6;

/**
 * Time in which a flat coupon comes 63 % of the way to its bath, s: ρ c d/(2 h), both faces wet. Its inside follows at once
 * (Biot number under 0.1 up to 30 mm in salt).
 * @example couponLag({ into: 'salt', thicknessMm: 3 }).value // 3.9
 */
export function couponLag({ into, thicknessMm }: Pick<Dip, 'into' | 'thicknessMm'>): Sourced {
  const { value, low, high, known, source } = FILM[into];
  const lagS = (h: number): number => (VOLUMETRIC_HEAT * (thicknessMm / 1000)) / (2 * h);
  return { value: lagS(value), low: lagS(high), high: lagS(low), unit: 's', source, known };
}

/** Room and quench, °C; how long the way into the water takes, s. */
const ROOM_C = 20;
const QUENCH_S = 2;
/** Ways in which bath and lag may have been, equally likely; every fifth of the one meets another fifth of the other. */
const WAYS = 5;
const LAG_OF_WAY = [1, 4, 2, 0, 3];
/** Samples of the rise in lags: a straight line between two misses less than 1 % of it. */
const RISE_LAGS = [0, 0.1, 0.2, 0.3, 0.45, 0.6, 0.8, 1, 1.25, 1.5, 1.8, 2.1, 2.5, 3, 3.5, 4, 5, 6, 8];
/** Less than so many lags in the bath, and the time it took says more of the lag than of the metal. */
const LEAST_LAGS = 2;

/**
 * What a coupon saw in a dip: T = bath − (bath − room) exp(−t/lag), then cold water at once. How hot the bath was (its
 * tolerance as 5 to 95 %) and how fast the coupon followed are its doubt.
 * @throws TemperbookError for a dip shorter than twice the longest lag: that takes a log on the coupon.
 */
export function dipExposure(dip: Dip): Exposure {
  const { tempC, timeS, toleranceK = 5 } = dip;
  const lag = couponLag(dip);
  if (timeS < LEAST_LAGS * lag.value)
    throw new TemperbookError('A coupon’s own lag swallows this dip', {
      found: `${formatDuration(timeS)} with a lag of about ${formatDuration(lag.value)}`,
      expected: `at least ${formatDuration(LEAST_LAGS * lag.value)}`,
      remedy: 'Log a probe on the coupon, take a thinner one, or dip it for longer',
    });
  const inBath = RISE_LAGS.map((lags) => lags * lag.value).filter((t) => t < timeS);
  const at = [...inBath, timeS, timeS + QUENCH_S, timeS + QUENCH_S + 1];
  const curve = (bathC: number, lagS: number): Float64Array =>
    Float64Array.from(at, (t) => (t > timeS ? ROOM_C : bathC - (bathC - ROOM_C) * Math.exp(-t / lagS)));
  const middle = curve(tempC, lag.value);
  const runsK = Array.from({ length: WAYS }, (_, k) => {
    const bathC = tempC + (toleranceK / 1.645) * normalQuantile((k + 0.5) / WAYS);
    const lagS = lag.low * (lag.high / lag.low) ** ((LAG_OF_WAY[k]! + 0.5) / WAYS);
    return curve(bathC, lagS).map((temp, i) => temp - middle[i]!);
  });
  return {
    history: thermalHistory(Float64Array.from(at), middle),
    doubts: [{ kind: 'bath', of: 'the bath, and how fast the coupon followed it', runsK }],
    blind: [],
    because: [
      `A dip of ${formatDuration(timeS)}; the coupon comes 63 % of the way in ${formatDuration(lag.low)} to ${formatDuration(lag.high)}.`,
    ],
  };
}
