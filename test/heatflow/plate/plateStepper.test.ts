import { describe, expect, it } from 'vitest';
import { PlateStepper } from '../../../lib/heatflow/plate/march/plateStepper';
import { plateModel } from '../../../lib/heatflow/plate/model/plateModel';
import { plainMetal, smallPlan } from './smallPlan';

/** A bar of 40 cells with a cosine along it: the central difference lets it decay at a known rate. */
const cells = 40;
const mode = (i: number) => Math.cos((Math.PI * (i + 0.5)) / cells);
const plan = smallPlan({
  cellMm: 1,
  part: [{ shape: { rectMm: [0, 0, cells, 1] }, thicknessMm: 4, metal: plainMetal }],
  surface: { convectionWPerM2K: 0, emissivity: 0, ambientC: 20 },
  preheat: Array.from({ length: cells }, (_, i) => ({
    shape: { rectMm: [i, 0, i + 1, 1] },
    tempC: 200 + 100 * mode(i),
  })),
});
const model = plateModel(plan, [plainMetal]);
const rate = 4 * (0.17 / 2.7e-3) * Math.sin(Math.PI / 2 / cells) ** 2;

/** Error after the time in equal steps, K, and the error the steps estimated. */
function run(steps: number, endS: number): { error: number; estimated: number } {
  const stepper = new PlateStepper(model, plan.surface, 1e-9);
  let estimated = 0;
  for (let i = 0; i < steps; i++) {
    estimated += stepper.tryStep(endS / steps, undefined);
    stepper.accept();
  }
  const amplitude = stepper.nowC.values[model.first]! - 200;
  return { error: Math.abs(amplitude - 100 * mode(0) * Math.exp(-rate * endS)), estimated };
}

describe('one step of the plate', () => {
  it('is of second order in its length', () => {
    const errors = [8, 16, 32, 64].map((steps) => run(steps, 2).error);
    for (let i = 1; i < errors.length; i++)
      expect(Math.log2(errors[i - 1]! / errors[i]!)).toBeCloseTo(2, 0.5);
  });

  it('estimates its error: of third order a step, and near the true one', () => {
    const [coarse, fine] = [16, 32].map((steps) => run(steps, 2)) as [
      ReturnType<typeof run>,
      ReturnType<typeof run>,
    ];
    expect(Math.log2(coarse.estimated / fine.estimated)).toBeCloseTo(2, 0.5);
    // The estimates of all steps add up to the error there would be if nothing decayed meanwhile: here by exp(−0.8).
    expect(fine.estimated / fine.error).toBeGreaterThan(1);
    expect(fine.estimated / fine.error).toBeLessThan(4);
  });

  it('damps what is much faster than the step instead of swinging', () => {
    const { error } = run(1, 2000);
    expect(error).toBeLessThan(1);
  });

  it('changes nothing when nothing drives it', () => {
    const still = smallPlan({ surface: { ...plan.surface }, passes: [] });
    const stepper = new PlateStepper(plateModel(still, [plainMetal]), still.surface, 1);
    expect(stepper.tryStep(100, undefined)).toBeLessThan(1e-9);
    stepper.accept();
    for (const [i, tempC] of stepper.nowC.values.entries())
      if (stepper.heat.values[i]! > 0) expect(tempC).toBeCloseTo(20, 9);
  });
});
