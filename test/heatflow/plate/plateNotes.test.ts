import { describe, expect, it } from 'vitest';
import { mediumPlateRise, type PlatePlan, solvePlate } from '../../../lib/heatflow';
import { meltingMetal, plainMetal, smallPlan, withPass } from './smallPlan';

const notesOf = (plan: PlatePlan) => solvePlate(plan).notes.join('\n');
const pass = smallPlan().passes[0]!;
const cold = { passes: [], probes: [], until: { coolForS: 0 } };

describe('metal lost between cells', () => {
  const strip = (widthMm: number, cellMm: number) =>
    smallPlan({
      ...cold,
      cellMm,
      part: [{ name: 'strip', shape: { rectMm: [0, 0, 100, widthMm] }, thicknessMm: 4, metal: plainMetal }],
    });

  it.each([
    // Rows of cells whose centre lies within the width, times the cell, over the width.
    [10, 4, 'hold 20 % less metal of strip than drawn: choose cells that divide'],
    [11, 2.5, 'hold 9 % less metal of strip'],
    [11, 4, 'hold 9 % more metal of strip'],
  ])('is told: %s mm on cells of %s mm', (widthMm, cellMm, note) => {
    expect(notesOf(strip(widthMm, cellMm))).toContain(note);
  });

  it.each([
    [12, 4],
    [10, 2.5],
    // 1.6 %: below what is noticed.
    [122, 4],
  ])('is not told where there is none to speak of: %s mm on cells of %s mm', (widthMm, cellMm) => {
    expect(notesOf(strip(widthMm, cellMm))).not.toContain('than drawn');
  });

  it('counts only what is in sight of a region, and holes as no metal', () => {
    const plate = smallPlan().part[0]!;
    const notes = (x: number, cutMm: number) =>
      notesOf(
        smallPlan({
          ...cold,
          part: [
            plate,
            { name: 'pad', shape: { rectMm: [x, 0, 60, 40] }, thicknessMm: 8, metal: plainMetal },
            { shape: { rectMm: [0, 0, cutMm, 40] }, thicknessMm: 0, metal: plainMetal },
          ],
        }),
      );
    expect(notes(30, 10)).not.toMatch(/than drawn/);
    // The pad's 27 mm gain a millimetre that the 21 mm left of the plate lose.
    expect(notes(33, 12)).toContain('5 % less metal of plate');
    expect(notes(33, 12)).toContain('4 % more metal of pad');
    // The hole takes 10 mm instead of 10.5 from the 30 mm in sight of the plate.
    expect(notes(30, 10.5)).toContain('3 % more metal of plate');
  });
});

describe('heat that no weld brings', () => {
  it('is told by the hottest metal', () => {
    expect(notesOf(withPass({ netPowerW: 1e5 }))).toMatch(
      /hottest metal reaches \d+ °C \(\d+ °F\), beyond the 1200 °C \(2192 °F\).*check amps, travel and thickness/,
    );
    // A metal whose properties are given further up is known further up.
    const steel = { ...meltingMetal, densityKgPerM3: 7800, solidusC: 1450, liquidusC: 1500 };
    const plan = withPass({ netPowerW: 3000 });
    const hot = solvePlate({ ...plan, part: [{ ...plan.part[0]!, metal: steel }] });
    expect(Math.max(...hot.peakC)).toBeGreaterThan(1250);
    expect(hot.notes.join()).not.toMatch(/hottest metal/);
  });

  it('is told by how much of the part melts', () => {
    const part = [{ ...smallPlan().part[0]!, metal: meltingMetal }];
    const run = (netPowerW: number) => solvePlate({ ...withPass({ netPowerW }), part });
    const [seam, most] = [run(1600), run(6000)];
    const share = (peakC: Float64Array) => peakC.filter((t) => t >= 560).length / peakC.length;
    expect(share(seam.peakC)).toBeGreaterThan(0.02);
    expect(seam.notes.join()).not.toMatch(/melts/);
    expect(most.notes.join('\n')).toMatch(
      new RegExp(`^${(100 * share(most.peakC)).toFixed(0)} % of the part melts: check amps`, 'm'),
    );
  });

  it('is refused where it is a slip of the unit', () => {
    const inMetres = smallPlan({ part: [{ ...smallPlan().part[0]!, thicknessMm: 0.004 }] });
    expect(() => solvePlate(inMetres)).toThrow(/thicknessMm of plate.*0\.004 mm.*Check the unit: mm/);
    const weld = { netPowerW: 1500, travelMmPerS: 5, conductivityWPerMK: 167, volumetricHeatJPerM3K: 2.4e6 };
    const place = { alongMm: -20, acrossMm: 10, depthMm: 0 };
    expect(() => mediumPlateRise({ ...weld, ...place, thicknessMm: 0.004 })).toThrow(/Check the unit: mm/);
    const clamp = { shape: smallPlan().part[0]!.shape, conductanceWPerM2K: 500, bodyC: 2001 };
    expect(() => solvePlate(smallPlan({ contacts: [clamp] }))).toThrow(/bodyC of contact 1.*2000/);
  });
});

describe('an interpass probe that does not tell how warm the part is', () => {
  const bar = (xMm: number): PlatePlan =>
    smallPlan({
      part: [{ ...smallPlan().part[0]!, shape: { rectMm: [0, 0, 300, 40] } }],
      passes: [
        { ...pass, netPowerW: 3000 },
        { ...pass, startAfter: { interpassC: 60, atProbe: 'watch' } },
      ],
      surface: { ...smallPlan().surface, convectionWPerM2K: 200 },
      probes: [{ name: 'watch', xMm, yMm: 20 }],
    });

  it('is told when the heat is still on its way to it', () => {
    const { passes, notes } = solvePlate(bar(299));
    expect(passes[1]!.startS - passes[0]!.endS).toBeLessThan(0.1);
    expect(notes.join()).toMatch(
      new RegExp(
        `arc of pass 2.*"watch" was within its limit of 60 °C.*at ${passes[1]!.bulkStartC.toFixed(0)} °C`,
      ),
    );
  });

  it('is not told of one beside the weld', () => {
    const { passes, notes } = solvePlate(bar(30));
    expect(passes[1]!.startS - passes[0]!.endS).toBeGreaterThan(30);
    expect(notes.join()).not.toMatch(/within its limit/);
  });
});
