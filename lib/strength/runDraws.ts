import { type Doubt, type Exposure, historyAt, placeInRange, WHY_LOW_STREAM } from '../exposure';
import type { ThermalHistory } from '../history';
import {
  advanceMetal,
  type MetalState,
  outcomeOfMetal,
  type PlausibleMetal,
  startOfMetal,
  WHYS_LOW,
} from '../kinetics';
import { evenSpread } from '../statistics';
import type { MetalDraws } from './metal';

/** What every draw came to: draw i is one plausible truth behind the record, run on one plausible metal. */
export interface Draws {
  /** Yield after the last exposure over the yield before the first. */
  readonly yieldKept: Float64Array;
  /** Ultimate strength kept; absent where the models do not know it. */
  readonly ultimateKept?: Float64Array;
  /** Yield before the first exposure, MPa. */
  readonly startYieldMPa: Float64Array;
  /** Where each draw ended, and the metal it ran on. */
  readonly states: readonly MetalState[];
  /** The same from every start that was tried for a draw; its own is the weakest. */
  readonly tried: readonly (readonly MetalState[])[];
  readonly metals: readonly PlausibleMetal[];
}

/** What to do besides running the draws to their end. */
export interface RunOptions {
  /** Samples of the last exposure at which the draws are looked at on the way; ascending. */
  readonly lookAt?: Uint32Array;
  /** Called after every draw with the share of them that is done. */
  readonly onDraw?: (share: number) => void;
  /** Where in its range a doubt lies in a draw; default `placeInRange`. */
  readonly placeOf?: (doubt: Doubt, index: number) => number;
  /** The same question already run with the first so many of these draws and the same `lookAt`: the rest is added. */
  readonly goOn?: DrawsOnTheWay;
  /** Where equally many draws ended in the heats before: these exposures begin there. */
  readonly after?: Draws;
}

/** Draws with what they came to on the way: row k holds every draw at sample `lookAt[k]`. */
export interface DrawsOnTheWay extends Draws {
  readonly onTheWay: readonly Float64Array[];
}

/**
 * Runs exposures one after the other, each draw through its own truth of every record and its own metal. Draws share their
 * random numbers with every other call (`placeInRange`), so that differences between two calls are differences between
 * what was asked.
 */
export function runDraws(
  exposures: readonly Exposure[],
  draws: MetalDraws,
  { lookAt = new Uint32Array(0), placeOf = placeInRange, onDraw, goOn, after }: RunOptions = {},
): DrawsOnTheWay {
  const count = draws.metals.length;
  const yieldKept = extended(goOn?.yieldKept, count);
  const ultimateKept = extended(goOn?.ultimateKept, count);
  const startYieldMPa = extended(goOn?.startYieldMPa, count);
  const states: MetalState[] = [...(goOn?.states ?? [])];
  const tried: (readonly MetalState[])[] = [...(goOn?.tried ?? [])];
  const onTheWay = Array.from(lookAt, (_, j) => extended(goOn?.onTheWay[j], count));
  const room = exposures.map(({ history }) => new Float64Array(history.timeS.length));
  let knowsUltimate = goOn === undefined || goOn.ultimateKept !== undefined;
  for (let i = states.length; i < count; i++) {
    const metal = draws.metals[i]!;
    const histories = exposures.map((exposure, k) =>
      historyAt(exposure, (doubt) => placeOf(doubt, i), room[k]!),
    );
    const starts = after?.tried[i] ?? startsOf(metal, draws.measuredYieldMPa, i);
    const courses = starts.map((start) => courseOf(metal, start, histories, lookAt));
    const { start, state, kept, track } = courses.reduce((a, b) => (b.kept < a.kept ? b : a));
    for (let j = 0; j < lookAt.length; j++) onTheWay[j]![i] = track[j]!;
    yieldKept[i] = kept;
    startYieldMPa[i] = state.startYieldMPa;
    const ultimate = outcomeOfMetal(metal, state, start).ultimateKept;
    if (ultimate === null) knowsUltimate = false;
    else ultimateKept[i] = ultimate;
    states.push(state);
    tried.push(courses.map((course) => course.state));
    onDraw?.((i + 1) / count);
  }
  return {
    yieldKept,
    ...(knowsUltimate ? { ultimateKept } : {}),
    startYieldMPa,
    states,
    tried,
    metals: draws.metals,
    onTheWay,
  };
}

/** Room for `count` values, the first of which are there already. */
function extended(values: Float64Array | undefined, count: number): Float64Array {
  const longer = new Float64Array(count);
  if (values !== undefined) longer.set(values);
  return longer;
}

/** One metal from one start through all exposures. */
interface Course {
  readonly start: MetalState;
  readonly state: MetalState;
  readonly kept: number;
  /** Yield kept along the last exposure, where it was looked at and at its end. */
  readonly track: Float64Array;
}

function courseOf(
  metal: PlausibleMetal,
  start: MetalState,
  histories: readonly ThermalHistory[],
  lookAt: Uint32Array,
): Course {
  let state = start;
  let track = Float64Array.of(1);
  for (const history of histories)
    ({ state, yieldKept: track } = advanceMetal(metal, state, history, lookAt));
  return { start, state, kept: track[track.length - 1]!, track };
}

/**
 * The starts to try for a draw. A yield measured below the metal's own leaves open why, one reason a draw by its place in
 * an even spread; and as knowing less must not make later heat look safer, each is tried beside plain proportion and the
 * weaker counts.
 */
function startsOf(metal: PlausibleMetal, measuredYieldMPa: number | undefined, index: number): MetalState[] {
  const inProportion = startOfMetal(metal, { measuredYieldMPa });
  if (measuredYieldMPa === undefined || measuredYieldMPa >= metal.startYieldMPa) return [inProportion];
  const whyLow = WHYS_LOW[Math.floor(WHYS_LOW.length * evenSpread(index, WHY_LOW_STREAM))]!;
  return whyLow === 'porous'
    ? [inProportion]
    : [inProportion, startOfMetal(metal, { measuredYieldMPa, whyLow })];
}
