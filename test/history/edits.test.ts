import { describe, expect, it } from 'vitest';
import {
  bridgeGaps,
  capAt,
  coverage,
  isothermal,
  join,
  resample,
  scheduleHistory,
  shiftTemperature,
  slice,
  tempAt,
  thermalHistory,
  withSamplesAt,
} from '../../lib/history';
import { TemperbookError } from '../../lib/quantity';
import { fc } from '../setup/fc';
import { anyHistory, area } from './histories';

const ramp = thermalHistory([0, 10, 20, 30], [20, 120, 120, 20]);
const gappy = thermalHistory([0, 10, 20, 30, 40], [20, 120, 220, 120, 20], [1]);

describe('join', () => {
  it('makes one sample where temperatures meet', () => {
    const { timeS, tempC } = join([ramp, isothermal(20, 5)]);
    expect([...timeS]).toEqual([0, 10, 20, 30, 35]);
    expect([...tempC]).toEqual([20, 120, 120, 20, 20]);
  });

  it('makes a step of a millisecond where they do not, and no gap', () => {
    const joined = join([isothermal(20, 5), isothermal(200, 5)]);
    expect([...joined.timeS].map((t) => Number(t.toFixed(6)))).toEqual([0, 5, 5.001, 10.001]);
    expect(joined.gapAfter).toBeUndefined();
  });

  it('marks a pause as a gap and carries the gaps of its parts along', () => {
    const joined = join([gappy, gappy], 100);
    expect([...joined.gapAfter!]).toEqual([1, 4, 6]);
    expect(joined.timeS[5]).toBe(140);
    expect(coverage(joined)).toEqual({ coveredS: 60, uncoveredS: 120 });
  });

  it('keeps covered time, uncovered time and area of its parts', () => {
    fc.assert(
      fc.property(anyHistory, anyHistory, (a, b) => {
        const joined = join([a, b], 7);
        const parts = [coverage(a), coverage(b)];
        expect(coverage(joined).coveredS).toBeCloseTo(parts[0]!.coveredS + parts[1]!.coveredS, 6);
        expect(coverage(joined).uncoveredS).toBeCloseTo(parts[0]!.uncoveredS + parts[1]!.uncoveredS + 7, 6);
        expect(area(joined)).toBeCloseTo(area(a) + area(b), 4);
      }),
    );
  });

  it('refuses nothing and a negative pause', () => {
    expect(() => join([])).toThrow(TemperbookError);
    expect(() => join([ramp, ramp], -1)).toThrow(TemperbookError);
  });
});

describe('slice', () => {
  it('cuts on the straight line and keeps the time axis', () => {
    const { timeS, tempC } = slice(ramp, 5, 25);
    expect([...timeS]).toEqual([5, 10, 20, 25]);
    expect([...tempC]).toEqual([70, 120, 120, 70]);
  });

  it('cuts between two samples, and at one instant', () => {
    expect([...slice(ramp, 12, 18).tempC]).toEqual([120, 120]);
    expect([...slice(ramp, 5, 5).tempC]).toEqual([70]);
    expect([...slice(ramp, 10, 10).timeS]).toEqual([10]);
  });

  it('invents nothing inside a gap', () => {
    const cut = slice(gappy, 15, 35);
    expect([...cut.timeS]).toEqual([20, 30, 35]);
    expect(cut.gapAfter).toBeUndefined();
    expect([...slice(gappy, 5, 35).gapAfter!]).toEqual([1]);
    expect(() => slice(gappy, 12, 18)).toThrow(/Nothing was recorded/);
    expect(() => slice(gappy, 50, 60)).toThrow(TemperbookError);
    expect(() => slice(gappy, 30, 10)).toThrow(TemperbookError);
  });

  it('two halves hold the area of the whole', () => {
    fc.assert(
      fc.property(anyHistory, fc.double({ min: 0, max: 1, noNaN: true }), (history, share) => {
        const { timeS } = history;
        const start = timeS[0]!;
        const end = timeS[timeS.length - 1]!;
        const cut = Math.min(start + share * (end - start), end);
        const inGap = [...(history.gapAfter ?? [])].some((i) => timeS[i]! < cut && cut < timeS[i + 1]!);
        fc.pre(!inGap);
        expect(area(slice(history, start, cut)) + area(slice(history, cut, end))).toBeCloseTo(
          area(history),
          4,
        );
      }),
    );
  });
});

describe('resample', () => {
  it('reads as a slower logger would, and loses the peak', () => {
    const triangle = thermalHistory([0, 15, 30], [20, 400, 20]);
    const slow = resample(triangle, 10);
    expect([...slow.timeS]).toEqual([0, 10, 20, 30]);
    expect(Math.max(...slow.tempC)).toBeCloseTo(20 + (380 * 10) / 15, 9);
  });

  it('puts no reading inside a gap and keeps it marked', () => {
    const slow = resample(gappy, 4);
    expect([...slow.timeS]).toEqual([0, 4, 8, 20, 24, 28, 32, 36, 40]);
    expect([...slow.gapAfter!]).toEqual([2]);
  });

  it('reads the history itself at every instant', () => {
    fc.assert(
      fc.property(anyHistory, fc.double({ min: 0.5, max: 50, noNaN: true }), (history, intervalS) => {
        const slow = resample(history, intervalS);
        slow.timeS.forEach((t, i) => {
          expect(slow.tempC[i]).toBeCloseTo(tempAt(history, t), 6);
        });
        expect(slow.timeS[0]).toBe(history.timeS[0]);
        expect(slow.timeS[slow.timeS.length - 1]).toBe(history.timeS[history.timeS.length - 1]);
        expect(slow.gapAfter?.length ?? 0).toBeLessThanOrEqual(history.gapAfter?.length ?? 0);
      }),
    );
  });
});

describe('capAt', () => {
  it('cuts exactly at the limit', () => {
    const { timeS, tempC } = capAt(ramp, 70);
    expect([...timeS]).toEqual([0, 5, 10, 20, 25, 30]);
    expect([...tempC]).toEqual([20, 70, 70, 70, 70, 20]);
  });

  it('takes away nothing but what is above, and keeps gaps', () => {
    fc.assert(
      fc.property(anyHistory, fc.double({ min: 0, max: 600, noNaN: true }), (history, limitC) => {
        const capped = capAt(history, limitC);
        expect(coverage(capped)).toEqual(coverage(history));
        capped.timeS.forEach((t, i) => {
          expect(capped.tempC[i]).toBeCloseTo(Math.min(limitC, tempAt(history, t)), 6);
        });
        // min(T, limit) + max(T, limit) = T + limit, the maximum taken by capping the mirror image 1000 − T.
        const mirrored = capAt(
          shiftTemperature(history, (t) => 1000 - 2 * t),
          1000 - limitC,
        );
        const coveredS = coverage(history).coveredS;
        const areaOfMax = 1000 * coveredS - area(mirrored);
        expect(area(capped) + areaOfMax).toBeCloseTo(area(history) + limitC * coveredS, 3);
      }),
    );
  });
});

describe('shiftTemperature', () => {
  it('shifts by a number or by what a function of the reading says', () => {
    expect([...shiftTemperature(gappy, 25).tempC]).toEqual([45, 145, 245, 145, 45]);
    expect([...shiftTemperature(gappy, (t) => (t - 20) / 100).tempC]).toEqual([20, 121, 222, 121, 20]);
    expect([...shiftTemperature(gappy, 25).gapAfter!]).toEqual([1]);
  });

  it('lets no NaN out', () => {
    expect(() => shiftTemperature(ramp, () => Number.NaN)).toThrow(TemperbookError);
    expect(() => shiftTemperature(ramp, -400)).toThrow(TemperbookError);
  });
});

describe('bridgeGaps', () => {
  it('holds the hotter end', () => {
    const rising = bridgeGaps(gappy, 'hold-higher');
    expect([...rising.timeS]).toEqual([0, 10, 10.001, 20, 30, 40]);
    expect(tempAt(rising, 15)).toBe(220);
    const falling = bridgeGaps(thermalHistory([0, 10, 20], [100, 300, 100], [1]), 'hold-higher');
    expect(tempAt(falling, 19.9)).toBe(300);
    expect(falling.gapAfter).toBeUndefined();
  });

  it('draws the line', () => {
    const bridged = bridgeGaps(gappy, 'linear');
    expect(tempAt(bridged, 15)).toBe(170);
    expect(coverage(bridged)).toEqual({ coveredS: 40, uncoveredS: 0 });
  });

  it('covers the whole span and never lowers the area below the straight line', () => {
    fc.assert(
      fc.property(anyHistory, (history) => {
        const held = bridgeGaps(history, 'hold-higher');
        expect(coverage(held).uncoveredS).toBe(0);
        const line = area(bridgeGaps(history, 'linear'));
        expect(area(held)).toBeGreaterThanOrEqual(line - 1e-6 * Math.abs(line) - 1e-6);
      }),
    );
  });
});

describe('scheduleHistory', () => {
  it('ramps at the rate, holds, and steps where no rate is given', () => {
    const { timeS, tempC } = scheduleHistory([
      { tempC: 300, holdS: 30, rateKPerS: 5 },
      { tempC: 20, holdS: 0, rateKPerS: 1 },
      { tempC: 155, holdS: 60 },
    ]);
    expect([...timeS]).toEqual([0, 56, 86, 366, 366.001, 426.001]);
    expect([...tempC]).toEqual([20, 300, 300, 20, 155, 155]);
  });

  it('refuses what no furnace can do', () => {
    expect(() => scheduleHistory([])).toThrow(TemperbookError);
    expect(() => scheduleHistory([{ tempC: 300, holdS: -1 }])).toThrow(/Hold of step 1/);
    expect(() => scheduleHistory([{ tempC: 300, holdS: 1, rateKPerS: 0 }])).toThrow(/Rate of step 1/);
    expect(() => scheduleHistory([{ tempC: Number.NaN, holdS: 1 }])).toThrow(/Temperature of step 1/);
  });
});

describe('withSamplesAt', () => {
  it('puts samples on the lines, and none outside, twice or into a gap', () => {
    const more = withSamplesAt(gappy, [-1, 5, 10, 15, 25, 25, 50]);
    expect([...more.timeS]).toEqual([0, 5, 10, 20, 25, 30, 40]);
    expect([...more.tempC]).toEqual([20, 70, 120, 220, 170, 120, 20]);
    expect([...more.gapAfter!]).toEqual([2]);
  });

  it('says the same of any history', () => {
    fc.assert(
      fc.property(anyHistory, fc.array(fc.double({ min: -10, max: 5000, noNaN: true })), (history, times) => {
        const more = withSamplesAt(
          history,
          times.sort((a, b) => a - b),
        );
        expect(coverage(more).coveredS).toBeCloseTo(coverage(history).coveredS, 6);
        for (const t of more.timeS) expect(tempAt(more, t)).toBeCloseTo(tempAt(history, t), 9);
      }),
    );
  });
});
