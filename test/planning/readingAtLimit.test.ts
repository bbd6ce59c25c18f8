import { describe, expect, it } from 'vitest';
import { readingAtLimit } from '../../lib/planning';
import { judged } from '../../lib/quantity';
import { seededRandom } from '../../lib/statistics';

const known = (fraction: number) =>
  ({ value: fraction, low: fraction, high: fraction, unit: '1', source: 'test', known: 'seen' }) as const;
const ratio = (nominal: number, bounds: number[] = []) => judged(nominal, bounds, '1', []);

describe('readingAtLimit', () => {
  const job = { limitC: 227, ambientC: 20, criticalPeakC: 227, attachment: known(0) };

  it('is T_a + r (T_limit − T_a) for a perfect probe: 20 + 0.8 · 207 = 185.6 °C', () => {
    expect(readingAtLimit({ ratio: ratio(0.8), kPerMm: 0 }, job).nominal).toBeCloseTo(185.6, 9);
  });

  it('has the 5 and 95 % lines of independent doubts: wire 2.5 °C, place 3 °C, a tenth of a fall of 41.4 °C', () => {
    const { nominal, low, high } = readingAtLimit({ ratio: ratio(0.8), kPerMm: 3 }, job);
    // The same sum drawn 200,000 times with random numbers of another kind (JCGM 101:2008, 7.2).
    const random = seededRandom(1);
    const sums = Float64Array.from({ length: 200_000 }, () =>
      [2.5, 3, 4.14].reduce((sum, half) => sum + half * (2 * random.uniform() - 1), 0),
    ).sort();
    const q95 = sums[190_000]!;
    // 400 draws: an error of one draw in twenty at the 5 % line, where a draw is worth about 0.1 °C.
    expect(Math.abs(nominal - low - q95)).toBeLessThan(0.3);
    expect(Math.abs(high - nominal - q95)).toBeLessThan(0.3);
  });

  it('comes earlier the more the fixing reads low', () => {
    const stop = (f: number) =>
      readingAtLimit({ ratio: ratio(0.8), kPerMm: 0 }, { ...job, attachment: known(f) }).nominal;
    expect(stop(0.1)).toBeCloseTo(20 + 0.9 * 0.8 * 207, 9);
    expect(stop(0.2)).toBeLessThan(stop(0.1));
  });

  it('a plan twice as hot falls twice as steeply, but not at the limit', () => {
    const at = (criticalPeakC: number, kPerMm: number) =>
      readingAtLimit({ ratio: ratio(1), kPerMm }, { ...job, criticalPeakC });
    expect(at(434, 6).low).toBeCloseTo(at(227, 3).low, 9);
  });
});
