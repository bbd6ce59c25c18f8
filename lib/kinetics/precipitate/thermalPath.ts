import type { ThermalHistory } from '../../history';
import { celsiusToKelvin, GAS_CONSTANT } from '../../quantity';
import { readingNoiseK } from './readingNoise';

/** An Arrhenius rate: prefactor · exp(−energy / RT). */
export interface Arrhenius {
  readonly prefactor: number;
  readonly energyJPerMol: number;
}

/** What a stretch of a path holds. */
export interface PathPart {
  /** ∫D dt, m². */
  readonly thetaM2: number;
  /** ∫k dt of the second rate, and of the same held at its value at `cappedK` where it is hotter. */
  readonly kappa: number;
  readonly cappedKappa: number;
  /** Mean temperature weighted by θ, K. */
  readonly tempK: number;
}

/**
 * A thermal history cut into pieces of nearly constant temperature and read on the model's own clock. Growth,
 * dissolution and nucleation all run in proportion to the diffusivity of Mg, so steps are measured in
 * θ = ∫D dt (m²) instead of time: a day at room temperature is almost no θ, a second at 500 °C is a lot, and
 * one step may span any number of samples. A place on the path is a piece index plus the share of it passed.
 */
export interface ThermalPath {
  /** Place of each sample of the history. */
  readonly atSample: Float64Array;
  readonly end: number;
  /** Place where θ from `from` on has reached `thetaM2`, or the temperature has moved too far for one step. */
  walk(from: number, thetaM2: number): number;
  stretch(from: number, to: number): PathPart;
  /** θ alone of a stretch, m². */
  thetaM2(from: number, to: number): number;
}

/** A straight line of the history is cut into pieces of at most this many K. */
const PIECE_K = 3;
/**
 * Largest temperature span of one step, K. θ hardly moves at low temperature, where particles are born fastest:
 * without this a quench would be one step at its hot end and its nucleation would go unseen.
 */
const STEP_SPAN_K = 10;
/** Noise does not count as a span: three standard deviations of it either way are allowed on top. */
const NOISE_SPANS = 6;
/** Shortest step over the place: shorter ones would not move it. */
const LEAST_SHARE = 1e-15;

/**
 * Reads a history. Within a piece a rate is taken as exponential in time: its integral is within 1e-4 of exact
 * for a 3 K piece. Gaps add nothing.
 */
export function thermalPath(
  { timeS, tempC, gapAfter }: ThermalHistory,
  diffusion: Arrhenius,
  second?: { readonly rate: Arrhenius; readonly cappedK: number },
): ThermalPath {
  const gaps = new Set(gapAfter ?? []);
  const atSample = new Float64Array(timeS.length);
  const piecesOf = (i: number) =>
    gaps.has(i) ? 0 : Math.max(1, Math.ceil(Math.abs(tempC[i + 1]! - tempC[i]!) / PIECE_K));
  for (let i = 0; i + 1 < timeS.length; i++) atSample[i + 1] = atSample[i]! + piecesOf(i);
  const end = atSample[timeS.length - 1]!;

  const spanK = STEP_SPAN_K + NOISE_SPANS * readingNoiseK(tempC);
  const theta = new Float64Array(end);
  const kappa = new Float64Array(end);
  const cappedKappa = new Float64Array(end);
  const temp = new Float64Array(end);
  const thetaRate = meanRate(diffusion);
  const kappaRate = second && meanRate(second.rate);
  const cappedRate = second && meanRate(second.rate);
  for (let i = 0; i + 1 < timeS.length; i++) {
    const from = atSample[i]!;
    const pieces = atSample[i + 1]! - from;
    const fromK = celsiusToKelvin(tempC[i]!);
    const stepK = (tempC[i + 1]! - tempC[i]!) / pieces;
    const pieceS = (timeS[i + 1]! - timeS[i]!) / pieces;
    for (let k = 0; k < pieces; k++) {
      const a = fromK + stepK * k;
      theta[from + k] = thetaRate(a, a + stepK) * pieceS;
      if (second && kappaRate && cappedRate) {
        kappa[from + k] = kappaRate(a, a + stepK) * pieceS;
        const cap = second.cappedK;
        cappedKappa[from + k] = cappedRate(Math.min(cap, a), Math.min(cap, a + stepK)) * pieceS;
      }
      temp[from + k] = a + stepK / 2;
    }
  }

  function walk(from: number, thetaM2: number): number {
    let k = Math.floor(from);
    let left = thetaM2 - (k + 1 - from) * theta[k]!;
    if (left <= 0) return from + Math.max(thetaM2 / theta[k]!, LEAST_SHARE * (from + 1));
    let low = temp[k]!;
    let high = low;
    for (k++; k < end; k++) {
      low = Math.min(low, temp[k]!);
      high = Math.max(high, temp[k]!);
      if (high - low > spanK) return k;
      if (left <= theta[k]!) return k + left / theta[k]!;
      left -= theta[k]!;
    }
    return end;
  }

  function stretch(from: number, to: number): PathPart {
    let sum = 0;
    let all = 0;
    let capped = 0;
    let heat = 0;
    let time = 0;
    let plain = 0;
    for (let k = Math.floor(from); k < to; k++) {
      const share = Math.min(to, k + 1) - Math.max(from, k);
      sum += theta[k]! * share;
      all += kappa[k]! * share;
      capped += cappedKappa[k]! * share;
      heat += theta[k]! * share * temp[k]!;
      time += share;
      plain += share * temp[k]!;
    }
    return {
      thetaM2: sum,
      kappa: all,
      cappedKappa: capped,
      tempK: sum > 0 ? heat / sum : plain / time,
    };
  }

  function thetaM2(from: number, to: number): number {
    let sum = 0;
    for (let k = Math.floor(from); k < to; k++) sum += theta[k]! * (Math.min(to, k + 1) - Math.max(from, k));
    return sum;
  }

  return { atSample, end, walk, stretch, thetaM2 };
}

/** Mean of a rate between two temperatures reached evenly in time, by Simpson's rule on an exponential. */
function meanRate({ prefactor, energyJPerMol }: Arrhenius): (fromK: number, toK: number) => number {
  let lastK = Number.NaN;
  let last = 0;
  const rate = (tempK: number) => prefactor * Math.exp(-energyJPerMol / (GAS_CONSTANT * tempK));
  return (fromK, toK) => {
    const a = fromK === lastK ? last : rate(fromK);
    lastK = toK;
    last = fromK === toK ? a : rate(toK);
    return (a + 4 * Math.sqrt(a * last) + last) / 6;
  };
}
