import { requireNumber, TemperbookError } from '../quantity';
import type { ThermocoupleType } from './referenceFunctions';

/** Standard a reel of wire was made to. */
export type ToleranceStandard = 'IEC 60584-1' | 'ASTM E230';

/** Class within it: 1, 2, 3 of IEC 60584-1; standard or special limits of ASTM E230. */
export type WireClass = 1 | 2 | 3 | 'standard' | 'special';

/** What is known of the wire of a thermocouple. */
export interface ToleranceClass {
  readonly standard: ToleranceStandard;
  readonly class: WireClass;
  readonly type: ThermocoupleType;
}

/** Greatest of a floor and a share of |t|, within a range; R and S of IEC class 1 grow from 1100 °C instead. */
interface ToleranceLine {
  readonly fromC: number;
  readonly toC: number;
  readonly floorC: number;
  readonly share: number;
  readonly shareFromC?: number;
}

type ToleranceLines = { readonly [wireClass in WireClass]?: readonly ToleranceLine[] };

const line = (fromC: number, toC: number, floorC: number, share: number): ToleranceLine => ({
  fromC,
  toC,
  floorC,
  share,
});

const IEC: { readonly [type in ThermocoupleType]: ToleranceLines } = {
  T: { 1: [line(-40, 350, 0.5, 0.004)], 2: [line(-40, 350, 1, 0.0075)], 3: [line(-200, 40, 1, 0.015)] },
  E: {
    1: [line(-40, 800, 1.5, 0.004)],
    2: [line(-40, 900, 2.5, 0.0075)],
    3: [line(-200, 40, 2.5, 0.015)],
  },
  J: { 1: [line(-40, 750, 1.5, 0.004)], 2: [line(-40, 750, 2.5, 0.0075)] },
  K: {
    1: [line(-40, 1000, 1.5, 0.004)],
    2: [line(-40, 1200, 2.5, 0.0075)],
    3: [line(-200, 40, 2.5, 0.015)],
  },
  N: {
    1: [line(-40, 1000, 1.5, 0.004)],
    2: [line(-40, 1200, 2.5, 0.0075)],
    3: [line(-200, 40, 2.5, 0.015)],
  },
  R: { 1: [{ ...line(0, 1600, 1, 0.003), shareFromC: 1100 }], 2: [line(0, 1600, 1.5, 0.0025)] },
  S: { 1: [{ ...line(0, 1600, 1, 0.003), shareFromC: 1100 }], 2: [line(0, 1600, 1.5, 0.0025)] },
  B: { 2: [line(600, 1700, 1.5, 0.0025)], 3: [line(600, 1700, 4, 0.005)] },
};

const ASTM: { readonly [type in ThermocoupleType]: ToleranceLines } = {
  T: { standard: [line(0, 370, 1, 0.0075), line(-200, 0, 1, 0.015)], special: [line(0, 370, 0.5, 0.004)] },
  J: { standard: [line(0, 760, 2.2, 0.0075)], special: [line(0, 760, 1.1, 0.004)] },
  E: { standard: [line(0, 870, 1.7, 0.005), line(-200, 0, 1.7, 0.01)], special: [line(0, 870, 1, 0.004)] },
  K: {
    standard: [line(0, 1260, 2.2, 0.0075), line(-200, 0, 2.2, 0.02)],
    special: [line(0, 1260, 1.1, 0.004)],
  },
  N: { standard: [line(0, 1260, 2.2, 0.0075)], special: [line(0, 1260, 1.1, 0.004)] },
  R: { standard: [line(0, 1480, 1.5, 0.0025)], special: [line(0, 1480, 0.6, 0.001)] },
  S: { standard: [line(0, 1480, 1.5, 0.0025)], special: [line(0, 1480, 0.6, 0.001)] },
  B: { standard: [line(870, 1700, 0, 0.005)], special: [line(870, 1700, 0, 0.0025)] },
};

/**
 * Tolerance of a thermocouple's wire at a temperature, ± °C: the greater of a floor and a share of |t| in °C;
 * null outside the range the class covers, where no tolerance is defined. A bound for new wire, not a standard
 * uncertainty (divide by √3 for that, as for a rectangular distribution), and not for wire that has drifted
 * in use (`typeKDriftC`).
 * Source: IEC 60584-1:2013; ASTM E230/E230M Table 1, as repeated in makers' tables; class 1 of R and S above
 * 1100 °C from memory. Below 0 °C ASTM type K is printed as 2 % in two sources and 1 % in one; 2 % is used.
 *
 * @throws TemperbookError on a class that does not belong to the standard, an unknown type or no temperature.
 * @example toleranceC('IEC 60584-1', 1, 'K', 400) // 1.6
 */
export function toleranceC(
  standard: ToleranceStandard,
  wireClass: WireClass,
  type: ThermocoupleType,
  tempC: number,
): number | null {
  requireNumber(tempC, 'Temperature in °C');
  const table = standard === 'ASTM E230' ? ASTM : IEC;
  const classes: readonly WireClass[] = standard === 'ASTM E230' ? ['standard', 'special'] : [1, 2, 3];
  if (
    (standard !== 'ASTM E230' && standard !== 'IEC 60584-1') ||
    !classes.includes(wireClass) ||
    !Object.hasOwn(table, type)
  )
    throw new TemperbookError('Unknown tolerance class of a thermocouple', {
      found: `${standard}, class ${wireClass}, type ${type}`,
      expected: `IEC 60584-1 class 1, 2 or 3, or ASTM E230 standard or special, and a type of ${Object.keys(table).join(', ')}`,
    });
  const limits = table[type][wireClass]?.filter(({ fromC, toC }) => tempC >= fromC && tempC <= toC) ?? [];
  const tolerances = limits.map(({ floorC, share, shareFromC }) =>
    shareFromC === undefined
      ? Math.max(floorC, share * Math.abs(tempC))
      : floorC + share * Math.max(0, tempC - shareFromC),
  );
  return tolerances.length === 0 ? null : Math.max(...tolerances);
}
