import { describe, expect, it } from 'vitest';
import its90 from '../../../data/published/its90-table.json';
import coldJunction from '../../../data/published/thermocouple-cold-junction.json';
import { celsiusToEmf, emfToCelsius, seebeckMvPerK, type ThermocoupleType } from '../../../lib/thermocouple';

/** The tables print 0.001 mV: half a digit, and 1e-5 for the decimal-to-binary halves. */
const PRINT_ROUNDING_MV = 0.00051;

describe('NIST SRD 60 one-degree tables (Monograph 175)', () => {
  it.each(Object.entries(its90.types))(
    'type %s within print rounding at every point',
    (type, { tempC, emfMv }) => {
      const worst = tempC.map((t, i) => Math.abs(celsiusToEmf(type as ThermocoupleType, t) - emfMv[i]!));
      expect(Math.max(...worst)).toBeLessThan(PRINT_ROUNDING_MV);
      expect(tempC.length).toBeGreaterThan(400);
    },
  );

  it.each(Object.entries(its90.types))(
    'type %s: a printed EMF comes back to its temperature within the print rounding over the slope',
    (type, { tempC, emfMv }) => {
      tempC.forEach((t, i) => {
        // Type B has two temperatures below 42 °C and nearly no slope there.
        if (type === 'B' && t < 60) return;
        // Half a printed digit, carried through the slope at its smallest within that digit.
        const kind = type as ThermocoupleType;
        const back = emfToCelsius(kind, emfMv[i]!);
        const smallestSlope = Math.min(seebeckMvPerK(kind, t), seebeckMvPerK(kind, back));
        expect(Math.abs(back - t)).toBeLessThan(PRINT_ROUNDING_MV / smallestSlope);
      });
    },
  );

  it('anchor values of type K: 100, 500 and 1000 °C', () => {
    expect(celsiusToEmf('K', 100)).toBeCloseTo(4.096, 3);
    expect(celsiusToEmf('K', 500)).toBeCloseTo(20.644, 3);
    expect(celsiusToEmf('K', 1000)).toBeCloseTo(41.276, 3);
  });
});

describe('cold junction in millivolts', () => {
  it.each(
    coldJunction.workedExamples.rows.map((row) => row as [ThermocoupleType, number, number, number, number]),
  )(
    'published example: type %s, %f mV, cold end %f °C is %f °C',
    (type, emfMv, referenceC, tempC, digits) => {
      expect(emfToCelsius(type, emfMv, referenceC)).toBeCloseTo(tempC, digits);
    },
  );

  it.each(
    coldJunction.coldJunctionCases.rows.map(
      (row) => row as [ThermocoupleType, number, number, number, number, number],
    ),
  )('type %s at %f °C, cold end %f °C', (type, trueC, referenceC, emfMv, uncompensatedC, addingDegreesC) => {
    expect(celsiusToEmf(type, trueC) - celsiusToEmf(type, referenceC)).toBeCloseTo(emfMv, 4);
    // The EMF is printed to 0.0001 mV, the temperatures to 0.01 °C.
    const tolC = 0.00005 / seebeckMvPerK(type, trueC) + 0.005;
    expect(Math.abs(emfToCelsius(type, emfMv, referenceC) - trueC)).toBeLessThan(tolC);
    expect(Math.abs(emfToCelsius(type, emfMv) - uncompensatedC)).toBeLessThan(tolC);
    expect(Math.abs(emfToCelsius(type, emfMv) + referenceC - addingDegreesC)).toBeLessThan(tolC);
  });

  it('T and N show what K at 200 °C hides: adding degrees is off by 4 to 13 °C', () => {
    const shortcutError = (type: ThermocoupleType, trueC: number, referenceC: number) =>
      emfToCelsius(type, celsiusToEmf(type, trueC) - celsiusToEmf(type, referenceC)) + referenceC - trueC;
    expect(Math.abs(shortcutError('K', 200, 20))).toBeLessThan(0.02);
    expect(shortcutError('T', 400, 35)).toBeGreaterThan(12);
    expect(shortcutError('N', 200, 20)).toBeGreaterThan(3.9);
  });

  it.each(coldJunction.sensitivity.rows.map((row) => row as [ThermocoupleType, number, number, number]))(
    'slope of type %s at %f °C',
    (type, tempC, seebeckUvPerK, perDegree) => {
      expect(seebeckMvPerK(type, tempC) * 1000).toBeCloseTo(seebeckUvPerK, 2);
      expect(seebeckMvPerK(type, 25) / seebeckMvPerK(type, tempC)).toBeCloseTo(perDegree, 3);
    },
  );

  it.each(
    coldJunction.wrongType.rows.map((row) => row as [ThermocoupleType, ThermocoupleType, number, number]),
  )('%s wire on an instrument set to %s at %f °C reads %f', (wire, setTo, trueC, readsC) => {
    const emfMv = celsiusToEmf(wire, trueC) - celsiusToEmf(wire, 25);
    expect(emfToCelsius(setTo, emfMv, 25)).toBeCloseTo(readsC, 1);
  });
});
