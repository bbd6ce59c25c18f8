import { checkHistory, cut, type ThermalHistory } from '../history';
import { requireNumber } from '../quantity';
import { noiseOf } from '../statistics';
import { footOfRise } from './footOfRise';
import type { Pass } from './pass';
import { coolingRate, heatingRate } from './steepestRate';

/** What counts as a pass. */
export interface PassOptions {
  /**
   * A pass rises at least this far, K. Default: the greatest of 15 K, 5 % of the trace's range, and six times its noise.
   * Between two passes the trace falls by 3 K or six times its noise, and a tenth of the smaller rise.
   */
  readonly minRiseK?: number;
  /** Window of the heating and cooling rates, s; default 1, see `heatingRate`. */
  readonly rateWindowS?: number;
}

const LEAST_RISE_K = 15;
/** Less of a fall between two passes is no end of the first: this far, K, and this share of the smaller rise. */
const LEAST_FALL_K = 3;
const LEAST_FALL_SHARE = 0.1;
const LEAST_SHARE_OF_RANGE = 0.05;
/** The extremes of some thousand normal errors lie about four deviations out; six leaves room. */
const NOISE_MULTIPLE = 6;
/** With fewer samples the bends of the trace are its heating and cooling, not noise. */
const SAMPLES_TO_SEE_NOISE = 50;

/**
 * Finds the passes of a trace: weld passes, repairs, a preheat. A pass is a rise of `minRiseK` or more after some fall,
 * so ripple on a plateau and noise make none, and passes that run into one another before the part has cooled down
 * are still told apart. Where the trace already falls at its
 * beginning, the pass that heated it was not recorded and is not listed.
 *
 * A pass starts at the foot of its rise and ends where the next one starts, the last one with the trace; its
 * interpass temperature is the reading at its start. Rates never look across a gap.
 * @throws TemperbookError on a history that breaks its promises or options that are not positive.
 */
export function findPasses(history: ThermalHistory, options: PassOptions = {}): Pass[] {
  checkHistory(history);
  const { timeS, tempC } = history;
  const noise = tempC.length < SAMPLES_TO_SEE_NOISE ? 0 : noiseOf(tempC);
  const minRiseK = requireNumber(
    options.minRiseK ?? Math.max(LEAST_RISE_K, LEAST_SHARE_OF_RANGE * rangeOf(tempC), NOISE_MULTIPLE * noise),
    'Least rise of a pass in K',
    { low: Number.MIN_VALUE },
  );
  const minFallK = Math.min(minRiseK, Math.max(LEAST_FALL_K, NOISE_MULTIPLE * noise));
  const rises = wholeRises(tempC, turns(tempC, minFallK), minRiseK);
  const starts = rises.map(({ valley, top }) => footOfRise(history, valley, top, noise));
  return rises.map(({ top }, k) => {
    const startS = timeS[starts[k]!]!;
    const peakS = timeS[top]!;
    const endS = timeS[starts[k + 1] ?? timeS.length - 1]!;
    return {
      number: k + 1,
      startS,
      peakS,
      endS,
      peakC: tempC[top]!,
      interpassC: tempC[starts[k]!]!,
      heatingRateKPerS: heatingRate(cut(history, startS, peakS), options.rateWindowS),
      coolingRateKPerS: coolingRate(cut(history, peakS, endS), options.rateWindowS),
    };
  });
}

interface Rise {
  readonly valley: number;
  readonly top: number;
}

/** Rises between turning points at least `leastK` apart: a turn counts once the trace has come back by that much. */
function turns(tempC: Float64Array, leastK: number): Rise[] {
  const rises: Rise[] = [];
  let lowest = 0;
  let highest = 0;
  let rising = false;
  for (let i = 1; i < tempC.length; i++) {
    const temp = tempC[i]!;
    if (rising) {
      if (temp > tempC[highest]!) highest = i;
      else if (tempC[highest]! - temp >= leastK) {
        rises.push({ valley: lowest, top: highest });
        rising = false;
        lowest = i;
      }
    } else if (temp <= tempC[lowest]!) lowest = i;
    else if (temp - tempC[lowest]! >= leastK) {
      rising = true;
      highest = i;
    }
  }
  if (rising) rises.push({ valley: lowest, top: highest });
  return rises;
}

/**
 * Rises of `minRiseK` or more: a smaller one belongs to the rise before or after it from which no such fall parts it, and
 * counts for nothing where both are parted from it. Two that hardly a fall parts are one.
 */
function wholeRises(tempC: Float64Array, found: readonly Rise[], minRiseK: number): Rise[] {
  const rises = [...found];
  const riseOf = ({ valley, top }: Rise): number => tempC[top]! - tempC[valley]!;
  /** Fall between rise k and the next; endless where there is none. */
  const fallAfter = (k: number): number => {
    const [one, next] = [rises[k], rises[k + 1]];
    return one && next ? tempC[one.top]! - tempC[next.valley]! : Number.POSITIVE_INFINITY;
  };
  const joinNext = (k: number): void => {
    const [one, next] = [rises[k]!, rises[k + 1]!];
    rises.splice(k, 2, {
      valley: tempC[next.valley]! < tempC[one.valley]! ? next.valley : one.valley,
      top: tempC[next.top]! > tempC[one.top]! ? next.top : one.top,
    });
  };
  for (let k = 0; k < rises.length; ) {
    const riseK = riseOf(rises[k]!);
    const isShallow =
      fallAfter(k) < LEAST_FALL_SHARE * Math.min(riseK, rises[k + 1] ? riseOf(rises[k + 1]!) : 0);
    if (riseK >= minRiseK && !isShallow) {
      k++;
      continue;
    }
    if (isShallow) joinNext(k);
    else if (fallAfter(k - 1) < minRiseK) joinNext(k - 1);
    else if (fallAfter(k) < minRiseK) joinNext(k);
    else rises.splice(k, 1);
    k = Math.max(0, k - 1);
  }
  return rises;
}

function rangeOf(tempC: Float64Array): number {
  let low = tempC[0]!;
  let high = low;
  for (const temp of tempC) {
    if (temp < low) low = temp;
    if (temp > high) high = temp;
  }
  return high - low;
}
