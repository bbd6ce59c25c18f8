import { type Exposure, historyAt, peak, placeInRange } from '../../exposure';
import { tempAt } from '../../history';
import { effectiveNumber, normalProbability } from '../../statistics';
import { type TemperatureSign, type WeighableSign, weighableSigns } from './temperatureSigns';

/** What signs of temperature do to the draws. */
export interface SignWeights {
  /** By draw of the record; all 1 without a sign. */
  readonly weights: Float64Array;
  /** How many equally likely draws they leave. */
  readonly effectiveDraws: number;
  readonly because: readonly string[];
}

/**
 * How much each draw of the record weighs in the light of sticks and of readings by hand: the chance that the sign comes out
 * as it was seen, were that draw the truth,
 *
 *   at least R: Φ((T − R)/u),  at most R: Φ((R − T)/u),  about R: exp(−½ ((T − R)/u)²),
 *
 * T the hottest of the draw, or its temperature at the time of the reading, u = half width/√3 (JCGM 100:2008, 4.3.7). The
 * signs are of the heat `exposure`; the part was cold before.
 */
export function signWeights(
  signs: readonly TemperatureSign[],
  exposure: Exposure,
  count: number,
): SignWeights {
  const bounds = weighableSigns(signs);
  const room = new Float64Array(exposure.history.timeS.length);
  const weights = Float64Array.from({ length: count }, (_, i) => {
    if (bounds.length === 0) return 1;
    const history = historyAt(exposure, (doubt) => placeInRange(doubt, i), room);
    const topC = peak(history).tempC;
    return bounds.reduce(
      (weight, sign) => weight * likelihood(sign, sign.atS === undefined ? topC : tempAt(history, sign.atS)),
      1,
    );
  });
  return { weights, effectiveDraws: effectiveNumber(weights), because: bounds.map(({ because }) => because) };
}

/** A sign is never surer than this, K: where it sat is not where the draw looks. */
const LEAST_K = 0.5;

function likelihood({ says, tempC, toK }: WeighableSign, metalC: number): number {
  const z = (metalC - tempC) / Math.max(LEAST_K, toK / Math.sqrt(3));
  switch (says) {
    case 'at least':
      return normalProbability(z);
    case 'at most':
      return normalProbability(-z);
    case 'about':
      return Math.exp(-0.5 * z * z);
  }
}
