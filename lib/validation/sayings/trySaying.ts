import { type HeatedPlace, judgeHeats } from '../../decision';
import { parseHeats } from '../../exposure';
import { ovenExposure } from '../../heatflow';
import { isothermal } from '../../history';
import { formatKept, formatPercent, formatTemp, type Judged, TemperbookError } from '../../quantity';
import { bandOfDraws, strengthAfter } from '../../strength';
import { spikeHistory } from '../scores/spikeGrid';
import type { Claim, TriedHeat } from './saying';

/** A metal temperature that somebody stated is taken to this. */
const STATED = '±5F';

/** What a saying came to on one of its heats. */
export interface Tried {
  readonly name: string;
  readonly kept: Judged;
  readonly holds: 'yes' | 'no' | 'open';
  readonly sentence: string;
}

/** Tries a claim on heats; how it is decided: `sayingAnswers`. */
export function trySaying(one: TriedHeat, claim: Claim): Tried {
  const { alloy } = one;
  if (one.heats !== undefined && one.like !== undefined && 'sameAs' in claim)
    return sameAs(one, one.heats, one.like, claim.sameAs);
  if ('recoversFrom' in claim) return recovered(one, claim);
  const { name, steps } = stepsOf(one);
  const { word, places } = judgeHeats(steps, {
    alloy,
    oven: STATED,
    wallMm: one.wallMm,
    fan: true,
    countLeft: false,
  });
  const kept = places[0]!.yieldKeptFraction;
  return {
    name,
    kept,
    holds: holdsFor(claim, word, kept),
    sentence: `${name}: ${formatKept(kept)} of the yield is left.`,
  };
}

function stepsOf({ alloy, heats, exact, weld, after }: TriedHeat) {
  if (weld) {
    const spike = spikeHistory({ peakC: weld.peakC, coolingTimeConstantS: weld.coolingS, passes: 1 });
    return {
      name: `${alloy}, a pass to ${formatTemp(weld.peakC)}${after ? `, then ${after}` : ''}`,
      steps: [spike, ...(after ? heatsExactly(after) : [])],
    };
  }
  if (heats === undefined) throw new TemperbookError('A saying is tried on no heat', { found: alloy });
  return { name: `${alloy}, ${heats}`, steps: exact ? heatsExactly(heats) : [heats] };
}

const heatsExactly = (words: string) => parseHeats(words).map(({ setC, timeS }) => isothermal(setC, timeS));

function holdsFor(
  claim: Claim,
  word: 'kept' | 'uncertain' | 'lost',
  { nominal, low, high }: Judged,
): Tried['holds'] {
  if ('keeps' in claim) return word === 'kept' ? 'yes' : word === 'lost' ? 'no' : 'open';
  if ('loses' in claim) return word === 'lost' ? 'yes' : word === 'kept' ? 'no' : 'open';
  if ('sameAs' in claim || 'recoversFrom' in claim) return 'open';
  const { keptFrom, keptTo } = claim;
  if (nominal >= keptFrom && nominal <= keptTo) return 'yes';
  return high >= keptFrom && low <= keptTo ? 'open' : 'no';
}

/** Less than this lost is nothing to bring back. */
const SOME_LOSS = 0.02;

/** How much of what a weld took a rest or an age brings back, draw by draw. */
function recovered(
  one: TriedHeat,
  { recoversFrom, recoversTo }: Extract<Claim, { readonly recoversFrom: number }>,
): Tried {
  const { name, steps } = stepsOf(one);
  const [before, now] = [stepsOf({ ...one, after: undefined }).steps, steps].map(
    (all) => judgeHeats(all, { alloy: one.alloy, countLeft: false }).places[0]!,
  ) as [HeatedPlace, HeatedPlace];
  const shares = Float64Array.from(before.strength.draws.yieldKept.subarray(0, SHARED_DRAWS), (kept, i) =>
    1 - kept < SOME_LOSS ? 0 : (now.strength.draws.yieldKept[i]! - kept) / (1 - kept),
  );
  const share = bandOfDraws(shares, '1', []);
  return {
    name,
    kept: now.yieldKeptFraction,
    holds: holdsFor({ keptFrom: recoversFrom, keptTo: recoversTo }, 'uncertain', share),
    sentence: `${name}: ${formatKept(before.yieldKeptFraction)} of the yield before, ${formatKept(now.yieldKeptFraction)} after; it brings back ${formatPercent(share.nominal)} of the loss.`,
  };
}

/** Draws that every answer has. */
const SHARED_DRAWS = 400;

/** Two ways of ageing the same draws of metal. */
function sameAs({ alloy, wallMm }: TriedHeat, heats: string, like: string, within: number): Tried {
  const [one, other] = [heats, like].map((words) => {
    const exposures = parseHeats(words).flatMap((heat) =>
      new Array(heat.times).fill(ovenExposure(heat, { oven: STATED, wallMm, fan: true })),
    );
    return strengthAfter(
      exposures[exposures.length - 1]!,
      { alloy },
      { earlier: exposures.slice(0, -1), draws: SHARED_DRAWS, endOnly: true },
    );
  }) as [ReturnType<typeof strengthAfter>, ReturnType<typeof strengthAfter>];
  const ratios = one.draws.yieldKept.map((kept, i) => kept / other.draws.yieldKept[i]!);
  const kept = bandOfDraws(ratios, '1', []);
  return {
    name: `${alloy}, ${heats} against ${like}`,
    kept,
    holds: holdsFor({ keptFrom: 1 - within, keptTo: 1 + within }, 'uncertain', kept),
    sentence: `${alloy}, ${heats}: ${formatKept(kept)} of the yield after ${like}.`,
  };
}
