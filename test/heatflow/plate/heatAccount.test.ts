import { describe, expect, it } from 'vitest';
import { type MetalProperties, type PlatePlan, type PlateResult, solvePlate } from '../../../lib/heatflow';
import { fc } from '../../setup/fc';
import { meltingMetal, plainMetal, smallPlan } from './smallPlan';

/** Heat in the metal from its temperatures, J per kg, by hand. */
function heatAt(metal: MetalProperties, tempC: number): number {
  const { latentHeatJPerKg = 0, solidusC = 0, liquidusC = 1 } = metal;
  const molten = Math.max(0, Math.min(1, (tempC - solidusC) / (liquidusC - solidusC)));
  return (metal.specificHeatJPerKgK as number) * tempC + latentHeatJPerKg * molten;
}

/** Stored heat summed from the final map, J; every region of the plans here has the same metal. */
function storedJ(
  plan: PlatePlan,
  result: PlateResult,
  thicknessAt: (xMm: number, yMm: number) => number,
): number {
  const { columns, cellMm, originMm, inPart } = result.grid;
  const metal = plan.part[0]!.metal as MetalProperties;
  const before = heatAt(metal, plan.initialC);
  let sum = 0;
  for (const [i, tempC] of result.finalC.entries()) {
    if (!inPart[i]) continue;
    const x = originMm[0] + ((i % columns) + 0.5) * cellMm;
    const y = originMm[1] + (Math.floor(i / columns) + 0.5) * cellMm;
    const kg = thicknessAt(x, y) * cellMm ** 2 * metal.densityKgPerM3 * 1e-9;
    sum += kg * (heatAt(metal, tempC) - before);
  }
  return sum;
}

describe('heat account', () => {
  const anyPlan = fc.record({
    metal: fc.constantFrom(plainMetal, meltingMetal),
    thin: fc.integer({ min: 2, max: 6 }),
    thick: fc.integer({ min: 2, max: 30 }),
    split: fc.integer({ min: 10, max: 50 }),
    power: fc.integer({ min: 100, max: 4000 }),
    speed: fc.double({ min: 1, max: 20, noNaN: true }),
    radius: fc.double({ min: 3, max: 8, noNaN: true }),
    film: fc.double({ min: 0, max: 100, noNaN: true }),
    emissivity: fc.double({ min: 0, max: 1, noNaN: true }),
    conductance: fc.constantFrom(0, 100, 5000, 100_000),
    bodyHeat: fc.constantFrom(undefined, 5, 500),
    bodyC: fc.integer({ min: -20, max: 300 }),
    initialC: fc.integer({ min: 0, max: 200 }),
    to: fc.tuple(fc.integer({ min: 15, max: 55 }), fc.integer({ min: 5, max: 35 })),
    waitS: fc.double({ min: 0, max: 60, noNaN: true }),
  });

  it('closes to 0.1 % on every plan, and agrees with the heat counted from the final temperatures', () => {
    fc.assert(
      fc.property(anyPlan, (p) => {
        const pass = {
          path: [[5, 5] as const, p.to],
          travelMmPerS: p.speed,
          netPowerW: p.power,
          sourceRadiusMm: p.radius,
        };
        const plan = smallPlan({
          part: [
            { shape: { rectMm: [0, 0, 60, 40] }, thicknessMm: p.thin, metal: p.metal },
            { shape: { rectMm: [0, 0, p.split, 40] }, thicknessMm: p.thick, metal: p.metal },
          ],
          surface: { convectionWPerM2K: p.film, emissivity: p.emissivity, ambientC: 20 },
          contacts: [
            {
              shape: { rectMm: [30, 0, 60, 12] },
              conductanceWPerM2K: p.conductance,
              bodyC: p.bodyC,
              ...(p.bodyHeat === undefined ? {} : { bodyHeatJPerK: p.bodyHeat }),
            },
          ],
          initialC: p.initialC,
          passes: [pass, { ...pass, startAfter: { waitS: p.waitS } }],
        });
        const result = solvePlate(plan);
        const { arcJ, lostToAirJ, lostToContactsJ, imbalance } = result.energy;
        expect(imbalance).toBeLessThan(1e-9);
        const lengthMm = Math.hypot(p.to[0] - 5, p.to[1] - 5);
        expect(arcJ / ((2 * p.power * lengthMm) / p.speed)).toBeCloseTo(1, 9);
        // Counted from outside: the metal's own law, at the end of a table bin of 1.6 K at most from it.
        const cellsSplit = (xMm: number) => (xMm < p.split ? p.thick : p.thin);
        const stored = storedJ(plan, result, cellsSplit);
        const turnover = arcJ + Math.abs(lostToAirJ) + Math.abs(lostToContactsJ);
        expect(Math.abs(arcJ - lostToAirJ - lostToContactsJ - stored) / turnover).toBeLessThan(1e-3);
      }),
      { numRuns: 15 },
    );
  });

  it('ends a melted insulated piece where its enthalpy says: a third molten', () => {
    const kg = 20 * 20 * 5 * 2700e-9;
    const endC = 580;
    const joule = kg * (heatAt(meltingMetal, endC) - heatAt(meltingMetal, 20));
    const { finalC, steps } = solvePlate(
      smallPlan({
        part: [{ shape: { rectMm: [0, 0, 20, 20] }, thicknessMm: 5, metal: meltingMetal }],
        surface: { convectionWPerM2K: 0, emissivity: 0, ambientC: 20 },
        passes: [
          {
            path: [
              [5, 5],
              [15, 15],
            ],
            travelMmPerS: 2,
            netPowerW: joule / (200 ** 0.5 / 2),
            sourceRadiusMm: 5,
          },
        ],
        probes: [],
        until: { coolForS: 600 },
      }),
    );
    expect(steps.count).toBeGreaterThan(20);
    // The linear solver may leave a tenth of the 1 K tolerance in a cell, but no heat; the law is tabulated in bins of
    // 1.6 K, straight between.
    for (const tempC of finalC) expect(Math.abs(tempC - endC)).toBeLessThan(0.1);
    expect(finalC.reduce((sum, tempC) => sum + tempC, 0) / finalC.length).toBeCloseTo(endC, 1.5);
  });

  it('gives the same answer to the same plan, also after a trip through JSON', () => {
    const plan = smallPlan();
    const again = JSON.parse(JSON.stringify(plan)) as PlatePlan;
    expect(solvePlate(again)).toEqual(solvePlate(plan));
  });
});
