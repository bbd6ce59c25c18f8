import { describe, expect, it } from 'vitest';
import { comparePlans, type PlatePlan } from '../../dist';

const plan: PlatePlan = {
  cellMm: 5,
  part: [{ shape: { rectMm: [0, 0, 60, 45] }, thicknessMm: 6, metal: 'A356.0' }],
  surface: { convectionWPerM2K: 15, emissivity: 0.3, ambientC: 20 },
  initialC: 20,
  passes: [
    {
      path: [
        [10, 40],
        [50, 40],
      ],
      travelMmPerS: 4,
      netPowerW: 600,
      sourceRadiusMm: 5,
    },
  ],
  probes: [],
  until: { coolForS: 100 },
};

describe('several threads', () => {
  it('give the answer of one', () => {
    const [alone, two] = [1, 2].map((workers) => comparePlans([plan], { draws: 40, workers }));
    expect(two).toEqual(alone);
  });

  it('hand on an error as it is, and stop when told', () => {
    const off = { ...plan, passes: [{ ...plan.passes[0]!, path: [[10, 40] as const, [90, 40] as const] }] };
    expect(() => comparePlans([off], { workers: 2 })).toThrow(/leaves the part/);
    let runs = 0;
    expect(() => comparePlans([plan], { workers: 2, draws: 40, onProgress: () => ++runs < 5 })).toThrow(
      /stopped/,
    );
  });
});
