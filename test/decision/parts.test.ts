import { describe, expect, it } from 'vitest';
import { compareScenarios, considerRecovery } from '../../lib/decision';
import { coverFromNeighbours } from '../../lib/decision/coverFromNeighbours';
import { combineEffects, effect } from '../../lib/decision/effects';
import { isothermal, join, shiftTemperature, thermalHistory } from '../../lib/history';

describe('effects of doubts', () => {
  it('are one-sided: what lowers the value does not raise it', () => {
    expect(effect('x', 1, [0.9])).toEqual({ of: 'x', drop: expect.closeTo(0.1, 12), rise: 0 });
    expect(effect('x', 1, [0.9, 1.2])).toMatchObject({ rise: expect.closeTo(0.2, 12) });
  });

  it('add as squares: 3 and 4 make 5', () => {
    const { low, high } = combineEffects(10, [effect('a', 10, [7]), effect('b', 10, [6, 12])]);
    expect(low).toBeCloseTo(5, 12);
    expect(high).toBeCloseTo(12, 12);
  });
});

describe('coverFromNeighbours', () => {
  const whole = thermalHistory([0, 50, 100], [20, 200, 40]);

  it('changes nothing where everything was recorded', () => {
    expect(coverFromNeighbours(whole, [], [0, 100])).toEqual({ history: whole, assumedS: 0, unknownS: 0 });
  });

  it('takes the hottest other reading after the probe stopped', () => {
    const { history, assumedS, unknownS } = coverFromNeighbours(
      thermalHistory([0, 10], [20, 30]),
      [whole, isothermal(100, 100)],
      [0, 100],
    );
    expect(assumedS).toBe(90);
    expect(unknownS).toBe(0);
    expect(Math.max(...history.tempC)).toBe(200);
    // After 90 s the other probe, at 100 °C, is the hotter one.
    expect(history.tempC[history.tempC.length - 1]).toBe(100);
  });

  it('holds the hotter end of a gap when no other probe was hotter', () => {
    const { history } = coverFromNeighbours(
      thermalHistory([0, 10, 60, 70], [20, 180, 90, 80], [1]),
      [isothermal(50, 70)],
      [0, 70],
    );
    expect(history.gapAfter).toBeUndefined();
    expect(history.tempC.filter((t) => t === 180).length).toBeGreaterThan(1);
  });

  it('says what nobody knows', () => {
    expect(coverFromNeighbours(whole, [], [0, 250]).unknownS).toBe(150);
  });
});

describe('compareScenarios', () => {
  const weld = join([thermalHistory([0, 20, 200], [20, 300, 60])]);
  const ranked = compareScenarios(
    [
      { name: 'hotter', history: shiftTemperature(weld, (t) => (t - 20) * 0.3) },
      { name: 'as it ran', history: weld },
      { name: 'slow and cool', history: isothermal(60, 5000) },
      { name: 'quick and cool', history: isothermal(60, 50) },
    ],
    { alloy: '6061', temper: 'T6', attachment: 'welded wires' },
  );

  it('ranks by what one can count on, and of equals by time', () => {
    expect(ranked.map(({ name }) => name)).toEqual([
      'quick and cool',
      'slow and cool',
      'as it ran',
      'hotter',
    ]);
  });

  it('tells the time each took', () => expect(ranked[1]!.timeSpentS).toBe(5000));
});

describe('considerRecovery', () => {
  const options = { alloy: '6061', temper: 'T6' };
  const kept = (history: Parameters<typeof considerRecovery>[0], way: RegExp) =>
    considerRecovery(history, options).find(({ name }) => way.test(name))!.yieldKeptFraction;
  // Within the soaks the curve was fitted to, so nothing dissolves.
  const overaged = isothermal(215, 40 * 3600);
  const dissolved = thermalHistory([0, 10, 12, 40], [20, 540, 540, 60]);

  it('does not repair over-ageing by ageing again', () => {
    expect(kept(overaged, /Age again/).nominal).toBeLessThanOrEqual(kept(overaged, /as it is/).nominal);
    expect(kept(overaged, /as it is/).nominal).toBeLessThan(0.75);
  });

  it('brings back most of what dissolved', () => {
    // 6061 friction-stir metal regained 81.8 to 83.5 of 83 HRF by 170 °C 10 h, from 54.7 and 67.5
    // (ASME J. Manuf. Sci. Eng. 143 (2021) 031003): nearly all of it.
    expect(kept(dissolved, /as it is/).nominal).toBeLessThan(0.6);
    expect(kept(dissolved, /Age again/).nominal).toBeGreaterThan(0.85);
  });

  it('gains something, but not all, on the shelf', () => {
    const now = kept(dissolved, /as it is/).nominal;
    const rested = kept(dissolved, /three weeks/).nominal;
    expect(rested).toBeGreaterThan(now);
    expect(rested).toBeLessThan(kept(dissolved, /Age again/).nominal);
  });

  it('needs an ageing practice to age again', () => {
    expect(() => considerRecovery(overaged, { alloy: '6061', temper: 'O' })).toThrow(/no ageing practice/);
  });
});

describe('considerRecovery on a part known better', () => {
  const options = { alloy: '6061', temper: 'T6' };
  const dissolved = thermalHistory([0, 10, 12, 40], [20, 540, 540, 60]);
  const full = (quench?: ReturnType<typeof thermalHistory>) =>
    considerRecovery(dissolved, { ...options, ...(quench ? { quench } : {}) }).at(-1)!.yieldKeptFraction;

  it('starts from a measured yield', () => {
    const strong = considerRecovery(dissolved, { ...options, measuredYieldMPa: 310 })[0]!;
    const usual = considerRecovery(dissolved, options)[0]!;
    expect(strong.yieldKeptFraction.nominal).toBeLessThan(usual.yieldKeptFraction.nominal);
  });

  it('counts a new quench by its cooling curve', () => {
    // Quench factor 15.19 of 20 K/s from 425 to 150 °C keeps 0.9267: worked example of the reference.
    const cooling = thermalHistory([0, 25], [520, 20]);
    expect(full(cooling).nominal).toBeCloseTo(0.9267, 3);
    expect(full().low).toBe(0.9);
  });

  it('has no way back for metal that melted', () => {
    expect(() => considerRecovery(isothermal(700, 60), options)).toThrow(/no temper to bring back/);
  });
});
