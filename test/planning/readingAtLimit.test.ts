import { describe, expect, it } from 'vitest';
import { readingAtLimit } from '../../lib/planning';
import { judged } from '../../lib/quantity';

const known = (fraction: number) =>
  ({ value: fraction, low: fraction, high: fraction, unit: '1', source: 'test', known: 'seen' }) as const;
const ratio = (nominal: number, bounds: number[] = []) => judged(nominal, bounds, '1', []);

describe('readingAtLimit', () => {
  const job = { limitC: 227, ambientC: 20, criticalPeakC: 227, attachment: known(0) };

  it('is T_a + r (T_limit − T_a) for a perfect probe: 20 + 0.8 · 207 = 185.6 °C', () => {
    expect(readingAtLimit({ ratio: ratio(0.8), kPerMm: 0 }, job).nominal).toBeCloseTo(185.6, 9);
  });

  it('adds independent doubts as squares: wire 2.5 °C, place 3 °C, a tenth of a fall of 41.4 °C', () => {
    const { nominal, low, high } = readingAtLimit({ ratio: ratio(0.8), kPerMm: 3 }, job);
    expect(nominal - low).toBeCloseTo(Math.hypot(2.5, 3, 4.14), 9);
    expect(high - nominal).toBeCloseTo(nominal - low, 9);
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
