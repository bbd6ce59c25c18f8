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

describe.each([
  ['one layer', 5, 1],
  ['rows that are no multiple of four', 4, 1],
  ['fewer rows than four', 20, 1],
  ['three layers', 4, 3],
  ['four layers of few rows', 13, 4],
])('the linear solver on %s', (_, cellMm, layers) => {
  const plan = smallPlan({ cellMm, layers });
  const model = plateModel({ ...plan, part: [{ ...plan.part[0]!, thicknessMm: 12 }] }, [plainMetal]);
  const { first, end, length, plane } = model;
  const { columns } = model.grid;
  const random = seededRandom(11);
  const some = (face: Float64Array) => face.map((g) => (g > 0 ? random.uniform() : 0));
  const right = some(model.faceRight);
  const up = some(model.faceUp);
  const deep = some(model.faceDeep);
  const inGrid = (value: () => number) =>
    Float64Array.from({ length }, (_, i) => (i >= first && i < end ? value() : 0));
  const capacity = inGrid(() => 0.01 + random.uniform());
  const truth = inGrid(() => random.uniform());
  const steps = [
    [right, 1],
    [up, columns],
    ...(layers > 1 ? ([[deep, plane]] as const) : []),
  ] as readonly (readonly [Float64Array, number])[];
  const own = capacity.map((c, i) =>
    steps.reduce((sum, [face, step]) => sum + face[i]! + (face[i - step] ?? 0), c),
  );
  /** The matrix by its definition. */
  const times = (x: Float64Array) =>
    own.map((d, i) =>
      i < first || i >= end
        ? 0
        : steps.reduce(
            (sum, [face, step]) => sum - face[i]! * x[i + step]! - face[i - step]! * x[i - step]!,
            d * x[i]!,
          ),
    );
  const memory = new CellMemory(model);
  const fields = {
    own: memory.field(own),
    right: memory.field(right),
    up: memory.field(up),
    ...(layers > 1 ? { deep: memory.field(deep) } : {}),
  };
  const solver = new ConjugateGradient(memory);
  solver.factor(fields);

  it('finds what was multiplied, and leaves the residual it says', () => {
    const r = times(truth);
    const [fr, fx, fc] = [memory.field(r), memory.field(), memory.field(capacity)];
    solver.solve(fields, fc, 1e-10, fr, fx);
    expect(solver.iterations).toBeLessThan(40);
    const left = times(fx.values.slice());
    for (let i = first; i < end; i++) {
      expect(fx.values[i]).toBeCloseTo(truth[i]!, 8);
      expect(fr.values[i]).toBeCloseTo(r[i]! - left[i]!, 9);
      expect(Math.abs(fr.values[i]!)).toBeLessThanOrEqual(1e-10 * capacity[i]!);
    }
  });

  it('preconditions alike whichever of two vectors comes first, touches nothing outside, and works in place', () => {
    const [a, b] = [inGrid(() => random.uniform() - 0.5), inGrid(() => random.uniform() - 0.5)];
    const [fa, fb, za, zb] = [memory.field(a), memory.field(b), memory.field(), memory.field()];
    solver.precondition(fa, za);
    solver.precondition(fb, zb);
    const [ab, ba] = [memory.kernels.dot(fa.at, zb.at), memory.kernels.dot(fb.at, za.at)];
    // Single precision: 2⁻²⁴ of the sizes that are added up.
    const size = Math.sqrt(memory.kernels.dot(fa.at, za.at) * memory.kernels.dot(fb.at, zb.at));
    expect(Math.abs(ab - ba)).toBeLessThan(1e-5 * size);
    for (let i = 0; i < length; i++) if (i < first || i >= end) expect(za.values[i]).toBe(0);
    const expected = za.values.slice();
    solver.precondition(fa, fa);
    expect(fa.values).toEqual(expected);
  });
});
