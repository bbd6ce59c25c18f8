import { describe, expect, it } from 'vitest';
import { isothermal, thermalHistory } from '../../lib/history';
import { considerRecovery } from '../../lib/planning';

describe('considerRecovery', () => {
  const options = { alloy: '6061', temper: 'T6' };
  const kept = (history: Parameters<typeof considerRecovery>[0], way: RegExp) =>
    considerRecovery(history, options).find(({ name }) => way.test(name))!.yieldKeptFraction;
  // Within the soaks the curve was fitted to, so nothing dissolves.
  const overaged = isothermal(215, 80 * 3600);
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
    // A temper like that of the part, spread as parts are: the middle of the ratio is that of the quench.
    const part = { measuredYieldMPa: 276 };
    const made = considerRecovery(dissolved, { ...options, ...part, quench: cooling }).at(-1)!;
    const perfect = considerRecovery(dissolved, {
      ...options,
      ...part,
      quench: thermalHistory([0, 0.1], [520, 20]),
    });
    const ratio = made.yieldKeptFraction.nominal / perfect.at(-1)!.yieldKeptFraction.nominal;
    expect(ratio).toBeCloseTo(0.9267, 3);
    expect(full().low).toBeLessThan(full(cooling).high);
  });

  it('never takes a quench nobody logged for a better one than the best there is', () => {
    const best = full(thermalHistory([0, 0.1], [520, 20]));
    for (const line of ['low', 'nominal', 'high'] as const) expect(full()[line]).toBeLessThan(best[line]);
    // As far from the best as ten times slower may take: named where the answer is read.
    expect(full().because.join(' ')).toMatch(
      /up to \d+ MPa for a quench up to ten times slower.*nobody logged/,
    );
  });

  it('refuses the cooling of a new quench where no source says what it does', () => {
    const casting = { alloy: 'A356.0', temper: 'T6', quench: thermalHistory([0, 25], [520, 20]) };
    expect(() => considerRecovery(dissolved, casting)).toThrow(/quench/i);
  });

  it('has no way back for metal that melted', () => {
    expect(() => considerRecovery(isothermal(700, 60), options)).toThrow(/no temper to bring back/);
  });
});
