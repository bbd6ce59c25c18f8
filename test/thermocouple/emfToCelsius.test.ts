import { describe, expect, it } from 'vitest';
import { TemperbookError } from '../../lib/quantity';
import {
  celsiusToEmf,
  emfToCelsius,
  seebeckMvPerK,
  type ThermocoupleType,
  temperatureRangeC,
} from '../../lib/thermocouple';
import { fc } from '../setup/fc';

const TYPES: ThermocoupleType[] = ['B', 'E', 'J', 'K', 'N', 'R', 'S', 'T'];
const typeAndShare = fc.record({
  type: fc.constantFrom(...TYPES),
  share: fc.double({ min: 0, max: 1, noNaN: true }),
});
/** Type B has one temperature per EMF only from about 42 °C. */
const singleValuedFromC = (type: ThermocoupleType) => (type === 'B' ? 43 : temperatureRangeC(type)[0]);

describe('emfToCelsius', () => {
  it('undoes celsiusToEmf over the whole range of every type', () => {
    fc.assert(
      fc.property(typeAndShare, ({ type, share }) => {
        const low = singleValuedFromC(type);
        const tempC = low + share * (temperatureRangeC(type)[1] - low);
        // 1e-6 °C; the step of 7.5e-8 mV where the pieces of type J meet at 760 °C is worth 1.3e-6 °C.
        const tolC = type === 'J' && Math.abs(tempC - 760) < 2e-6 ? 2e-6 : 1e-6;
        expect(Math.abs(emfToCelsius(type, celsiusToEmf(type, tempC)) - tempC)).toBeLessThan(tolC);
      }),
      { numRuns: 3000 },
    );
  });

  it('undoes it at the ends and at every join of two pieces', () => {
    const places: [ThermocoupleType, number[]][] = [
      ['B', [43, 250, 630.615, 700, 1820]],
      ['E', [-270, -200, 0, 1000]],
      ['J', [-210, 0, 1200]],
      ['K', [-270, -200, 0, 500, 1372]],
      ['N', [-270, -200, 0, 600, 1300]],
      ['R', [-50, 250, 1064.18, 1200, 1664.5, 1768.1]],
      ['S', [-50, 250, 1064.18, 1200, 1664.5, 1768.1]],
      ['T', [-270, -200, 0, 400]],
    ];
    for (const [type, temps] of places)
      for (const tempC of temps)
        expect(
          Math.abs(emfToCelsius(type, celsiusToEmf(type, tempC)) - tempC),
          `${type} ${tempC}`,
        ).toBeLessThan(1e-6);
  });

  it('compensates any cold end in millivolts', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...TYPES),
        fc.double({ min: 0, max: 50, noNaN: true }),
        (type, referenceC) => {
          const emfMv = celsiusToEmf(type, 300) - celsiusToEmf(type, referenceC);
          expect(emfToCelsius(type, emfMv, referenceC)).toBeCloseTo(300, 6);
        },
      ),
    );
  });

  it('answers the warmer of the two temperatures of a type B at −0.002 mV', () => {
    const tempC = emfToCelsius('B', -0.002);
    expect(celsiusToEmf('B', tempC)).toBeCloseTo(-0.002, 12);
    expect(tempC).toBeGreaterThan(21.02);
    expect(tempC).toBeLessThan(42);
  });

  it.each<[ThermocoupleType, number, number]>([
    ['K', 54.9, 0],
    ['K', -6.5, 0],
    ['T', 21, 20],
    ['B', -0.01, 0],
    ['K', 1, 2000],
    ['K', Number.NaN, 0],
    ['K', 1, Number.NaN],
    ['C' as ThermocoupleType, 1, 0],
    ['toString' as ThermocoupleType, 1, 0],
  ])('refuses type %s, %f mV, cold end %f °C', (type, emfMv, referenceC) => {
    expect(() => emfToCelsius(type, emfMv, referenceC)).toThrow(TemperbookError);
  });

  it('says what to check when the EMF is impossible', () => {
    expect(() => emfToCelsius('K', 76)).toThrow(/-6.458 to 54.886 mV.*polarity/);
    expect(() => celsiusToEmf('T', 401)).toThrow(/Found: 401 °C\. Expected: -270 to 400 °C/);
  });
});

describe('seebeckMvPerK', () => {
  it('is the slope of celsiusToEmf', () => {
    fc.assert(
      fc.property(typeAndShare, ({ type, share }) => {
        const [low, high] = temperatureRangeC(type);
        const tempC = low + 0.01 + share * (high - low - 0.02);
        const central = (celsiusToEmf(type, tempC + 0.01) - celsiusToEmf(type, tempC - 0.01)) / 0.02;
        // A join inside the difference: the second derivative jumps by at most about 1e-4 mV/K².
        expect(Math.abs(seebeckMvPerK(type, tempC) - central)).toBeLessThan(2e-6);
      }),
    );
  });
});
