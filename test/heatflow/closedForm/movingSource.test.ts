import { describe, expect, it } from 'vitest';
import {
  fastThinRise,
  mediumPlateHistory,
  mediumPlatePeak,
  mediumPlateRise,
  thickPlateHistory,
  thickPlatePeak,
  thickPlateRise,
  thinPlateHistory,
  thinPlatePeak,
  thinPlateRise,
} from '../../../lib/heatflow';
import { TemperbookError } from '../../../lib/quantity';
import { fc } from '../../setup/fc';

const weld = {
  netPowerW: 1500,
  travelMmPerS: 5,
  thicknessMm: 4,
  conductivityWPerMK: 167,
  volumetricHeatJPerM3K: 2.4192e6,
};
const point = { alongMm: -20, acrossMm: 10 };

describe('moving sources', () => {
  it('agree where one turns into the other: medium into thin far away, into thick near the arc', () => {
    const far = { alongMm: -60, acrossMm: 40 };
    expect(mediumPlateRise({ ...weld, ...far, depthMm: 0 })).toBeCloseTo(
      thinPlateRise({ ...weld, ...far }),
      6,
    );
    const near = { ...weld, thicknessMm: 60, alongMm: -1, acrossMm: 3, depthMm: 0 };
    expect(mediumPlateRise(near) / thickPlateRise(near)).toBeCloseTo(1, 2);
  });

  it('a medium plate holds the same heat as a thin one: its mean through the thickness is the thin rise', () => {
    const slices = 200;
    let sum = 0;
    for (let i = 0; i < slices; i++)
      sum += mediumPlateRise({ ...weld, ...point, thicknessMm: 12, depthMm: ((i + 0.5) * 12) / slices });
    // The images sum to the line source exactly; the midpoint rule over 200 slices errs by about 1e-5.
    expect(sum / slices / thinPlateRise({ ...weld, ...point, thicknessMm: 12 })).toBeCloseTo(1, 4);
  });

  it('a medium plate at the slowest travel allowed is still summed in time, and is the thin one', () => {
    const slow = { ...weld, ...point, travelMmPerS: 0.01 };
    // Through the thickness they differ by exp(−π r/d), r = 22 mm in 4 mm: 2e-8. What the sum leaves out is at most
    // α/(v d) = 1700 times 1e-12 of it.
    expect(mediumPlateRise({ ...slow, depthMm: 0 }) / thinPlateRise(slow)).toBeCloseTo(1, 7);
  });

  it('surface loss lowers the rise, and far behind by as much as the fast form says', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -200, max: 50, noNaN: true }),
        fc.double({ min: 1, max: 60, noNaN: true }),
        (x, y) => {
          const at = { ...weld, alongMm: x, acrossMm: y };
          expect(thinPlateRise({ ...at, lossWPerM2K: 30 })).toBeLessThan(thinPlateRise(at));
        },
      ),
    );
    const behind = { ...weld, alongMm: -3000, acrossMm: 0 };
    const ratio = thinPlateRise({ ...behind, lossWPerM2K: 20 }) / thinPlateRise(behind);
    const fast = { ...weld, netHeatJPerMm: 300, timeS: 600, acrossMm: 0 };
    expect(ratio).toBeCloseTo(fastThinRise({ ...fast, lossWPerM2K: 20 }) / fastThinRise(fast), 2);
  });

  it('stays a number a kilometre away', () => {
    for (const alongMm of [-1e6, 1e6]) {
      expect(Number.isFinite(thinPlateRise({ ...weld, alongMm, acrossMm: 0 }))).toBe(true);
      expect(Number.isFinite(thickPlateRise({ ...weld, alongMm, acrossMm: 0, depthMm: 0 }))).toBe(true);
    }
  });

  it('gives histories whose highest sample is the peak of the pass, after the arc has gone by', () => {
    const timeS = Float64Array.from({ length: 4001 }, (_, i) => i * 0.02);
    const history = thinPlateHistory({ ...weld, acrossMm: 10, startC: 40, timeS, abreastS: 20 });
    const peak = thinPlatePeak({ ...weld, acrossMm: 10 });
    const hottest = history.tempC.indexOf(Math.max(...history.tempC));
    expect(history.tempC[hottest]).toBeCloseTo(40 + peak.riseK, 2);
    expect(history.timeS[hottest]).toBeCloseTo(20 - peak.alongMm / 5, 1);
    const place = { ...weld, acrossMm: 10, depthMm: 0, startC: 40, timeS: [0, 20, 24], abreastS: 20 };
    expect(thickPlateHistory(place).tempC[2]).toBe(40 + thickPlateRise({ ...place, alongMm: -20 }));
    expect(mediumPlateHistory(place).tempC[2]).toBe(40 + mediumPlateRise({ ...place, alongMm: -20 }));
  });

  it('have the same peak on either side of the weld, and no moment is hotter', () => {
    for (const peakAt of [thinPlatePeak, thickPlatePeak, mediumPlatePeak]) {
      const at = (acrossMm: number) => peakAt({ ...weld, acrossMm, depthMm: 0 });
      expect(at(-10)).toEqual(at(10));
    }
    const left = thinPlatePeak({ ...weld, acrossMm: -10 });
    for (const aside of [-1, 1])
      expect(thinPlateRise({ ...weld, acrossMm: -10, alongMm: left.alongMm + aside })).toBeLessThan(
        left.riseK,
      );
  });

  it.each([
    ['zero travel', { travelMmPerS: 0 }, /travel speed must be above zero.*plate solver/],
    ['a travel in m/s', { travelMmPerS: 0.005 }, /No weld travels that slowly.*0\.005 mm\/s.*Check the unit/],
    ['no power', { netPowerW: 0 }, /net arc power/],
    ['a point on the arc', { alongMm: 0, acrossMm: 0 }, /lies on the arc itself/],
    ['a conductivity in other units', { conductivityWPerMK: 0.167 }, /conductivityWPerMK.*Check the unit/],
    ['a volumetric heat in other units', { volumetricHeatJPerM3K: 0.0024192 }, /volumetricHeatJPerM3K/],
    ['a thickness of nothing', { thicknessMm: 0 }, /thicknessMm/],
    ['a negative loss', { lossWPerM2K: -1 }, /lossWPerM2K/],
    ['a place that is no number', { alongMm: Number.NaN }, /alongMm/],
  ])('say what is wrong with %s', (_, change, message) => {
    const run = () => thinPlateRise({ ...weld, ...point, ...change });
    expect(run).toThrow(TemperbookError);
    expect(run).toThrow(message);
  });

  it('refuse a depth outside the plate', () => {
    expect(() => mediumPlateRise({ ...weld, ...point, depthMm: 5 })).toThrow(/depthMm/);
    expect(() => thickPlateRise({ ...weld, ...point, depthMm: -1 })).toThrow(/depthMm/);
  });
});
