import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PLATE_KERNELS_SOURCE } from '../../../lib/heatflow/plate/kernels/plateKernelsWasm';
import { CellMemory } from '../../../lib/heatflow/plate/march/cellMemory';
import { ConjugateGradient } from '../../../lib/heatflow/plate/march/conjugateGradient';
import { plateModel } from '../../../lib/heatflow/plate/model/plateModel';
import { seededRandom } from '../../../lib/statistics';
import { plainMetal, smallPlan } from './smallPlan';

const source = join(__dirname, '../../../lib/heatflow/plate/kernels/plateKernels.as');

describe('compiled kernels', () => {
  it('were made from the source beside them (else run kernels/compile.mjs)', () => {
    expect(createHash('sha256').update(readFileSync(source)).digest('hex')).toBe(PLATE_KERNELS_SOURCE);
  });

  const model = plateModel(smallPlan({ cellMm: 5 }), [plainMetal]);
  const { columns } = model.grid;
  const random = seededRandom(7);
  const numbers = () =>
    Float64Array.from({ length: model.length }, (_, i) =>
      i >= model.first && i < model.end ? random.uniform() : 0,
    );
  /** The matrix of a grid, by its definition. */
  const times = (own: Float64Array, right: Float64Array, up: Float64Array, x: Float64Array) =>
    own.map((d, i) =>
      i < model.first || i >= model.end
        ? 0
        : d * x[i]! -
          right[i]! * x[i + 1]! -
          right[i - 1]! * x[i - 1]! -
          up[i]! * x[i + columns]! -
          up[i - columns]! * x[i - columns]!,
    );
  /** Conductances with none across the outline, and a diagonal that outweighs them. */
  function matrix() {
    const right = model.faceRight.map((g) => (g > 0 ? random.uniform() : 0));
    const up = model.faceUp.map((g) => (g > 0 ? random.uniform() : 0));
    const capacity = numbers().map((x) => 0.01 + x);
    const own = capacity.map((c, i) => c + right[i]! + (right[i - 1] ?? 0) + up[i]! + (up[i - columns] ?? 0));
    return { own, right, up, capacity };
  }

  it('multiply, mix and dot as plain loops do', () => {
    const memory = new CellMemory(model);
    const { own, right, up } = matrix();
    const [x, y] = [numbers(), numbers()];
    const [fOwn, fRight, fUp, fx, fy, out] = [own, right, up, x, y, numbers()].map((v) => memory.field(v));
    const expected = times(own, right, up, x);
    const product = memory.kernels.multiply(fOwn!.at, fRight!.at, fUp!.at, fx!.at, out!.at);
    let dot = 0;
    for (let i = model.first; i < model.end; i++) {
      expect(out!.values[i]).toBeCloseTo(expected[i]!, 12);
      dot += x[i]! * expected[i]!;
    }
    expect(product).toBeCloseTo(dot, 9);
    expect(memory.kernels.dot(fx!.at, out!.at)).toBeCloseTo(dot, 9);
    memory.kernels.mix(2, fx!.at, -3, fy!.at, out!.at);
    for (let i = model.first; i < model.end; i++)
      expect(out!.values[i]).toBeCloseTo(2 * x[i]! - 3 * y[i]!, 12);
  });

  it('solve what was multiplied, and leave the residual they say', () => {
    const memory = new CellMemory(model);
    const { own, right, up, capacity } = matrix();
    const x = numbers();
    const r = times(own, right, up, x);
    const fields = { own: memory.field(own), right: memory.field(right), up: memory.field(up) };
    const [fr, fx, fc] = [memory.field(r), memory.field(), memory.field(capacity)];
    const solver = new ConjugateGradient(memory);
    solver.factor(fields);
    solver.solve(fields, fc, 1e-10, fr, fx);
    expect(solver.iterations).toBeLessThan(40);
    const left = times(own, right, up, fx.values.slice());
    for (let i = model.first; i < model.end; i++) {
      expect(fx.values[i]).toBeCloseTo(x[i]!, 9);
      expect(fr.values[i]).toBeCloseTo(r[i]! - left[i]!, 9);
      expect(Math.abs(fr.values[i]!)).toBeLessThanOrEqual(1e-10 * capacity[i]!);
    }
  });

  it('count time above a limit on straight lines', () => {
    const memory = new CellMemory(model);
    const at = model.first;
    const [from, to, seconds] = [memory.field(), memory.field(), memory.field()];
    from.values.set([90, 110, 90, 110], at);
    to.values.set([95, 120, 110, 80], at);
    memory.kernels.addAbove(seconds.at, 100, 6, from.at, to.at);
    expect([...seconds.values.slice(at, at + 4)]).toEqual([0, 6, 3, 2]);
  });
});
