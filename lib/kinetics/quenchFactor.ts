import type { QuenchConstants } from '../alloy';
import { checkHistory, type ThermalHistory } from '../history';
import { celsiusToKelvin, formatTemp, requireNumber, TemperbookError } from '../quantity';
import { resolveAlloy } from './resolveAlloy';
import type { AlloyLike, RangeRemark } from './temperModel';

/** C-curve of quench sensitivity as plain numbers; the card's `quench` holds the same with their sources. */
export type QuenchCurve = { readonly [Key in keyof QuenchConstants]: number };

/** What a quench leaves for the ageing after it. */
export interface QuenchResult {
  /** τ, the quench factor; 0 for an ideal quench. */
  readonly quenchFactor: number;
  /** Strength after ageing over that after an ideal quench, `quenchedFraction(τ)`. */
  readonly strengthFraction: number;
  readonly remarks: readonly RangeRemark[];
}

/** The improved form of the ratio; see `quenchFactor`. */
export interface QuenchOptions {
  /** Strength after ageing when the quench was endlessly slow, over that after an ideal quench; default 0. */
  readonly leastFraction?: number;
  /** n of the improved form; default 1. */
  readonly exponent?: number;
}

/** K₁ = ln 0.995: the C-curve is the time to lose half a percent. */
const K1 = Math.log(0.995);
/** Gas constant as the fitted constants were published with, J/(mol K). */
const R = 8.314;
/** Below this ratio the form without a least strength is not to be trusted. */
const TRUSTED_RATIO = 0.85;
/** Longest step of the integral, K. */
const STEP_K = 2;

/**
 * Quench factor analysis: how much of the strength a quench that was too slow has cost,
 *
 *   τ = ∫ dt/Ct(T),  Ct(T) = −K₁ K₂ exp[K₃ K₄²/(R T (K₄ − T)²)] exp[K₅/(R T)],
 *   σ/σ_max = exp(K₁ τ),  K₁ = ln 0.995,
 *
 * over the part of the cooling between the curve's limits (425 to 150 °C as a rule). The strength meant is that
 * after the ageing which follows. The improved form of Rometsch, Starink and Gregson,
 * (σ − σ_min)/(σ_max − σ_min) = exp(K₁ τ)ⁿ, is used when `leastFraction` = σ_min/σ_max and `exponent` = n (they
 * argue for ½ with constants fitted for it) are given.
 *
 * Range: ratios above 0.85; a smaller ratio without a least strength is flagged. The constants are far from
 * unique: never mix those of two sources.
 *
 * Source: J.W. Evancho, J.T. Staley, Metall. Trans. 5 (1974) 43-47; P.A. Rometsch, M.J. Starink, P.J. Gregson,
 * Mater. Sci. Eng. A 339 (2003) 255-264.
 * @param cooling the cooling of the part, logged or assumed.
 * @param alloy an alloy whose card has a C-curve (6061 among the kit's own), or the curve itself.
 * @throws TemperbookError when the card has no C-curve, the cooling starts below its upper limit or ends above
 * its lower one, or a constant is unusable, or there is a gap where it counts.
 * @example quenchFactor(thermalHistory([0, 13.75], [425, 150]), '6061').quenchFactor // 15.19
 * @example quenchFactor(thermalHistory([0, 13.75], [425, 150]), '6061').strengthFraction // 0.9267
 */
export function quenchFactor(
  cooling: ThermalHistory,
  alloy: AlloyLike | QuenchCurve,
  options: QuenchOptions = {},
): QuenchResult {
  checkHistory(cooling);
  const curve = typeof alloy === 'object' && 'k2S' in alloy ? checkCurve(alloy) : curveOf(alloy);
  const { timeS, tempC, gapAfter } = cooling;
  checkSpan(tempC, curve);
  const gaps = new Set(gapAfter);
  let tau = 0;
  for (let i = 1; i < timeS.length; i++)
    if (gaps.has(i - 1)) checkGap(tempC[i - 1]!, tempC[i]!, curve);
    else tau += intervalFactor(curve, timeS[i]! - timeS[i - 1]!, tempC[i - 1]!, tempC[i]!);
  const strengthFraction = quenchedFraction(tau, options);
  const untrusted = Math.exp(K1 * tau) < TRUSTED_RATIO && !options.leastFraction;
  return {
    quenchFactor: tau,
    strengthFraction,
    remarks: untrusted
      ? [
          {
            model: 'quench factor',
            quantity: 'strength ratio',
            text: `The ratio of ${strengthFraction.toFixed(2)} lies below ${TRUSTED_RATIO}: without a least strength the method is not valid there and reads far too low. The quench was too slow; that much is certain.`,
          },
        ]
      : [],
  };
}

/** σ/σ_max for a quench factor; see `quenchFactor`. */
export function quenchedFraction(
  tau: number,
  { leastFraction = 0, exponent = 1 }: QuenchOptions = {},
): number {
  requireNumber(tau, 'The quench factor', { low: 0 });
  requireNumber(leastFraction, 'The least strength fraction', { low: 0, high: 1 });
  requireNumber(exponent, 'The exponent of the quench factor', { low: 0.1, high: 10 });
  return leastFraction + (1 - leastFraction) * Math.exp(K1 * tau * exponent);
}

/** Ct(T) in s: the time at one temperature that costs half a percent of the strength. `tempC` below K₄. */
export function criticalTimeS({ k2S, k3JPerMol, k4K, k5JPerMol }: QuenchCurve, tempC: number): number {
  const t = celsiusToKelvin(tempC);
  return -K1 * k2S * Math.exp((k3JPerMol * k4K ** 2) / (R * t * (k4K - t) ** 2) + k5JPerMol / (R * t));
}

/** ∫ dt/Ct along the straight line of one interval, its part inside the limits, by Simpson's rule. */
function intervalFactor(curve: QuenchCurve, spanS: number, startC: number, endC: number): number {
  const { fromC, toC } = curve;
  if (startC === endC) return startC > toC && startC < fromC ? spanS / criticalTimeS(curve, startC) : 0;
  const low = Math.max(Math.min(startC, endC), toC);
  const high = Math.min(Math.max(startC, endC), fromC);
  if (low >= high) return 0;
  const panels = 2 * Math.ceil((high - low) / STEP_K);
  let sum = 0;
  for (let k = 0; k <= panels; k++) {
    const weight = k === 0 || k === panels ? 1 : k % 2 === 1 ? 4 : 2;
    sum += weight / criticalTimeS(curve, low + ((high - low) * k) / panels);
  }
  const secondsPerKelvin = spanS / Math.abs(endC - startC);
  return ((high - low) * secondsPerKelvin * sum) / (3 * panels);
}

function curveOf(alloy: AlloyLike): QuenchCurve {
  const card = resolveAlloy(alloy, 'quench factor');
  if (!card.quench)
    throw new TemperbookError(`The card of ${card.designation} has no quench constants`, {
      expected: 'a C-curve under "quench", or its constants as the argument',
      remedy: 'None were found for the 356 family, 6063 and 6082; those of another alloy do not transfer',
    });
  const { k2S, k3JPerMol, k4K, k5JPerMol, fromC, toC } = card.quench;
  return {
    k2S: k2S.value,
    k3JPerMol: k3JPerMol.value,
    k4K: k4K.value,
    k5JPerMol: k5JPerMol.value,
    fromC: fromC.value,
    toC: toC.value,
  };
}

function checkCurve(curve: QuenchCurve): QuenchCurve {
  const { k2S, k3JPerMol, k4K, k5JPerMol, fromC, toC } = curve;
  requireNumber(k2S, 'K2 in s', { low: Number.MIN_VALUE });
  requireNumber(k3JPerMol, 'K3 in J/mol', { low: 0 });
  requireNumber(k4K, 'K4 in K', { low: celsiusToKelvin(0) });
  requireNumber(k5JPerMol, 'K5 in J/mol', { low: 0 });
  requireNumber(fromC, 'The upper limit of the quench in °C', { high: k4K - celsiusToKelvin(0) - 1 });
  requireNumber(toC, 'The lower limit of the quench in °C', { low: -200, high: fromC });
  return curve;
}

/** An unrecorded quench is not a perfect one. */
function checkGap(beforeC: number, afterC: number, { fromC, toC }: QuenchCurve): void {
  if (Math.min(beforeC, afterC) >= fromC || Math.max(beforeC, afterC) <= toC) return;
  throw new TemperbookError('The log has a gap in the part of the cooling that the quench factor counts', {
    found: `nothing between ${formatTemp(beforeC)} and ${formatTemp(afterC)}`,
    expected: `readings from ${formatTemp(fromC)} to ${formatTemp(toC)}`,
    remedy: 'Use another probe of the same quench, or give an assumed cooling curve',
  });
}

function checkSpan(tempC: Float64Array, { fromC, toC }: QuenchCurve): void {
  const first = tempC[0]!;
  const last = tempC[tempC.length - 1]!;
  if (first >= fromC && last <= toC) return;
  throw new TemperbookError('The cooling does not cover the range the quench factor counts', {
    found: `from ${first} °C to ${last} °C`,
    expected: `from ${fromC} °C or hotter to ${toC} °C or colder`,
    remedy: 'Log the quench from the furnace door on, or give an assumed cooling curve',
  });
}
