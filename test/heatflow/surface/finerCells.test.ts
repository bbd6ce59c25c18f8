import { describe, expect, it } from 'vitest';
import { coarserPlan, type PlatePlan } from '../../../lib/heatflow';
import { BentSurface, valuesAt } from '../../../lib/heatflow/surface/bentSurface';
import { surfaceTerms } from '../../../lib/heatflow/surface/surfaceTerms';
import { evenSpread } from '../../../lib/statistics';
import { edgeWeld } from '../../planning/plans/edgeWeld';

/** What coarse cells would see, in two directions: nothing that a parabola cannot tell. */
const onCoarse = ([a, b]: Float64Array): number => 5 + 0.4 * a! - 0.1 * b! + 0.05 * a! * b! - 0.03 * a! ** 2;
const MIDDLE = Float64Array.of(0, 0);
const ENDS = [
  [-2, 0],
  [2, 0],
  [0, -2],
  [0, 2],
].map((x) => Float64Array.from(x));
const spread = Array.from({ length: 12 }, (_, i) =>
  Float64Array.of(4 * evenSpread(i, 0) - 2, 4 * evenSpread(i, 1) - 2),
);
const at = [MIDDLE, ...ENDS, ...spread];
const terms = surfaceTerms([true, true], []);

/** The surface at points it has not seen, where finer cells change so much and runs scatter so. */
function told(change: (x: Float64Array) => number, scatter: (run: number) => number) {
  const surface = new BentSurface(
    at.map((x) => ({ x, bends: [] })),
    [MIDDLE, ...ENDS].map((x) => ({ x })),
    terms,
  );
  const fit = surface.fit(
    at.map((x) => Float64Array.of(onCoarse(x))),
    [MIDDLE, ...ENDS].map((x, run) => Float64Array.of(onCoarse(x) + change(x) + scatter(run))),
    () => 0,
  );
  return (x: Float64Array) => valuesAt(fit, surface.termsAt(x, []))[0]!;
}
const unseen = [Float64Array.of(1.3, -0.7), Float64Array.of(-1.1, 1.9)];

describe('a surface through coarse runs, moved by a few on finer cells', () => {
  it('tells what the finer cells would see: a change that goes with the first direction', () => {
    const change = ([a]: Float64Array) => -0.02 + 0.004 * a!;
    const moved = told(change, () => 0);
    for (const x of unseen) expect(moved(x)).toBeCloseTo(onCoarse(x) + change(x), 9);
  });

  it('is not thrown by the scatter of one run, the one in the middle least of all', () => {
    const moved = told(
      () => -0.02,
      (run) => (run === 0 ? 0.005 : 0),
    );
    // Five runs share it: a fifth of it stays, wherever one asks.
    for (const x of unseen) expect(moved(x)).toBeCloseTo(onCoarse(x) - 0.02 + 0.001, 9);
  });

  it('stays as it is where the runs are on the finest cells already', () => {
    const surface = new BentSurface(
      at.map((x) => ({ x, bends: [] })),
      [{ x: MIDDLE }],
      terms,
    );
    const seen = at.map((x) => Float64Array.of(onCoarse(x)));
    const fit = surface.fit(seen, seen.slice(0, 1), () => 0);
    for (const x of unseen) expect(valuesAt(fit, surface.termsAt(x, []))[0]).toBeCloseTo(onCoarse(x), 9);
  });
});

describe('coarserPlan', () => {
  const plan = edgeWeld('A356.0', { cellMm: 2.5, probes: [{ name: 'far', xMm: 40, yMm: 20 }] });

  it('has cells twice as large where the arc covers them and the part stays whole', () => {
    expect(coarserPlan(plan)).toEqual({ ...plan, cellMm: 5 });
  });

  it('leaves a plan as it is whose arc is smaller than such a cell, or whose part would lose a strip', () => {
    const small = { ...plan, passes: plan.passes.map((pass) => ({ ...pass, sourceRadiusMm: 4.9 })) };
    expect(coarserPlan(small)).toBe(small);
    const thin: PlatePlan = {
      ...plan,
      part: [...plan.part, { shape: { rectMm: [80, 0, 82, 60] }, thicknessMm: 3, metal: '6061' }],
    };
    expect(coarserPlan(thin)).toBe(thin);
  });
});
