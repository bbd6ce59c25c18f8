import { describe, expect, it } from 'vitest';
import type { PlatePlan } from '../../../lib/heatflow';
import { comparePlans, highestInterpass, largestAmps, smallestWait } from '../../../lib/planning';
import { inFull } from '../../setup/extent';

const plan: PlatePlan = {
  cellMm: 5,
  part: [{ name: 'plate', shape: { rectMm: [0, 0, 50, 40] }, thicknessMm: 6, metal: 'A356.0' }],
  surface: { convectionWPerM2K: 15, emissivity: 0.3, ambientC: 20 },
  initialC: 20,
  passes: [0, 1].map(() => ({
    path: [
      [10, 35],
      [40, 35],
    ],
    travelMmPerS: 4,
    netPowerW: 550,
    sourceRadiusMm: 5,
  })),
  probes: [{ name: 'TC', xMm: 25, yMm: 8 }],
  until: { coolForS: 200 },
};
const options = { draws: 60, workers: 0, confidence: 0.8, mostWaitS: 1800 };
const chanceWith = (waitS: number) =>
  comparePlans(
    [{ ...plan, passes: plan.passes.map((pass, k) => (k ? { ...pass, startAfter: { waitS } } : pass)) }],
    {
      draws: 60,
      workers: 0,
      softZone: false,
    },
  ).plans[0]!.chanceKept;

describe('smallestWait', () => {
  it('finds what a dense scan finds', () => {
    const { waitS, because } = smallestWait(plan, options);
    expect(waitS).not.toBeNull();
    expect(because).toMatch(/chance of \d+ %/);
    expect(chanceWith(waitS!)).toBeGreaterThanOrEqual(0.8);
    // It is told to a twentieth or ten seconds: every shorter wait of the scan will not do, every longer one does.
    const scan = inFull ? Array.from({ length: 60 }, (_, i) => 10 * i) : [0.6 * waitS!, 1.5 * waitS!];
    for (const s of scan) {
      if (s < waitS! - Math.max(10, 0.05 * waitS!)) expect(chanceWith(s)).toBeLessThan(0.8);
      if (s > waitS!) expect(chanceWith(s)).toBeGreaterThanOrEqual(0.8);
    }
  });

  it('may not exist, and says what stands in the way', () => {
    const hot = { ...plan, passes: plan.passes.map((pass) => ({ ...pass, netPowerW: 1100 })) };
    const { waitS, because } = smallestWait(hot, {
      ...options,
      metals: [{ alloy: 'A356.0', temper: 'T6', keepFromMm: 15 }],
    });
    expect(waitS).toBeNull();
    expect(because).toMatch(/Even 30 min.*asked for: A356.0 keeps \d+ %/);
    expect(smallestWait({ ...plan, passes: plan.passes.slice(0, 1) }, options).because).toMatch(/one pass/);
  });

  it('refuses what it cannot be asked', () => {
    expect(() => smallestWait(plan, { ...options, confidence: 2 })).toThrow(/confidence/);
    expect(() => smallestWait(plan, { ...options, waits: 3 } as object)).toThrow(/does not know this option/);
    expect(() => highestInterpass(plan, 'nowhere', options)).toThrow(/no such probe.*"TC"/);
    expect(() => smallestWait(plan, { ...options, onTry: () => false })).toThrow(/stopped/);
  });
});

describe.runIf(inFull)('highestInterpass and largestAmps', () => {
  it('hold at what they tell, and no longer a little beyond', () => {
    const { interpassC } = highestInterpass(plan, 'TC', options);
    const waiting = (limitC: number) =>
      comparePlans(
        [
          {
            ...plan,
            passes: plan.passes.map((p, k) =>
              k ? { ...p, startAfter: { interpassC: limitC, atProbe: 'TC' } } : p,
            ),
          },
        ],
        { draws: 60, workers: 0, softZone: false },
      ).plans[0]!.chanceKept;
    expect(waiting(interpassC!)).toBeGreaterThanOrEqual(0.8);
    expect(waiting(interpassC! + 10)).toBeLessThan(0.8);
    const { factor } = largestAmps(plan, options);
    expect(factor).toBeGreaterThan(0.5);
    expect(factor).toBeLessThan(1.2);
  });
});
