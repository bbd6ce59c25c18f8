import { AT_THE_END, advanceMetal, type PlausibleMetal, plausibleMetals, startOfMetal } from '../../kinetics';
import { GAS_CONSTANT, ZERO_C_IN_K } from '../../quantity';
import { DEFAULT_ALLOWANCE, type VerdictWord, wordOf } from '../../strength';
import { type Spike, spikeHistory, spikes } from './spikeGrid';

/** One doubt about the metal, what it is in a plausible metal, and what would settle it. */
interface Candidate {
  readonly name: string;
  readonly of: (metal: PlausibleMetal) => number;
  readonly settledBy: string;
}

/** Where the rates of a weld's minutes are compared, °C. */
const WELD_C = 300;

const CANDIDATES: readonly Candidate[] = [
  {
    name: 'whether loss begins at once or late',
    of: ({ family }) => (family === 'delayed' ? 1 : 0),
    settledBy: 'a coupon taken through the same minute, hardness before and after',
  },
  {
    name: 'how fast this lot softens',
    of: ({ softening }) => lnTimeAt(softening),
    settledBy: 'a coupon of the lot heated for half an hour at 232 °C (450 °F), hardness before and after',
  },
  {
    name: 'how fast particles dissolve',
    of: ({ dissolution }) => lnTimeAt(dissolution),
    settledBy: 'a coupon at the peak of the weld for ten seconds, conductivity before and after',
  },
  {
    name: 'the yield before the heat',
    of: ({ startYieldMPa }) => startYieldMPa,
    settledBy: 'hardness or a tensile bar of the part before the heat',
  },
  {
    name: 'how much was left to gain',
    of: ({ peakYieldMPa, startYieldMPa }) => peakYieldMPa / startYieldMPa,
    settledBy: 'a coupon aged on to its peak',
  },
  {
    name: 'how much of the start are clusters that revert',
    of: ({ clusteredAtStart, naturalMPa }) => clusteredAtStart * naturalMPa,
    settledBy: 'a coupon heated for a minute at 230 °C (446 °F), hardness before and after',
  },
  {
    name: 'how fast new particles form',
    of: ({ ageing }) => ageing.timeS,
    settledBy: 'a coupon aged on for an hour at 200 °C (392 °F)',
  },
];

function lnTimeAt({ timeS, atC, energyJPerMol }: PlausibleMetal['softening']): number {
  return (
    Math.log(timeS) + (energyJPerMol / GAS_CONSTANT) * (1 / (WELD_C + ZERO_C_IN_K) - 1 / (atC + ZERO_C_IN_K))
  );
}

/** What may be in doubt, and what would settle it. */
export const SPIKE_DOUBTS: readonly Pick<Candidate, 'name' | 'settledBy'>[] = CANDIDATES;

/** How much of the scatter of the yield kept one doubt explains by itself, 0 … 1 (squared correlation of ranks). */
export interface SpikeDoubt {
  readonly name: string;
  readonly share: number;
}

/** A spike, its word by the rule, and what makes the doubt. */
export interface SpikeWord extends Spike {
  readonly chanceKept: number;
  readonly word: VerdictWord;
  /** The word with each family of the short range alone. */
  readonly curve: VerdictWord;
  readonly delayed: VerdictWord;
  /** Worst first. */
  readonly doubts: readonly SpikeDoubt[];
}

/**
 * The word for every spike of data/published/spikeGrid.json, the record taken as read, so that whatever is uncertain
 * is doubt about the metal; and which doubt makes it so. Sampled 25 times a
 * cooling constant in place of once a second: the answer is the same to 1e-3.
 * @param count plausible metals asked.
 */
export function spikeWords(
  alloy: string,
  temper: string,
  {
    allowanceFraction = DEFAULT_ALLOWANCE,
    count = 200,
    of = spikes(),
  }: {
    readonly allowanceFraction?: number;
    readonly count?: number;
    readonly of?: readonly Spike[];
  } = {},
): readonly SpikeWord[] {
  const { metals } = plausibleMetals(alloy, temper, count);
  const starts = metals.map((metal) => startOfMetal(metal));
  const candidates = CANDIDATES.map(({ name, of: read }) => ({
    name,
    ranks: ranksOf(metals.map(read)),
  }));
  return of.map((spike) => {
    const history = spikeHistory(spike, spike.coolingTimeConstantS / 25);
    const kept = metals.map((metal, i) => advanceMetal(metal, starts[i]!, history, AT_THE_END).yieldKept[0]!);
    const chance = (family?: PlausibleMetal['family']): number => {
      const asked = kept.filter((_, i) => family === undefined || metals[i]!.family === family);
      return asked.filter((value) => value >= 1 - allowanceFraction).length / asked.length;
    };
    const ranks = ranksOf(kept);
    return {
      ...spike,
      chanceKept: chance(),
      word: wordOf(chance(), false),
      curve: wordOf(chance('curve'), false),
      delayed: wordOf(chance('delayed'), false),
      doubts: candidates
        .map(({ name, ranks: own }) => ({ name, share: squaredCorrelation(own, ranks) }))
        .sort((a, b) => b.share - a.share),
    };
  });
}

/** Ranks, equal values sharing their mean rank. */
function ranksOf(values: readonly number[]): readonly number[] {
  const sorted = [...values].sort((a, b) => a - b);
  const first = new Map<number, number>();
  const last = new Map<number, number>();
  sorted.forEach((value, i) => {
    if (!first.has(value)) first.set(value, i);
    last.set(value, i);
  });
  return values.map((value) => (first.get(value)! + last.get(value)!) / 2);
}

function squaredCorrelation(a: readonly number[], b: readonly number[]): number {
  const middle = (a.length - 1) / 2;
  let [ab, aa, bb] = [0, 0, 0];
  for (let i = 0; i < a.length; i++) {
    const [x, y] = [a[i]! - middle, b[i]! - middle];
    ab += x * y;
    aa += x * x;
    bb += y * y;
  }
  return aa > 0 && bb > 0 ? (ab * ab) / (aa * bb) : 0;
}
