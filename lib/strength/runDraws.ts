import { type Doubt, type Exposure, placeInRange, temperaturesAt } from '../exposure';
import {
  advanceMetal,
  type MetalState,
  outcomeOfMetal,
  type PlausibleMetal,
  startOfMetal,
} from '../kinetics';
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
  { lookAt = new Uint32Array(0), placeOf = placeInRange, onDraw }: RunOptions = {},
): DrawsOnTheWay {
  const count = draws.metals.length;
  const yieldKept = new Float64Array(count);
  const ultimateKept = new Float64Array(count);
  const startYieldMPa = new Float64Array(count);
  const states: MetalState[] = [];
  const onTheWay = Array.from(lookAt, () => new Float64Array(count));
  const room = exposures.map(({ history }) => new Float64Array(history.timeS.length));
  let knowsUltimate = true;
  for (let i = 0; i < count; i++) {
    const metal = draws.metals[i]!;
    const start = startOfMetal(metal, { measuredYieldMPa: draws.measuredYieldMPa });
    let state = start;
    let kept = 1;
    for (const [k, exposure] of exposures.entries()) {
      const tempC = temperaturesAt(exposure, (doubt) => placeOf(doubt, i), room[k]!);
      const end = advanceMetal(metal, state, { ...exposure.history, tempC });
      state = end.state;
      kept = end.yieldKept[end.yieldKept.length - 1]!;
      if (k === exposures.length - 1)
        for (let j = 0; j < lookAt.length; j++) onTheWay[j]![i] = end.yieldKept[lookAt[j]!]!;
    }
    yieldKept[i] = kept;
    startYieldMPa[i] = state.startYieldMPa;
    const ultimate = outcomeOfMetal(metal, state, start).ultimateKept;
    if (ultimate === null) knowsUltimate = false;
    else ultimateKept[i] = ultimate;
    states.push(state);
    onDraw?.((i + 1) / count);
  }
  return {
    yieldKept,
    ...(knowsUltimate ? { ultimateKept } : {}),
    startYieldMPa,
    states,
    metals: draws.metals,
    onTheWay,
  };
}
