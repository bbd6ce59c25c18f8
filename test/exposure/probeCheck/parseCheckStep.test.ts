import { describe, expect, it } from 'vitest';
import { parseCheckStep } from '../../../lib/exposure';

describe('a step of a check in words', () => {
  it.each([
    ['ice water 30s to 90s', { what: 'ice water', fromS: 30, toS: 90 }],
    ['boiling water 2min to 3min at 1500m', { what: 'boiling water', fromS: 120, toS: 180, altitudeM: 1500 }],
    ['Boiling water 2 min to 3 min at 98.2kPa', { pressureKPa: 98.2 }],
    ['tap water 4min to 5min at 59F', { what: 'tap water', tempC: 15 }],
    ['one alone TC1 block 12 mm 6min to 7min', { what: 'one alone', channel: 'TC1 block 12 mm' }],
    ['wiggle 7min to 8min', { what: 'wiggle', fromS: 420, toS: 480 }],
    ['arc 8min to 9min', { what: 'arc' }],
    ['all together 5min to 6min', { what: 'all together' }],
  ])('%j', (words, step) => expect(parseCheckStep(words)).toMatchObject(step));

  it('takes feet for what they are', () =>
    expect(parseCheckStep('boiling water 2min to 3min at 5000ft')).toMatchObject({
      altitudeM: expect.closeTo(1524, 6),
    }));

  it.each([
    'oil bath 1min to 2min',
    'ice water 1min',
    'tap water 1min to 2min',
    'one alone 1min to 2min',
    'ice water at home 1min to 2min',
    'ice water 1min to 2min at 3C',
    'boiling water 1min to 2min at 30',
    'ice water 1 to 2',
  ])('refuses %j', (words) => expect(() => parseCheckStep(words)).toThrow(/such as "ice water|its unit/));
});
