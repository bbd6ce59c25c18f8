import type { SeededRandom } from './seededRandom';

/** How long and how wide a chain runs. */
export interface ChainPlan {
  readonly start: ArrayLike<number>;
  /** First guess of each unknown's standard deviation; also keeps the proposal from collapsing. */
  readonly scale: ArrayLike<number>;
  /** Steps thrown away, in which the proposal adapts; then it stands still. */
  readonly warmUp: number;
  /** Draws kept, one every `every` steps. */
  readonly draws: number;
  readonly every: number;
  readonly random: SeededRandom;
  readonly onDraw?: (done: number) => void;
}

/** Draws in the order of the chain, and the share of proposals taken after the warm-up. */
export interface Chain {
  readonly draws: readonly Float64Array[];
  readonly acceptance: number;
}

/** Share of proposals that a random walk in many dimensions should take (Roberts, Gelman, Gilks 1997). */
const WANTED_ACCEPTANCE = 0.234;
/** The covariance is taken afresh this many times over the warm-up. */
const REFRESHES = 12;

/**
 * Draws from a density known up to a factor: random-walk Metropolis with normal proposals whose covariance and size are
 * learned during the warm-up and then left alone, so that the kept part is a plain Markov chain.
 * Source: H. Haario, E. Saksman, J. Tamminen, Bernoulli 7 (2001) 223; step size by the Robbins–Monro rule.
 * @param logDensity natural logarithm of the density; −∞ outside its support.
 */
export function adaptiveMetropolis(logDensity: (x: Float64Array) => number, plan: ChainPlan): Chain {
  const { random, warmUp, draws: wanted, every } = plan;
  const n = plan.start.length;
  let here = Float64Array.from(plan.start);
  let density = logDensity(here);
  let root = diagonal(plan.scale);
  let logSize = Math.log(2.38 / Math.sqrt(n));
  let seen = new Moments(n);
  let taken = 0;
  const refreshEvery = Math.ceil(warmUp / REFRESHES);
  const draws: Float64Array[] = [];
  const steps = warmUp + wanted * every;
  const normal = new Float64Array(n);
  for (let step = 1; step <= steps; step++) {
    for (let k = 0; k < n; k++) normal[k] = random.normal();
    const size = Math.exp(logSize);
    const next = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      let move = 0;
      for (let k = 0; k <= i; k++) move += root[i]![k]! * normal[k]!;
      next[i] = here[i]! + size * move;
    }
    const there = logDensity(next);
    const chance = Math.exp(Math.min(0, there - density));
    if (random.uniform() < chance) {
      here = next;
      density = there;
      if (step > warmUp) taken++;
    }
    if (step <= warmUp) {
      logSize += (chance - WANTED_ACCEPTANCE) / step ** 0.6;
      seen.add(here);
      if (step % refreshEvery === 0 && step < warmUp) {
        root = seen.root(plan.scale);
        // The early walk is forgotten; the last half of the warm-up teaches the final covariance.
        if (step < warmUp / 2) seen = new Moments(n);
      }
    } else if ((step - warmUp) % every === 0) {
      draws.push(here);
      plan.onDraw?.(draws.length);
    }
  }
  return { draws, acceptance: taken / (wanted * every) };
}

const diagonal = (scale: ArrayLike<number>): Float64Array[] =>
  Array.from(scale, (s, i) => {
    const row = new Float64Array(scale.length);
    row[i] = s;
    return row;
  });

/** Running mean and covariance. */
class Moments {
  private count = 0;
  private readonly mean: Float64Array;
  private readonly products: Float64Array[];

  constructor(private readonly n: number) {
    this.mean = new Float64Array(n);
    this.products = Array.from({ length: n }, () => new Float64Array(n));
  }

  add(x: Float64Array): void {
    this.count++;
    const before = x.map((v, i) => v - this.mean[i]!);
    for (let i = 0; i < this.n; i++) this.mean[i]! += before[i]! / this.count;
    for (let i = 0; i < this.n; i++)
      for (let k = 0; k <= i; k++) this.products[i]![k]! += before[i]! * (x[k]! - this.mean[k]!);
  }

  /** Lower Cholesky root of the covariance, a millionth of the first guess added. */
  root(scale: ArrayLike<number>): Float64Array[] {
    const root = Array.from({ length: this.n }, () => new Float64Array(this.n));
    for (let i = 0; i < this.n; i++)
      for (let k = 0; k <= i; k++) {
        let sum = this.products[i]![k]! / (this.count - 1) + (i === k ? 1e-6 * scale[i]! ** 2 : 0);
        for (let j = 0; j < k; j++) sum -= root[i]![j]! * root[k]![j]!;
        root[i]![k] = i === k ? Math.sqrt(Math.max(sum, 1e-300)) : sum / root[k]![k]!;
      }
    return root;
  }
}
