import { type ThermalHistory, tempAt } from '../../history';
import { TemperbookError } from '../../quantity';
import { effectiveNumber, normalProbability } from '../../statistics';
import { historyAt, placeInRange } from '../drawOf';
import type { Exposure } from '../exposure';
import type { WeighableSign } from './temperatureSigns';

/**
 * How much each draw of the record weighs in the light of sticks and of readings by hand: the chance that the sign comes out
 * as it was seen, were that draw the truth,
 *
 *   at least R: Φ((T − R)/u),  at most R: Φ((R − T)/u),  about R: exp(−½ ((T − R)/u)²),
 *
 * T the hottest of the draw while the sign was there, or its temperature at the time of the reading, u = half width/√3
 * (JCGM 100:2008, 4.3.7). The signs are those of the exposure (`withSigns`); all 1 without any.
 */
export function signWeights(exposure: Exposure, count: number): Float64Array {
  const { seen = [], history } = exposure;
  const room = new Float64Array(history.timeS.length);
  return Float64Array.from({ length: count }, (_, i) => {
    if (seen.length === 0) return 1;
    const drawn = historyAt(exposure, (doubt) => placeInRange(doubt, i), room);
    return seen.reduce((weight, sign) => weight * likelihood(sign, metalAt(drawn, sign)), 1);
  });
}

/** With a smaller share of the draws left (100 of 4,000), what was seen and what was told are not of the same heat. */
const LEAST_SHARE = 0.025;

/**
 * What was seen of several heats together, by draw; undefined where nothing was.
 * @throws TemperbookError where hardly any way in which the heats may have run goes with what was seen.
 */
export function weightsOfSigns(exposures: readonly Exposure[], count: number): Float64Array | undefined {
  const told = exposures.filter(({ seen = [] }) => seen.length > 0).map((one) => signWeights(one, count));
  if (told.length === 0) return undefined;
  const weights = new Float64Array(count).map((_, i) => told.reduce((all, one) => all * one[i]!, 1));
  const left = weights.some((weight) => weight > 0) ? effectiveNumber(weights) : 0;
  if (left >= LEAST_SHARE * count) return weights;
  throw new TemperbookError('What was seen does not go with the heat that was told', {
    found: `hardly any way in which it may have run fits sticks and readings (${Math.round(left)} of ${count})`,
    expected: `at least ${Math.ceil(LEAST_SHARE * count)} of the ways`,
    remedy:
      'Check the temperature and the time that were told, where the stick sat, and what was read from what',
  });
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

function metalAt(
  history: ThermalHistory,
  { atS, fromS = Number.NEGATIVE_INFINITY, toS = Number.POSITIVE_INFINITY }: WeighableSign,
): number {
  if (atS !== undefined) return tempAt(history, atS);
  const { timeS, tempC } = history;
  let hottest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < timeS.length; i++)
    if (timeS[i]! >= fromS && timeS[i]! <= toS) hottest = Math.max(hottest, tempC[i]!);
  return hottest;
}
