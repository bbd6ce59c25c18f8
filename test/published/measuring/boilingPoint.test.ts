import { describe, expect, it } from 'vitest';
import { celsiusToFahrenheit, celsiusToKelvin } from '../../../lib/quantity';
import { boilingPointC, pressureAtKPa } from '../../../lib/thermocouple';

describe('boiling point of water', () => {
  // IAPWS Industrial Formulation 1997, table 36, values for program verification (from memory).
  it.each([
    [100, 372.755919],
    [1000, 453.035632],
    [10_000, 584.149488],
  ])('at %d kPa is %f K', (kPa, kelvin) =>
    expect(celsiusToKelvin(boilingPointC(kPa))).toBeCloseTo(kelvin, 5),
  );

  // A table of boiling points for travellers (seen): 210.2 °F at 1000 ft, 203 °F at 5000 ft; printed to 0.1 and 1 °F.
  it.each([
    [1000, 210.2, 0.1],
    [5000, 203, 0.5],
  ])('at %d ft is %f °F', (feet, printedF, half) =>
    expect(
      Math.abs(celsiusToFahrenheit(boilingPointC(pressureAtKPa(feet * 0.3048))) - printedF),
    ).toBeLessThanOrEqual(half),
  );

  // The same pages print 101, 90, 80 and 71 kPa at 0, 1000, 2000 and 3000 m. The standard atmosphere (ISO 2533) gives 70.1 kPa
  // at 3000 m: the printed 71 is that of a warmer air, and 0.3 °C of boiling point.
  it.each([
    [0, 101],
    [1000, 90],
    [2000, 80],
  ])('the air at %d m has %d kPa', (metres, printed) =>
    expect(Math.abs(pressureAtKPa(metres) - printed)).toBeLessThanOrEqual(0.51),
  );
  it('and at 3000 m 70.1, not the printed 71', () => expect(pressureAtKPa(3000)).toBeCloseTo(70.1, 1));

  it('refuses what is no pressure', () => {
    expect(() => boilingPointC(0)).toThrow(/pressure/);
    expect(() => pressureAtKPa(20_000)).toThrow(/altitude/);
  });
});
