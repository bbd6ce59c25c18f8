import { describe, expect, it } from 'vitest';
import { acrossDraws, equivalentTime, parseHeats, peak } from '../../../lib/exposure';
import { listOvens, type OvenOptions, ovenAsks, ovenExposure, ovenOf } from '../../../lib/heatflow';
import { fc } from '../../setup/fc';

const CLOCK = { activationEnergyJPerMol: 200_000, referenceC: 200 };
/** Equivalent times of every draw, s at 200 °C, ascending. */
const doses = (words: string, options: OvenOptions): number[] =>
  [...acrossDraws(ovenExposure(parseHeats(words)[0]!, options), (h) => equivalentTime(h, CLOCK))].sort(
    (a, b) => a - b,
  );
const at = (sorted: number[], share: number): number => sorted[Math.floor(share * (sorted.length - 1))]!;

describe('ovenExposure', () => {
  it('is the soak itself where oven and metal follow exactly', () => {
    const dose = doses('200C 1h', { oven: '±0C' });
    expect(at(dose, 0)).toBeCloseTo(3600, -1);
    expect(at(dose, 1)).toBeCloseTo(3600, -1);
  });

  it('a thick wall gets less from the door and more at metal temperature', () => {
    const thick = { oven: '±0C', wallMm: 25, fan: true };
    const fromDoor = doses('200C 1h', thick);
    const atMetal = doses('200C 1h at metal', thick);
    expect(at(fromDoor, 1)).toBeLessThan(3600);
    expect(at(atMetal, 0)).toBeGreaterThan(0.75 * 3600);
    expect(at(atMetal, 1)).toBeGreaterThan(3600);
  });

  it('what nobody said is never kinder: no oven, no wall and no fan give more heat at every share of the draws', () =>
    fc.assert(
      fc.property(
        fc.constantFrom(...listOvens().map(({ name }) => name)),
        fc.double({ min: 1, max: 60, noNaN: true }),
        fc.boolean(),
        (oven, wallMm, fan) => {
          const told = doses('200C 30min', { oven, wallMm, fan });
          for (const less of [{ wallMm, fan }, { oven }, {}])
            for (const share of [0.5, 0.95, 1])
              expect(at(doses('200C 30min', less), share)).toBeGreaterThan(0.98 * at(told, share));
        },
      ),
      { numRuns: 8, endOnFailure: true },
    ));

  it('the dial reaches as far as its tolerance', () => {
    const tops = acrossDraws(
      ovenExposure(parseHeats('200C 1h')[0]!, { oven: 'class 5' }),
      (h) => peak(h).tempC,
    );
    expect(Math.max(...tops)).toBeCloseTo(214, 0);
    expect(Math.min(...tops)).toBeCloseTo(186, 0);
  });

  it('asks for the wall where time counts at metal temperature', () =>
    expect(() => ovenExposure(parseHeats('200C 10min at metal')[0]!, { oven: 'class 5' })).toThrow(
      /needs the wall/,
    ));

  it('names oven, tolerance and source, and what was not said', () => {
    expect(ovenExposure(parseHeats('390F 1h')[0]!, { oven: 'class 2' }).because.join(' ')).toMatch(
      /±6 °C.*AMS 2750/,
    );
    expect(ovenAsks({})).toHaveLength(2);
    expect(ovenAsks({ oven: 'class 2', wallMm: 6 })[0]).toMatch(/fan/);
    expect(ovenAsks({ oven: 'class 2', wallMm: 6, fan: true })).toEqual([]);
  });

  it('knows ovens by class or by their own survey, and refuses the rest', () => {
    expect(ovenOf('AMS 2750 class 5').dialK).toBe(13.9);
    expect(ovenOf('±18F').dialK).toBe(10);
    expect(() => ovenOf('good')).toThrow(/"class 1".*"kitchen".*"±15F"/);
    expect(() => ovenOf('±500F')).toThrow(/No oven/);
    expect(() => ovenExposure(parseHeats('200C 1h')[0]!, { wallMm: 0 })).toThrow(/wall/);
  });
});
