import { describe, expect, it } from 'vitest';
import { isothermal } from '../../../lib/history';
import { precipitateModel } from '../../../lib/kinetics';
import {
  addSmallest,
  classBuffer,
  sizeClasses,
  tidyClasses,
} from '../../../lib/kinetics/precipitate/sizeClasses';

const sum = (values: Float64Array) => values.reduce((a, b) => a + b, 0);

describe('size classes', () => {
  it('find room for any number of classes, and lose no particle', () => {
    const many = classBuffer();
    many.edgeLn[0] = 0;
    for (let k = 1; k <= 3000; k++) addSmallest(many, -k * 1e-3, k);
    expect(many.count).toBe(3000);
    const fine = classBuffer();
    tidyClasses(many, 2e-4, fine);
    expect(fine.count).toBeGreaterThan(10_000);
    const { edgeM, perM3 } = sizeClasses(fine);
    // 15,000 sums and halvings of numbers near their mean: rounding of about 15,000 × 1e-16.
    expect(sum(perM3) / ((3000 * 3001) / 2)).toBeCloseTo(1, 11);
    expect(edgeM.every((edge, i) => i === 0 || edge > edgeM[i - 1]!)).toBe(true);
  });

  it('at the finest width give the strength of a width five times as coarse', () => {
    const yieldAt = (classWidth: number) => {
      const model = precipitateModel(
        { matrixWtPct: { Mg: 0.65, Si: 0.9, Cu: 0 } },
        { resolution: { classWidth } },
      );
      return model.advance(model.start({ solutionTreated: true }), isothermal(185, 1800)).yieldMPa.at(-1)!;
    };
    // The error of a class width falls with its square; the coarser of the two is well below 0.1 MPa.
    expect(Math.abs(yieldAt(1e-3) - yieldAt(5e-3))).toBeLessThan(0.1);
  });
});
