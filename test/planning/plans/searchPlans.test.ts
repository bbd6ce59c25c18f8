import { describe, expect, it } from 'vitest';
import { type PlatePlan, planUnknowns } from '../../../lib/heatflow';
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
// In the short form the arc alone is not known: a comparison then takes a fifth of the runs.
const known = inFull
  ? options
  : { ...options, unknowns: (p: PlatePlan) => planUnknowns(p).filter(({ name }) => name === 'power') };
const chanceOf = (changed: PlatePlan) => {
  const { confidence, mostWaitS, ...same } = known;
  return comparePlans([changed], { ...same, softZone: false }).plans[0]!.chanceKept;
};
const starting = (startAfter: PlatePlan['passes'][number]['startAfter']) =>
  chanceOf({
    ...plan,
    passes: plan.passes.map((pass, k) => (k && startAfter ? { ...pass, startAfter } : pass)),
  });
const withPower = (factor: number) =>
  chanceOf({ ...plan, passes: plan.passes.map((pass) => ({ ...pass, netPowerW: 550 * factor })) });
/** So many values evenly from one to the other. */
const scan = (from: number, to: number, count: number) =>
  Array.from({ length: count }, (_, i) => from + (i / (count - 1)) * (to - from));

describe('smallestWait', () => {
  it('finds what a dense scan finds', () => {
    const { waitS, because } = smallestWait(plan, known);
    expect(waitS).not.toBeNull();
    expect(because).toMatch(/chance of \d+ %/);
    expect(starting({ waitS: waitS! })).toBeGreaterThanOrEqual(0.8);
    // It is told to a twentieth or ten seconds: every shorter wait of the scan will not do, every longer one does.
    for (const s of scan(0, 2 * waitS!, inFull ? 60 : 5)) {
      if (s < waitS! - Math.max(10, 0.05 * waitS!)) expect(starting({ waitS: s })).toBeLessThan(0.8);
      if (s > waitS!) expect(starting({ waitS: s })).toBeGreaterThanOrEqual(0.8);
    }
  });

  it('may not exist, and says what stands in the way', () => {
    const hot = { ...plan, passes: plan.passes.map((pass) => ({ ...pass, netPowerW: 1100 })) };
    const { waitS, because } = smallestWait(hot, {
      ...known,
      metals: [{ alloy: 'A356.0', temper: 'T6', keepFromMm: 15 }],
    });
    expect(waitS).toBeNull();
    expect(because).toMatch(/Even 30 min.*asked for: A356.0 keeps \d+ %/);
    expect(smallestWait({ ...plan, passes: plan.passes.slice(0, 1) }, known).because).toMatch(/one pass/);
  });

  it('refuses what it cannot be asked', () => {
    expect(() => smallestWait(plan, { ...options, confidence: 2 })).toThrow(/confidence/);
    expect(() => smallestWait(plan, { ...options, waits: 3 } as object)).toThrow(/does not know this option/);
    expect(() => highestInterpass(plan, 'nowhere', options)).toThrow(/no such probe.*"TC"/);
    expect(() => smallestWait(plan, { ...known, onTry: () => false })).toThrow(/stopped/);
  });
});

describe('highestInterpass and largestAmps', () => {
  it('find what a dense scan finds', () => {
    const { interpassC } = highestInterpass(plan, 'TC', known);
    for (const limitC of scan(30, 2 * interpassC! - 30, inFull ? 40 : 4)) {
      const chance = starting({ interpassC: limitC, atProbe: 'TC' });
      if (limitC <= interpassC!) expect(chance).toBeGreaterThanOrEqual(0.8);
      // Told to two kelvin.
      if (limitC > interpassC! + 2) expect(chance).toBeLessThan(0.8);
    }
    const { factor } = largestAmps(plan, known);
    for (const share of scan(0.6, 2 * factor! - 0.6, inFull ? 40 : 4)) {
      if (share <= factor!) expect(withPower(share)).toBeGreaterThanOrEqual(0.8);
      if (share > 1.02 * factor!) expect(withPower(share)).toBeLessThan(0.8);
    }
  });
});
