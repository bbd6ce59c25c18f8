import { describe, expect, it } from 'vitest';
import { alongTraverse, hottestMetal, type PlatePlan, solvePlate, traverse } from '../../lib/heatflow';
import { TemperbookError } from '../../lib/quantity';

const metal = { densityKgPerM3: 2700, conductivityWPerMK: 167, specificHeatJPerKgK: 896 };
const line = traverse({ name: 'side', fromMm: [30, 30], towardMm: [30, 60], distancesMm: [6, 12, 24] });
const plan: PlatePlan = {
  cellMm: 3,
  part: [{ shape: { rectMm: [0, 0, 60, 60] }, thicknessMm: 4, metal }],
  surface: { convectionWPerM2K: 10, emissivity: 0.2, ambientC: 20 },
  initialC: 20,
  passes: [
    {
      path: [
        [6, 30],
        [54, 30],
      ],
      travelMmPerS: 6,
      netPowerW: 600,
      sourceRadiusMm: 6,
    },
  ],
  probes: line,
  until: { coolForS: 10 },
};
const result = solvePlate(plan);
const toEdges = { ...plan.passes[0]!, netPowerW: 300 };
const edgePlan: PlatePlan = {
  ...plan,
  passes: [
    {
      ...toEdges,
      path: [
        [30, 30],
        [60, 30],
      ],
    },
    {
      ...toEdges,
      path: [
        [30, 30],
        [30, 60],
      ],
    },
  ],
};

describe('traverse', () => {
  it('goes away from the weld at a right angle or any other', () => {
    expect(line.map(({ name, xMm, yMm }) => [name, xMm, yMm])).toEqual([
      ['side 6 mm', 30, 36],
      ['side 12 mm', 30, 42],
      ['side 24 mm', 30, 54],
    ]);
    const [slant] = traverse({ name: 's', fromMm: [10, 10], towardMm: [13, 14], distancesMm: [10] });
    expect([slant!.xMm, slant!.yMm]).toEqual([16, 18]);
  });

  it('is read in its own order: hotter and more uneven near the weld', () => {
    const [near, middle, far] = alongTraverse(result, line);
    expect([near!.distanceMm, middle!.distanceMm, far!.distanceMm]).toEqual([6, 12, 24]);
    expect(near!.peakC).toBeGreaterThan(middle!.peakC);
    expect(middle!.peakC).toBeGreaterThan(far!.peakC);
    expect(near!.faceExcessK).toBeGreaterThan(far!.faceExcessK);
    expect(Math.max(...near!.history.tempC)).toBe(near!.peakC);
  });

  it('reads a place on an edge of the part from the cell inside it', () => {
    const excessAt = (xMm: number, yMm: number) => {
      const place = { name: 'spot', distanceMm: 0, xMm, yMm };
      return alongTraverse(solvePlate({ ...edgePlan, probes: [place] }), [place])[0]!.faceExcessK;
    };
    // The arc runs to the middle of the right edge and of the upper one, so both faces are hotter there.
    for (const [edge, inside] of [
      [excessAt(60, 30), excessAt(58.5, 30)],
      [excessAt(30, 60), excessAt(30, 58.5)],
    ]) {
      expect(inside).toBeGreaterThan(1);
      expect(edge).toBe(inside);
    }
  });

  it('says what is wrong', () => {
    const give = (towardMm: [number, number], mm: number) => () =>
      traverse({ name: 'a', fromMm: [1, 1], towardMm, distancesMm: [mm] });
    expect(give([1, 1], 5)).toThrow(/no direction/);
    expect(give([1, 2], -5)).toThrow(TemperbookError);
    const other = traverse({ name: 'other', fromMm: [30, 30], towardMm: [30, 0], distancesMm: [5] });
    expect(() => alongTraverse(result, other)).toThrow(/does not know the place "other 5 mm"/);
  });
});

describe('hottestMetal', () => {
  it('lies under the arc in the whole part, and at the rim of an area beside it', () => {
    const whole = hottestMetal(result, { rectMm: [0, 0, 60, 60] });
    expect(whole.peakC).toBe(Math.max(...result.peakC));
    expect(Math.abs(whole.yMm - 30)).toBeLessThan(3);
    const beside = hottestMetal(result, { rectMm: [0, 42, 60, 60] });
    expect(beside.yMm).toBe(43.5);
    // The arc runs toward larger x: heat piles up at the end.
    expect(beside.xMm).toBeGreaterThan(30);
  });

  it('needs metal in the area', () => {
    expect(() => hottestMetal(result, { rectMm: [100, 100, 120, 120] })).toThrow(/No metal/);
  });
});
