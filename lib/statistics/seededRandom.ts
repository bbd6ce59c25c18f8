import { requireNumber } from '../quantity';

/** A stream of random numbers that is the same for the same seed on every machine. */
export interface SeededRandom {
  /** Uniform in [0, 1), all 53 bits random. */
  uniform(): number;
  /** Standard normal: mean 0, standard deviation 1. */
  normal(): number;
}

/**
 * Random numbers from a seed (an integer from 0 to 2⁵³ − 1): xoshiro128**, its state filled by SplitMix64 as
 * its authors advise; normal deviates by Marsaglia's polar method. Not for secrets.
 * Source: Blackman and Vigna, ACM Trans. Math. Softw. 47 (2021) 36; Steele, Lea and Flood, OOPSLA 2014;
 * Marsaglia and Bray, SIAM Review 6 (1964) 260.
 * @throws TemperbookError on a seed that is not such an integer.
 */
export function seededRandom(seed: number): SeededRandom {
  requireNumber(Number.isInteger(seed) ? seed : Number.NaN, 'Seed of random numbers', {
    low: 0,
    high: Number.MAX_SAFE_INTEGER,
  });
  const split = splitMix64(BigInt(seed));
  const [first, second] = [split(), split()];
  const next = xoshiro128StarStar(
    Uint32Array.of(
      Number(first & 0xffffffffn),
      Number(first >> 32n),
      Number(second & 0xffffffffn),
      Number(second >> 32n),
    ),
  );
  const uniform = (): number => ((next() >>> 5) * 0x4000000 + (next() >>> 6)) / 2 ** 53;
  let spare: number | undefined;
  const normal = (): number => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    for (;;) {
      const u = 2 * uniform() - 1;
      const v = 2 * uniform() - 1;
      const square = u * u + v * v;
      if (square === 0 || square >= 1) continue;
      const stretch = Math.sqrt((-2 * Math.log(square)) / square);
      spare = v * stretch;
      return u * stretch;
    }
  };
  return { uniform, normal };
}

/** The bare generator: integers from 0 to 2³² − 1 from a state of four words, not all zero, which it changes. */
export function xoshiro128StarStar(state: Uint32Array): () => number {
  const rotateLeft = (x: number, bits: number): number => (x << bits) | (x >>> (32 - bits));
  return () => {
    const result = Math.imul(rotateLeft(Math.imul(state[1]!, 5), 7), 9) >>> 0;
    const shifted = state[1]! << 9;
    state[2]! ^= state[0]!;
    state[3]! ^= state[1]!;
    state[1]! ^= state[2]!;
    state[0]! ^= state[3]!;
    state[2]! ^= shifted;
    state[3] = rotateLeft(state[3]!, 11);
    return result;
  };
}

/** The generator that spreads one seed over a whole state; 64-bit words. */
export function splitMix64(seed: bigint): () => bigint {
  const mask = 0xffffffffffffffffn;
  let state = seed & mask;
  return () => {
    state = (state + 0x9e3779b97f4a7c15n) & mask;
    let z = state;
    z = ((z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n) & mask;
    z = ((z ^ (z >> 27n)) * 0x94d049bb133111ebn) & mask;
    return z ^ (z >> 31n);
  };
}
