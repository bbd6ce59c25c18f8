import { describe, expect, it } from 'vitest';
import {
  hottestMetal,
  type PlatePlan,
  planCost,
  planQuestions,
  planSchema,
  solvePlate,
} from '../../../lib/heatflow';
import { dataCheck } from '../../../lib/quantity';
import { plainMetal, smallPlan, withPass } from './smallPlan';

describe('numbers that hardly can be meant', () => {
  it.each<[string, PlatePlan, RegExp]>([
    [
      '240 mm/s',
      withPass({ travelMmPerS: 240 }),
      /pass 1 really travel at 240 mm\/s, 14400 mm\/min\? .*travelMmPerMin/,
    ],
    ['0.8 W', withPass({ netPowerW: 0.8 }), /bring only 0.8 W\? Kilowatts/],
    [
      'a plate of 0.1 mm',
      smallPlan({ part: [{ ...smallPlan().part[0]!, thicknessMm: 0.1 }] }),
      /plate really 0.1 mm thick\? Inches/,
    ],
    ['a crawl', withPass({ travelMmPerS: 0.01 }), /0.01 mm\/s/],
  ])('%s is asked about', (_, plan, question) => {
    expect(planQuestions(plan).join(' ')).toMatch(question);
  });

  it('are not asked about in a usual plan, and are among the notes of a run', () => {
    expect(planQuestions(smallPlan())).toEqual([]);
    const odd = withPass({ netPowerW: 40 });
    expect(solvePlate(odd).notes).toEqual(expect.arrayContaining(planQuestions(odd)));
  });
});

describe('the cost of a run', () => {
  it('is told before it, as cells, layers and steps near those of the run', () => {
    const plan = smallPlan({ layers: 3 });
    const { cells, layers, steps } = planCost(plan);
    const run = solvePlate(plan);
    expect(layers).toBe(run.layers);
    expect(cells).toBe(run.grid.columns * run.grid.rows * 3);
    expect(steps / run.steps.count).toBeGreaterThan(1 / 4);
    expect(steps / run.steps.count).toBeLessThan(4);
  });

  it('above an hour is refused, and above what one says', () => {
    const huge = smallPlan({
      cellMm: 0.5,
      layers: 4,
      part: [{ shape: { rectMm: [0, 0, 900, 900] }, thicknessMm: 12, metal: plainMetal }],
      passes: Array.from({ length: 12 }, () => ({
        ...smallPlan().passes[0]!,
        path: [
          [10, 20],
          [890, 20],
        ] as const,
      })),
    });
    expect(() => solvePlate(huge)).toThrow(/would take about .*h.*cells in 4 layers.*at most.*longestRunS/);
    expect(() => solvePlate(smallPlan(), { longestRunS: 0.001 })).toThrow(/would take about/);
  });
});

describe('the schema of a plan', () => {
  it('takes a plan written as a person would, and says what is wrong with another', () => {
    const written = JSON.parse(`{
      "cellMm": 2,
      "part": [{ "shape": { "rectMm": [0, 0, 60, 40] }, "thicknessMm": 4, "metal": "6061" }],
      "surface": { "convectionWPerM2K": 10, "emissivity": 0.2, "ambientC": 20 },
      "initialC": 20,
      "passes": [{ "name": "root", "path": [[10, 20], [50, 20]], "amps": 120, "volts": 14, "process": "TIG AC",
        "travelMmPerMin": 180, "sourceRadiusMm": 4 }],
      "probes": [{ "name": "TC1", "xMm": 30, "yMm": 32 }],
      "until": { "coolForS": 5 }
    }`);
    const problems = dataCheck(planSchema, 'the plan');
    expect(problems(written)).toEqual([]);
    expect(solvePlate(written).energy.arcJ).toBeCloseTo((0.6 * 120 * 14 * 40) / 3, 6);
    const [slip] = problems({ ...written, passes: [{ ...written.passes[0], ampere: 120 }] });
    expect(slip).toMatchObject({ at: 'passes[0].ampere' });
  });
});

describe('the hottest metal', () => {
  it('carries the doubt of its place: a block behind a lip in one layer may be hotter than told', () => {
    const plan = (layers: number) =>
      smallPlan({
        layers,
        part: [
          { shape: { rectMm: [0, 0, 60, 40] }, thicknessMm: 3, metal: plainMetal },
          { shape: { rectMm: [0, 0, 60, 16] }, thicknessMm: 20, metal: plainMetal },
        ],
      });
    const block = { rectMm: [0, 0, 60, 12] } as const;
    const plain = hottestMetal(solvePlate(plan(1)), block);
    const layered = hottestMetal(solvePlate(plan(6)), block);
    expect(plain.doubtful).toBe(true);
    expect(plain.peakC + plain.mayHideK).toBeGreaterThan(layered.peakC);
    expect(layered.mayHideK).toBeLessThan(plain.mayHideK);
  });
});
