import { checkHistory, type ThermalHistory } from '../history';
import { celsiusToKelvin, GAS_CONSTANT, requireNumber, ZERO_C_IN_K } from '../quantity';

/** Which Arrhenius clock to read. */
export interface ArrheniusClock {
  /** J/mol; for over-ageing of Al-Mg-Si about 130 000, with 110 000 and 145 000 as bounds. */
  readonly activationEnergyJPerMol: number;
  /** Temperature at which the clock runs at true time, °C. */
  readonly referenceC: number;
}

/**
 * Up to this change of the exponent over one interval (3 to 5 °C at 200 to 350 °C) the mean rate comes from a
 * series, which spares the exponential of nearly every sample of a logger's file.
 */
const SERIES_LIMIT = 0.25;
/** The rate carried on by the series is taken afresh from the exponential every so many samples. */
const RENEW_EVERY = 256;

/**
 * Arrhenius equivalent time in s: how long a soak at `referenceC` would have done as much,
 * t_eq = ∫ exp[−(Q/R)(1/T(t) − 1/T_ref)] dt, T in K. Gaps of the history are left out.
 *
 * Between samples T is a straight line. With x the exponent and k = exp x, an interval's mean rate is the
 * logarithmic mean (k₂ − k₁)/(x₂ − x₁), exact were x straight too. With z = Q/(RT), x bulges above its chord
 * by Δx²/(4z) in the middle, two thirds of it on average: hence the factor 1 + Δx²/(6z). The next term is of
 * order Δx⁴/(400 z), 1e-6 at the limit |Δx| = 0.25; beyond it `arrheniusArea` integrates in closed form,
 * within 4e-6. So the result is within 5e-6 of the exact integral for Q/(RT) ≥ 8, whatever the intervals.
 *
 * Source: the definition is common practice for Al-Mg-Si (Q about 130 kJ/mol: Myhr, Grøng and others).
 *
 * @throws TemperbookError on a history that breaks its promises, Q outside 10 to 1000 kJ/mol (given in J/mol)
 * or a reference below −100 °C.
 * @example equivalentTime(thermalHistory([0, 56, 86, 366], [20, 300, 300, 20]), { activationEnergyJPerMol:
 *   130_000, referenceC: 177 }) // 92452
 */
export function equivalentTime(history: ThermalHistory, clock: ArrheniusClock): number {
  return integrate(history, clock);
}

/**
 * The running equivalent time in s at every sample of the history, starting at 0; its last element is
 * `equivalentTime`. It stands still across gaps. Arguments as there.
 */
export function cumulativeEquivalentTime(history: ThermalHistory, clock: ArrheniusClock): Float64Array {
  const running = new Float64Array(history.timeS.length);
  integrate(history, clock, running);
  return running;
}

function integrate(history: ThermalHistory, clock: ArrheniusClock, running?: Float64Array): number {
  checkHistory(history);
  // The lower bound also catches a value in kJ/mol; the bounds together keep exp() finite.
  const q = requireNumber(clock.activationEnergyJPerMol, 'Activation energy in J/mol', {
    low: 1e4,
    high: 1e6,
  });
  const referenceK = celsiusToKelvin(
    requireNumber(clock.referenceC, 'Reference temperature in °C', { low: -100 }),
  );
  const b = q / GAS_CONSTANT;
  // 1/(6z) with T between the ends is (T₁ + T₂)/(12 b).
  const curvature = 1 / (12 * b);
  const gaps = history.gapAfter ?? NO_GAPS;
  return sumOfIntervals(history.timeS, history.tempC, gaps, b, b / referenceK, curvature, running);
}

const NO_GAPS = new Uint32Array(0);
/** A constant of this file: an imported one costs a call per use in CommonJS. */
const ZERO_C = ZERO_C_IN_K;

/**
 * The loop by itself: it runs over every sample of every log. It reads and works out nothing before the
 * loop, and nothing imported; otherwise the engine's code from a first long run is thrown away on the next.
 */
function sumOfIntervals(
  timeS: Float64Array,
  tempC: Float64Array,
  gapAfter: Uint32Array,
  b: number,
  xAtInfinity: number,
  curvature: number,
  running?: Float64Array,
): number {
  // Nothing comes before the first sample: it is treated like the end of a gap.
  let gap = -1;
  let gapsPassed = 0;
  let sum = 0;
  let t1 = 0;
  let x1 = 0;
  let k1 = 0;
  for (let i = 0; i < timeS.length; i++) {
    const t2 = tempC[i]! + ZERO_C;
    const x2 = xAtInfinity - b / t2;
    const dx = x2 - x1;
    let k2: number;
    let rate: number;
    if (dx < SERIES_LIMIT && dx > -SERIES_LIMIT) {
      const phi = meanOfExp(dx);
      k2 = i % RENEW_EVERY === 0 ? Math.exp(x2) : k1 * (1 + dx * phi);
      rate = k1 * phi * (1 + dx * dx * (t1 + t2) * curvature);
    } else {
      k2 = Math.exp(x2);
      rate = (arrheniusArea(t2, b, k2) - arrheniusArea(t1, b, k1)) / (t2 - t1);
    }
    if (i - 1 === gap) gap = gapsPassed < gapAfter.length ? gapAfter[gapsPassed++]! : timeS.length;
    else sum += rate * (timeS[i]! - timeS[i - 1]!);
    if (running !== undefined) running[i] = sum;
    t1 = t2;
    x1 = x2;
    k1 = k2;
  }
  return sum;
}

/** (exp d − 1)/d by its series to d⁷, within 5e-11 for |d| ≤ 0.25. */
function meanOfExp(d: number): number {
  return (
    1 +
    d *
      (1 / 2 + d * (1 / 6 + d * (1 / 24 + d * (1 / 120 + d * (1 / 720 + d * (1 / 5040 + d * (1 / 40320)))))))
  );
}

/**
 * ∫₀ᵀ exp(x(T′)) dT′ in K: T k π(z), z = b/T, with the rational approximation
 * π(z) = (z³ + 18 z² + 86 z + 96)/(z⁴ + 20 z³ + 120 z² + 240 z + 120) of the temperature integral, Senum and
 * Yang, J. Therm. Anal. 11 (1977) 445 as corrected by Flynn, Thermochim. Acta 300 (1997) 83 (from memory;
 * checked against the exponential integral: within 4e-6 for z ≥ 8).
 */
function arrheniusArea(tempK: number, b: number, k: number): number {
  const z = b / tempK;
  return (tempK * k * (96 + z * (86 + z * (18 + z)))) / (120 + z * (240 + z * (120 + z * (20 + z))));
}
