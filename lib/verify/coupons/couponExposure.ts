import { type Exposure, fixingDoubt, USUAL_WIRE, wireDoubts } from '../../exposure';
import { thermalHistory } from '../../history';
import { formatTemp, TemperbookError } from '../../quantity';
import type { Coupon } from './coupon';
import { dipExposure } from './dipExposure';

/** A log of a coupon begins and ends below this, °C: all its heat is in it. */
const COLD_C = 60;

/**
 * What a coupon saw: its dip, or the log on it with what its wire (usual, type K) and its fixing leave open. It goes into
 * water at once, so a fall that no part could show is no sign of a probe that let go.
 * @throws TemperbookError as `dipExposure`, and for a log that does not begin and end cold.
 */
export function couponExposure({ name, heat }: Pick<Coupon, 'name' | 'heat'>): Exposure {
  if ('into' in heat) return dipExposure(heat);
  const history = thermalHistory(Float64Array.from(heat.timeS), Float64Array.from(heat.tempC));
  const [first, last] = [history.tempC[0]!, history.tempC[history.tempC.length - 1]!];
  if (first > COLD_C || last > COLD_C)
    throw new TemperbookError(`The log of the coupon "${name}" does not hold all its heat`, {
      found: `it begins at ${formatTemp(first)} and ends at ${formatTemp(last)}`,
      expected: `a log from cold to cold, below ${formatTemp(COLD_C)}`,
      remedy: 'Leave this coupon out, or heat another',
    });
  return {
    history,
    doubts: [
      ...wireDoubts(history, USUAL_WIRE),
      fixingDoubt(history, heat.attachment ?? 'not stated', Math.min(first, last)),
    ],
    blind: [],
    because: ['As logged on the coupon itself.'],
  };
}
