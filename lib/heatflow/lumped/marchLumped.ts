import { Matrix, solve } from 'ml-matrix';
import { TemperbookError } from '../../quantity';
import type { LumpedSystem } from './lumpedSystem';

/** One run through time. */
export interface LumpedRun {
  readonly timeS: readonly number[];
  /** Temperatures of all parts at each time. */
  readonly temps: readonly Float64Array[];
  readonly pulsesJ: Turnover;
  readonly lostJ: Turnover;
  readonly repeated: number;
}

/** Heat with its sign, and with every flow counted positive. */
interface Turnover {
  net: number;
  gross: number;
}

/** Alexander's γ: both stages implicit, the last at the end of the step. */
const GAMMA = 1 - Math.SQRT1_2;
const NEWTON_LIMIT = 30;

/**
 * Marches the system from 0 to `untilS` with steps that add at most `toleranceK` each. Source of the two-stage scheme,
 * L-stable and of second order: R. Alexander, SIAM J. Numer. Anal. 14 (1977) 1006-1021, from memory.
 */
export function marchLumped(system: LumpedSystem, untilS: number, toleranceK: number): LumpedRun {
  const edges = [...new Set([...system.pulses.flatMap((p) => [p.fromS, p.toS]), untilS])]
    .filter((t) => t > 0 && t <= untilS)
    .sort((a, b) => a - b);
  const timeS = [0];
  const temps = [system.startC];
  const pulsesJ = { net: 0, gross: 0 };
  const lostJ = { net: 0, gross: 0 };
  let repeated = 0;
  let wanted = 0.1;

  for (const edge of edges) {
    let time = timeS.at(-1)!;
    const power = powerBetween(system, time, edge);
    while (time < edge) {
      const from = temps.at(-1)!;
      const h = Math.min(wanted, edge - time);
      const first = stage(system, power, from, h * GAMMA);
      const middle = from.map((t, i) => t + h * (1 - GAMMA) * first.slope[i]!);
      const second = stage(system, power, middle, h * GAMMA);
      // Against the first-order answer of the first stage alone: an upper estimate of the step's own error.
      const error = first.slope.reduce(
        (worst, s, i) => Math.max(worst, h * GAMMA * Math.abs(second.slope[i]! - s)),
        0,
      );
      const factor = 0.9 * Math.sqrt(toleranceK / Math.max(error, 1e-12));
      wanted = h * Math.min(4, Math.max(0.2, factor));
      if (error > toleranceK) {
        repeated++;
        continue;
      }
      // The last step lands on the edge itself: adding up steps would miss it by rounding.
      time = h === edge - time ? edge : time + h;
      timeS.push(time);
      temps.push(from.map((t, i) => t + h * ((1 - GAMMA) * first.slope[i]! + GAMMA * second.slope[i]!)));
      for (let i = 0; i < from.length; i++) {
        book(pulsesJ, h * power[i]!);
        book(lostJ, h * ((1 - GAMMA) * first.lost[i]! + GAMMA * second.lost[i]!));
      }
    }
  }
  return { timeS, temps, pulsesJ, lostJ, repeated };
}

function book(account: Turnover, joules: number): void {
  account.net += joules;
  account.gross += Math.abs(joules);
}

/** Power into each part over a stretch without pulse edges, W. */
function powerBetween({ startC, pulses }: LumpedSystem, fromS: number, toS: number): Float64Array {
  const power = new Float64Array(startC.length);
  for (const pulse of pulses)
    if (pulse.fromS <= fromS && pulse.toS >= toS) power[pulse.index]! += pulse.powerW;
  return power;
}

/** Solves U = base + hγ f(U) by Newton; returns f(U), K/s, and the skin losses at U, W. */
function stage(
  system: LumpedSystem,
  power: Float64Array,
  base: Float64Array,
  step: number,
): { slope: Float64Array; lost: Float64Array } {
  let guess = base;
  for (let k = 0; k < NEWTON_LIMIT; k++) {
    const rates = ratesAt(system, power, guess);
    const matrix = Matrix.eye(base.length).sub(rates.jacobian.mul(step));
    const miss = Matrix.columnVector(guess.map((u, i) => base[i]! + step * rates.slope[i]! - u));
    const change = solve(matrix, miss).to1DArray();
    guess = guess.map((u, i) => u + change[i]!);
    if (change.every((c) => Math.abs(c) < 1e-9)) return ratesAt(system, power, guess);
  }
  throw new TemperbookError('The network of parts has no solution', {
    remedy: 'Look for a pulse or a conductance far out of proportion to the masses',
  });
}

/** Rate of change of every temperature, its derivatives, and the skin losses. */
function ratesAt({ capacity, conductance, loss }: LumpedSystem, power: Float64Array, tempC: Float64Array) {
  const n = tempC.length;
  const jacobian = Matrix.zeros(n, n);
  const lost = new Float64Array(n);
  const slope = tempC.map((temp, i) => {
    const skin = loss(i, temp);
    lost[i] = skin.watts;
    let net = power[i]! - skin.watts;
    let own = skin.slope;
    for (let j = 0; j < n; j++) {
      const g = conductance[i]![j]!;
      net -= g * (temp - tempC[j]!);
      own += g;
      if (j !== i) jacobian.set(i, j, g / capacity[i]!);
    }
    jacobian.set(i, i, -own / capacity[i]!);
    return net / capacity[i]!;
  });
  return { slope, jacobian, lost };
}
