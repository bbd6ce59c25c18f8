import { requireNumber, TemperbookError } from '../quantity';
import { APPROXIMATE_INVERSES } from './approximateInverses';
import { celsiusToEmf, emf, pieceAt, slope, temperatureRangeC } from './celsiusToEmf';
import { REFERENCE_FUNCTIONS, type ThermocoupleType } from './referenceFunctions';

/**
 * Type B falls from 0 mV at 0 °C to −0.0026 mV at this temperature and only then rises (0 mV again at 42 °C):
 * the zero of dE/dt of its reference function, °C.
 */
const TYPE_B_TURN_C = 21.020262;

/** From a seed within 0.06 °C the first step leaves under 1e-5 °C, the second under 1e-12 °C. */
const NEWTON_STEPS = 2;

/** Half the last printed digit of the tables: their own end values, rounded outwards, still belong to the range. */
const PRINT_ROUNDING_MV = 0.0005;

/** The stretch on which E rises with t, so that an EMF has one temperature. */
interface RisingBranch {
  readonly lowC: number;
  readonly highC: number;
  readonly lowMv: number;
  readonly highMv: number;
}

/** Worked out once: a logger's file is converted sample by sample. */
const RISING_BRANCHES = new Map<ThermocoupleType, RisingBranch>(
  (Object.keys(REFERENCE_FUNCTIONS) as ThermocoupleType[]).map((type) => {
    const [startC, highC] = temperatureRangeC(type);
    const lowC = type === 'B' ? TYPE_B_TURN_C : startC;
    return [type, { lowC, highC, lowMv: celsiusToEmf(type, lowC), highMv: celsiusToEmf(type, highC) }];
  }),
);

/**
 * Temperature in °C of a thermocouple that gives `emfMv` (mV) while its cold end is at `referenceC` (°C,
 * default 0). The cold junction is compensated in millivolts, t = E⁻¹(E + E(t_ref)): adding degrees instead
 * is right only by luck. Apply it to a raw mV column only; most loggers have already compensated.
 *
 * The published inverse polynomial is the seed, Newton's method on the reference function the answer; where
 * no inverse is published (below −200 °C, type B below 250 °C) the reference function is bisected. Round trip
 * within 1e-6 °C, within 2e-6 °C at a join of two pieces. Type B gives two temperatures between −0.0026 and
 * 0 mV; the answer is the warmer one, 21 to 42 °C.
 * Source: NIST Monograph 175 (1993).
 * @throws TemperbookError on an EMF (by more than half a printed digit, 0.0005 mV) or a cold end outside the
 * type's range.
 * @example emfToCelsius('K', 4.096, 25) // 124.31
 */
export function emfToCelsius(type: ThermocoupleType, emfMv: number, referenceC = 0): number {
  const coldEndMv = celsiusToEmf(type, referenceC);
  const target = requireNumber(emfMv, `EMF of a type ${type} thermocouple in mV`) + coldEndMv;
  const { lowC, highC, lowMv, highMv } = RISING_BRANCHES.get(type)!;
  if (target < lowMv - PRINT_ROUNDING_MV || target > highMv + PRINT_ROUNDING_MV)
    throw new TemperbookError(`No type ${type} thermocouple gives this EMF`, {
      found: `${emfMv} mV with the cold end at ${referenceC} °C`,
      expected: `${(lowMv - coldEndMv).toFixed(3)} to ${(highMv - coldEndMv).toFixed(3)} mV`,
      remedy: 'Check the thermocouple type, the polarity and that the column is in millivolts',
    });
  const inverse = APPROXIMATE_INVERSES[type];
  if (target < inverse[0]!.fromMv) return bisect(type, target, lowC, highC);
  const { d } = inverse.find(({ toMv }) => target <= toMv) ?? inverse[inverse.length - 1]!;
  let tempC = 0;
  for (let i = d.length - 1; i >= 0; i--) tempC = tempC * target + d[i]!;
  for (let step = 0; step < NEWTON_STEPS; step++) {
    const piece = pieceAt(type, Math.min(tempC, highC));
    tempC -= (emf(piece, tempC) - target) / slope(piece, tempC);
  }
  return Math.min(Math.max(tempC, lowC), highC);
}

/** Halves [lowC, highC], on which E rises, until the ends are neighbours in double precision. */
function bisect(type: ThermocoupleType, target: number, lowC: number, highC: number): number {
  let low = lowC;
  let high = highC;
  for (;;) {
    const mid = (low + high) / 2;
    if (mid <= low || mid >= high) return mid;
    if (celsiusToEmf(type, mid) < target) low = mid;
    else high = mid;
  }
}
