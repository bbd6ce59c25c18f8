import type { PlatePass, PlatePlan } from '../../heatflow';
import { formatDuration, formatPercent, formatTemp, requireNumber, TemperbookError } from '../../quantity';
import { type SearchOptions, searcher, type Tried } from './searcher';
import { gains, whyNot } from './searchWords';

const MOST_WAIT_S = 7200;
/** A wait is told to a twentieth or ten seconds, an interpass limit to two kelvin, a current to two in a hundred. */
const WAIT = { share: 0.05, least: 10 } as const;
const INTERPASS_K = 2;
const AMPS_SHARE = 0.02;
/** Least and most of what the arc brings in `largestAmps`, as shares of the plan. */
const AMPS = [0.5, 2] as const;
/** An interpass limit so close above the air is never reached, K, and none above this is any use, °C. */
const ABOVE_AIR_K = 10;
const MOST_INTERPASS_C = 250;

/**
 * The smallest wait before each pass after the first at which every metal stays within the allowance, where it has to keep
 * its strength, with the confidence asked for. By bracketing on common draws: with no wait, with the longest, then halving
 * between one that will not do and one that does. There may be none: one pass alone may be too hot, or the metal too weak
 * already. A longer wait than told does as well, but where under-aged metal gains by heat it gains less.
 * @throws TemperbookError as `comparePlans`.
 */
export function smallestWait(
  plan: PlatePlan,
  given: SearchOptions = {},
): { readonly waitS: number | null; readonly because: string; readonly tried: readonly Tried[] } {
  const { search, confidence, mostWaitS = MOST_WAIT_S } = searcher(given, 'smallestWait');
  if (plan.passes.length < 2)
    return { waitS: null, because: 'The plan has one pass: there is nothing to wait for.', tried: [] };
  const found = search(0, requireNumber(mostWaitS, 'mostWaitS', { low: 30, high: 1e6 }), {
    planOf: (waitS) => withStarts(plan, () => ({ waitS: Math.round(waitS) })),
    between: (short, long) => (short < 60 ? (short + long) / 2 : Math.sqrt(short * long)),
    isClose: (short, long) => long - short <= Math.max(WAIT.least, WAIT.share * long),
    goodEnd: 'high',
  });
  if (found.value === null)
    return {
      waitS: null,
      because: `Even ${formatDuration(mostWaitS)} before each pass leave a chance of ${formatPercent(found.best.chanceKept)}, less than the ${formatPercent(confidence)} asked for: ${whyNot(found.best)}`,
      tried: found.tried,
    };
  const waitS = Math.round(found.value);
  return {
    waitS,
    because: `${waitS === 0 ? 'No wait is needed' : `${formatDuration(waitS)} before each pass after the first`}: a chance of ${formatPercent(found.best.chanceKept)} to stay within the allowance.${gains(found.best)}`,
    tried: found.tried,
  };
}

/**
 * The highest interpass limit at a probe that keeps every metal within the allowance with the confidence asked for; see
 * `smallestWait`. Each pass after the first waits for the probe alone.
 * @throws TemperbookError as `comparePlans`, and for a probe the plan does not have.
 */
export function highestInterpass(
  plan: PlatePlan,
  atProbe: string,
  given: SearchOptions = {},
): { readonly interpassC: number | null; readonly because: string; readonly tried: readonly Tried[] } {
  const { search, confidence } = searcher(given, 'highestInterpass');
  if (!plan.probes.some(({ name }) => name === atProbe))
    throw new TemperbookError('The plan has no such probe', {
      found: `"${atProbe}"`,
      expected: plan.probes.map(({ name }) => `"${name}"`).join(', ') || 'a plan with probes',
    });
  if (plan.passes.length < 2)
    return { interpassC: null, because: 'The plan has one pass: no other waits for it.', tried: [] };
  const coldest = plan.surface.ambientC + ABOVE_AIR_K;
  const found = search(coldest, Math.max(MOST_INTERPASS_C, coldest + 1), {
    planOf: (interpassC) => withStarts(plan, () => ({ interpassC, atProbe })),
    between: (a, b) => (a + b) / 2,
    isClose: (a, b) => b - a <= INTERPASS_K,
    goodEnd: 'low',
  });
  if (found.value === null)
    return {
      interpassC: null,
      because: `Even when every pass waits for ${formatTemp(coldest)} at "${atProbe}" the chance is ${formatPercent(found.best.chanceKept)}, less than the ${formatPercent(confidence)} asked for: ${whyNot(found.best)}`,
      tried: found.tried,
    };
  return {
    interpassC: found.value,
    because: `Waiting for ${formatTemp(found.value)} at "${atProbe}" before each pass after the first: a chance of ${formatPercent(found.best.chanceKept)} to stay within the allowance.${gains(found.best)}`,
    tried: found.tried,
  };
}

/**
 * The most the arc may bring, as a factor on the amps (or watts) of every pass, with everything else as planned; see
 * `smallestWait`. Whether so little still melts in is the welder's to say.
 * @throws TemperbookError as `comparePlans`.
 */
export function largestAmps(
  plan: PlatePlan,
  given: SearchOptions = {},
): {
  readonly factor: number | null;
  /** Of each pass with amps, A. */
  readonly amps: readonly number[];
  readonly because: string;
  readonly tried: readonly Tried[];
} {
  const { search, confidence } = searcher(given, 'largestAmps');
  const found = search(AMPS[0], AMPS[1], {
    planOf: (factor) => withPower(plan, factor),
    between: (a, b) => Math.sqrt(a * b),
    isClose: (a, b) => b / a <= 1 + AMPS_SHARE,
    goodEnd: 'low',
  });
  const { value } = found;
  if (value === null)
    return {
      factor: null,
      amps: [],
      because: `Even half the current leaves a chance of ${formatPercent(found.best.chanceKept)}, less than the ${formatPercent(confidence)} asked for: ${whyNot(found.best)}`,
      tried: found.tried,
    };
  return {
    factor: value,
    amps: plan.passes.flatMap(({ amps }) => (typeof amps === 'number' ? [value * amps] : [])),
    because: `${formatPercent(value)} of the planned current: a chance of ${formatPercent(found.best.chanceKept)} to stay within the allowance.${gains(found.best)}`,
    tried: found.tried,
  };
}

/** Every pass after the first struck otherwise. */
const withStarts = (plan: PlatePlan, start: () => NonNullable<PlatePass['startAfter']>): PlatePlan => ({
  ...plan,
  passes: plan.passes.map((pass, k) => (k === 0 ? pass : { ...pass, startAfter: start() })),
});

function withPower(plan: PlatePlan, factor: number): PlatePlan {
  const scaled = (value: NonNullable<PlatePass['netPowerW']>) =>
    typeof value === 'number' ? factor * value : { ...value, value: value.value.map((v) => factor * v) };
  return {
    ...plan,
    passes: plan.passes.map(({ netPowerW, amps, ...pass }) => ({
      ...pass,
      ...(netPowerW === undefined ? {} : { netPowerW: scaled(netPowerW) }),
      ...(amps === undefined ? {} : { amps: scaled(amps) }),
    })),
  };
}
