import { describe, expect, it } from 'vitest';
import { parseHeats } from '../../../lib/exposure';
import { celsiusToFahrenheit } from '../../../lib/quantity';
import { fc } from '../../setup/fc';

describe('parseHeats', () => {
  it.each([
    ['390F 1.5h', 198.89, 5400, 1, 'from the door'],
    ['390 °F for 1.5 hours', 198.89, 5400, 1, 'from the door'],
    ['8 x 200C 20min', 200, 1200, 8, 'from the door'],
    ['8 × 200 °C 20 min', 200, 1200, 8, 'from the door'],
    ['3*350F 1h30', 176.67, 5400, 3, 'from the door'],
    ['350F 1 h 30 min', 176.67, 5400, 1, 'from the door'],
    ['200C 10min at metal', 200, 600, 1, 'at metal temperature'],
    ['400F, 20 min PMT', 204.44, 1200, 1, 'at metal temperature'],
    ['204,4C 0,5h', 204.4, 1800, 1, 'from the door'],
    ['20C 3 weeks', 20, 1_814_400, 1, 'from the door'],
  ])('reads %j', (text, setC, timeS, times, counted) => {
    const [heat, ...more] = parseHeats(text);
    expect(more).toEqual([]);
    expect(heat!.setC).toBeCloseTo(setC, 2);
    expect(heat).toMatchObject({ timeS, times, counted });
  });

  it('reads several, in their order', () =>
    expect(parseHeats('350F 4h; 3 x 200C 10min then 390F 1h').map(({ times }) => times)).toEqual([1, 3, 1]));

  it.each([
    ['390 1.5', /°F or °C\?.*"390F", which is 199 °C.*"390C", which is 390 °C/],
    ['390 1.5h', /°F or °C\?/],
    ['390F 1.5', /This time.*"1\.5".*"20min"/],
    ['390F', /cannot be read.*"390F 1\.5h"/],
    ['3900F 2h', /No aluminium part stands.*2149 °C/],
    ['375-400F 1h', /cannot be read/],
    ['0 x 390F 1h', /How often/],
    ['390F 0h', /The time of/],
    ['hot for an hour', /cannot be read/],
    ['  ', /No heat is given/],
  ])('refuses %j and says how to write it', (text, message) =>
    expect(() => parseHeats(text)).toThrow(message),
  );

  it('reads the same heat in either unit', () =>
    fc.assert(
      fc.property(fc.integer({ min: 50, max: 550 }), fc.integer({ min: 1, max: 600 }), (c, min) => {
        const [inC] = parseHeats(`${c}C ${min}min`);
        const [inF] = parseHeats(`${celsiusToFahrenheit(c)}F ${min * 60}s`);
        expect(inF!.setC).toBeCloseTo(inC!.setC, 9);
        expect(inF!.timeS).toBe(inC!.timeS);
      }),
    ));
});
