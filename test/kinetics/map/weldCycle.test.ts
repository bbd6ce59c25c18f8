import { describe, expect, it } from 'vitest';
import { peak, timeAbove } from '../../../lib/exposure';
import { NEAR_PEAK_K, practicesFor, weldCycle } from '../../../lib/kinetics';
import { fc } from '../../setup/fc';

describe('weldCycle', () => {
  it('reaches its peak and stays within 20 °C of it for as long as it says', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 120, max: 600, noNaN: true }),
        fc.double({ min: 0.05, max: 7200, noNaN: true }),
        (peakC, nearPeakS) => {
          const cycle = weldCycle({ peakC, nearPeakS });
          expect(peak(cycle).tempC).toBe(peakC);
          // Cooling runs straight between steps of up to 13 K, a little above the exponential.
          const near = timeAbove(cycle, peakC - NEAR_PEAK_K);
          expect(near / nearPeakS).toBeGreaterThan(0.999);
          expect(near / nearPeakS).toBeLessThan(1.02);
        },
      ),
    );
  });

  it('heats four times as fast as it begins to cool: 51 K/s and τ = 29.8 s for 2 s at 400 °C', () => {
    const { timeS, tempC } = weldCycle({ peakC: 400, nearPeakS: 2 });
    expect(380 / timeS[1]!).toBeCloseTo(51.1, 1);
    expect((4 * (tempC[1]! - tempC[2]!)) / (timeS[2]! - timeS[1]!) / (380 / timeS[1]!)).toBeCloseTo(1, 1);
    const last = timeS.length - 1;
    expect((timeS[last]! - timeS[1]!) / Math.log(380 / 80)).toBeCloseTo(29.75, 2);
  });
});

describe('practicesFor', () => {
  it('takes the ageing of the tempers from the card, those of one temperature as one mark', () => {
    const { points, limits } = practicesFor('A356.0');
    const t7 = points.find(({ label }) => label.includes('T7,') || label.endsWith('T7'))!;
    // ASM practice: T51 and T7 7 to 9 h at 440 °F.
    expect(t7.label).toContain('T51');
    expect(t7.tempC).toBe(227);
    expect(t7.timeS).toEqual([7 * 3600, 9 * 3600]);
    expect(limits.some(({ limitC }) => Math.abs(limitC - 226.67) < 0.1)).toBe(true);
  });

  it('knows the reheat limits of 6061 only for 6061', () => {
    expect(practicesFor('6061').lines[0]!.points.map(({ timeS }) => timeS)).toEqual([5400, 1800, 900, 300]);
    expect(practicesFor('6082').lines).toEqual([]);
  });
});
