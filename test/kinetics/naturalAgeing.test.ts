import { describe, expect, it } from 'vitest';
import { listAlloys, loadAlloy } from '../../lib/alloy';
import { isothermal } from '../../lib/history';
import { combinedSoftening, naturalAgeing, practiceAllowanceUsed } from '../../lib/kinetics';

const DAY = 86_400;

describe('naturalAgeing', () => {
  it('is nothing at once, 95 % at 21 days, proportional to what dissolved', () => {
    const gain = loadAlloy('6061').naturalAgeing.gainMPa.value;
    expect(naturalAgeing(1, 0, '6061').nominal).toBeCloseTo(0, 12);
    expect(naturalAgeing(1, 21 * DAY, '6061').nominal / gain).toBeCloseTo(0.95, 2);
    expect(naturalAgeing(0.5, 7 * DAY, '6061').nominal).toBeCloseTo(
      naturalAgeing(1, 7 * DAY, '6061').nominal / 2,
      12,
    );
  });

  // 6060 hardness rises until about 25 days and then levels off (U. Stamenkovic et al. 2019): the shape was chosen
  // for it, so this checks the choice, not the physics.
  it('has levelled off at 25 days', () => {
    const at = (days: number): number => naturalAgeing(1, days * DAY, '6061').nominal;
    expect(at(40) / at(25)).toBeLessThan(1.03);
  });

  it.each(listAlloys())('%s: orders its band and ends at T4', (alloy) => {
    const { nominal, low, high } = naturalAgeing({ nominal: 0.5, low: 0.2, high: 0.9 }, 10 * DAY, alloy);
    expect(low).toBeLessThan(nominal);
    expect(nominal).toBeLessThan(high);
    const card = loadAlloy(alloy);
    const full = card.dissolution.floorYieldMPa.value + card.naturalAgeing.gainMPa.value;
    const t4 = card.tempers.T4!.yieldMPa;
    expect(full).toBeGreaterThanOrEqual(t4.low);
    expect(full).toBeLessThanOrEqual(t4.high);
  });

  it('gives an over-aged soak nothing back, a dissolved spot a lot', () => {
    const soaked = combinedSoftening(isothermal(218, 8 * 3600), '6061', 'T6');
    const welded = combinedSoftening(isothermal(500, 10), '6061', 'T6');
    expect(naturalAgeing(soaked.dissolvedFraction, 30 * DAY, '6061').nominal).toBeLessThan(1);
    expect(naturalAgeing(welded.dissolvedFraction, 30 * DAY, '6061').nominal).toBeGreaterThan(40);
  });

  it('refuses fractions and times that cannot be', () => {
    expect(() => naturalAgeing(1.2, DAY, '6061')).toThrow(/dissolved fraction/);
    expect(() => naturalAgeing(0.5, -1, '6061')).toThrow(/room temperature/);
  });
});

describe('practiceAllowanceUsed', () => {
  // Hot-forming reheat limits of 6061-T6 quoted second-hand: 375 °F 1-2 h, 400 °F 0.5 h, 425 °F 0.25 h, 450 °F
  // 5 min. With 130 kJ/mol they are 4.15, 3.67, 4.63 and 3.70 h at 177 °C, so each uses the 4 h within 16 %.
  it.each([
    [375, 1.5],
    [400, 0.5],
    [425, 0.25],
    [450, 1 / 12],
  ])('each published limit is the whole allowance: %d °F', (fahrenheit, hours) => {
    const [use] = practiceAllowanceUsed(isothermal((fahrenheit - 32) / 1.8, hours * 3600), '6061');
    expect(Math.abs(use!.used.nominal - 1)).toBeLessThan(0.17);
    expect(use!.used.low).toBeLessThan(1);
    expect(use!.used.high).toBeGreaterThan(1);
    expect(use!.allowance.timeS.known).toBe('practice');
  });

  it('is empty where practice has no rule', () => {
    expect(practiceAllowanceUsed(isothermal(200, 60), 'A356.0')).toEqual([]);
  });
});
