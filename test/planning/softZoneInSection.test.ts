import { describe, expect, it } from 'vitest';
import { thinPlateHistory } from '../../lib/heatflow';
import { softZone } from '../../lib/planning';
import {
  profileOfPoints,
  type ResistanceOptions,
  sectionFactor,
  type WeldedSection,
  weldedResistance,
} from '../../lib/section';

const timeS = Float64Array.from({ length: 400 }, (_, i) => -10 + i * 0.5);
/** Heat flow of one pass in 4 mm plate, then the soft zone beside it. */
const zoneOf = (netPowerW: number, distancesMm: readonly number[]) =>
  softZone(
    distancesMm.map((distanceMm) => ({
      distanceMm,
      history: thinPlateHistory({
        netPowerW,
        travelMmPerS: 5,
        thicknessMm: 4,
        conductivityWPerMK: 167,
        volumetricHeatJPerM3K: 2.4192e6,
        acrossMm: distanceMm,
        startC: 20,
        timeS,
      }),
    })),
    { alloy: '6061', temper: 'T6', ambientC: 20 },
  );
const bar: WeldedSection = {
  shape: { kind: 'flat bar', widthMm: 160, thicknessMm: 4 },
  form: 'open profile',
  welds: [{ lies: 'along', atMm: [0, 0], joint: 'butt' }],
};
const code: ResistanceOptions = { alloy: '6061', temper: 'T6', process: 'TIG', code: 'EN 1999-1-1' };

describe('from heat flow over the soft zone to the section', () => {
  const zone = zoneOf(1500, [10, 12, 15, 20, 25, 30, 40, 60]);
  const profile = profileOfPoints(zone.points);
  const found = weldedResistance(bar, { ...code, code: 'soft-zone profile', profile });
  if (!found.supported) throw new Error(found.why);

  it('counts the low end of what is kept as welded, point by point', () => {
    expect(profile.map(({ keptFraction }) => keptFraction.low)).toEqual(
      zone.points.map(({ kept }) => kept.asWelded.low),
    );
    const [check] = found.checks;
    // By hand: between two points the lower, nearer than the first the lowest; both sides of the weld.
    const low = profile.map(({ keptFraction }) => Math.min(1, keptFraction.low));
    const share = (k: number): number => (k === 0 ? Math.min(...low) : Math.min(low[k - 1]!, low[k]!));
    let areaMm2 = 2 * 4 * (80 - profile[profile.length - 1]!.distanceMm) * low[low.length - 1]!;
    for (const [k, { distanceMm }] of profile.entries())
      areaMm2 += 2 * 4 * (distanceMm - (profile[k - 1]?.distanceMm ?? 0)) * share(k);
    expect(check!.metal!.areaMm2).toBeCloseTo(areaMm2, 6);
  });

  it('is never above the code without saying so, whatever the heat', () => {
    for (const { points } of [zone, zoneOf(600, [10, 20])]) {
      const model = weldedResistance(bar, {
        ...code,
        code: 'soft-zone profile',
        profile: profileOfPoints(points),
      });
      const asked = weldedResistance(bar, code);
      if (!model.supported || !asked.supported) throw new Error('no answer');
      const words = model.because.join(' ');
      const soft = (r: typeof model): number => r.metal.strengths.find(({ on }) => on === 'yield')!.softMPa;
      if (soft(model) > soft(asked)) expect(words).toMatch(/ABOVE THE CODE: the model keeps/);
      // A narrower zone may be softer than the code's and still leave more metal.
      for (const load of [{ axialN: 10_000 }, { momentXNmm: 1e4 }, { momentYNmm: 1e5 }]) {
        const factor = (r: typeof model): number => sectionFactor(r, load, { on: 'yield' }).factor.nominal;
        if (factor(model) > factor(asked) * (1 + 1e-9)) expect(words).toMatch(/ABOVE THE CODE/);
      }
    }
  });

  it('rest and ageing count only when they are named, and a smaller list is no kinder', () => {
    expect(profileOfPoints(zone.points, 'reaged')).not.toEqual(profile);
    const fewer = weldedResistance(bar, {
      ...code,
      code: 'soft-zone profile',
      profile: profile.filter((_, k) => k % 2 === 0 || k === profile.length - 1),
    });
    if (!fewer.supported) throw new Error(fewer.why);
    expect(fewer.checks[0]!.metal!.areaMm2).toBeLessThanOrEqual(found.checks[0]!.metal!.areaMm2 + 1e-9);
  });
});
