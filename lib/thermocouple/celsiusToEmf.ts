import { TemperbookError } from '../quantity';
import { REFERENCE_FUNCTIONS, type ReferencePiece, type ThermocoupleType } from './referenceFunctions';

/**
 * EMF of a thermocouple in mV with its reference junction at 0 °C: the ITS-90 reference function.
 * `tempC` within the type's range (`temperatureRangeC`). Source: NIST Monograph 175 (1993); the NIST
 * one-degree tables are met within their print rounding of 0.0005 mV.
 * @throws TemperbookError on an unknown type or a temperature outside its range.
 * @example celsiusToEmf('K', 500) // 20.644
 */
export function celsiusToEmf(type: ThermocoupleType, tempC: number): number {
  return emf(pieceAt(type, tempC), tempC);
}

/** Slope of the reference function in mV/K (the Seebeck coefficient); arguments as `celsiusToEmf`. */
export function seebeckMvPerK(type: ThermocoupleType, tempC: number): number {
  return slope(pieceAt(type, tempC), tempC);
}

/** Lowest and highest temperature the reference function of a type is defined for, °C. */
export function temperatureRangeC(type: ThermocoupleType): readonly [number, number] {
  const pieces = piecesOf(type);
  return [pieces[0]!.fromC, pieces[pieces.length - 1]!.toC];
}

/** Horner's scheme in double precision: powers one by one lose digits for E and T below 0 °C. */
export function emf({ c, exponential }: ReferencePiece, tempC: number): number {
  let sum = 0;
  for (let i = c.length - 1; i >= 0; i--) sum = sum * tempC + c[i]!;
  if (exponential === undefined) return sum;
  const { a0Mv, a1PerC2, a2C } = exponential;
  return sum + a0Mv * Math.exp(a1PerC2 * (tempC - a2C) ** 2);
}

/** dE/dt of one piece, mV/K. */
export function slope({ c, exponential }: ReferencePiece, tempC: number): number {
  let sum = 0;
  for (let i = c.length - 1; i >= 1; i--) sum = sum * tempC + i * c[i]!;
  if (exponential === undefined) return sum;
  const { a0Mv, a1PerC2, a2C } = exponential;
  const off = tempC - a2C;
  return sum + a0Mv * Math.exp(a1PerC2 * off * off) * 2 * a1PerC2 * off;
}

/** The piece that holds a temperature; at a join the lower one. */
export function pieceAt(type: ThermocoupleType, tempC: number): ReferencePiece {
  const pieces = piecesOf(type);
  if (tempC >= pieces[0]!.fromC) for (const piece of pieces) if (tempC <= piece.toC) return piece;
  const [low, high] = temperatureRangeC(type);
  throw new TemperbookError(`Outside the range of a type ${type} thermocouple`, {
    found: `${tempC} °C`,
    expected: `${low} to ${high} °C`,
  });
}

function piecesOf(type: ThermocoupleType): readonly ReferencePiece[] {
  if (!Object.hasOwn(REFERENCE_FUNCTIONS, type))
    throw new TemperbookError('Unknown thermocouple type', {
      found: String(type),
      expected: `one of ${Object.keys(REFERENCE_FUNCTIONS).join(', ')}`,
      remedy: 'Look for the letter on the connector or the reel of wire',
    });
  return REFERENCE_FUNCTIONS[type];
}
