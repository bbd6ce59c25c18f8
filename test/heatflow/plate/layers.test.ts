import { describe, expect, it } from 'vitest';
import { type PlatePlan, type PlateResult, solvePlate } from '../../../lib/heatflow';
import { layerDepthsMm } from '../../../lib/heatflow/plate/model/layers';
import { tempAt } from '../../../lib/history';
import { bothWays } from '../explicit/explicitJobs';
import kept from '../explicit/explicitRuns.json';
import { plainMetal, smallPlan } from './smallPlan';

const keptOf = (name: string): { peakC: number[]; endC: number[] } => (kept as never)[name];
const peaksOf = ({ probes }: PlateResult) => probes.map(({ peakC }) => peakC);
const endsOf = ({ probes }: PlateResult) => probes.map(({ history }) => history.tempC.at(-1)!);
const furthest = (a: readonly number[], b: readonly number[]) =>
  Math.max(...a.map((x, i) => Math.abs(x - b[i]!)));

// All sizes are whole multiples of 2 and of 5 mm, so that cells of both lose no metal.
describe.each(bothWays)('$name against the explicit solution in three dimensions', ({ name, plan }) => {
  const explicit = keptOf(name);
  const toleranceK = 0.3;

  it('is followed by as many layers as the kit lays itself, within the 5 % it calls no doubt', () => {
    const { probes, doubt, layers, energy } = solvePlate(plan, { toleranceK });
    for (const [k, { peakC, doubtful }] of probes.entries()) {
      expect(doubtful).toBe(false);
      expect(Math.abs(peakC - explicit.peakC[k]!)).toBeLessThan(0.05 * (explicit.peakC[k]! - 20));
    }
    expect(Math.max(...doubt.differenceK)).toBeGreaterThan(0);
    expect(layers).toBeLessThanOrEqual(4);
    expect(energy.imbalance).toBeLessThan(1e-9);
  });

  it('is met by many layers, within what cells and cubes do', () => {
    const many = (cellMm: number) => solvePlate({ ...plan, cellMm, layers: 8 }, { toleranceK });
    const [fine, coarse] = [many(2), many(5)];
    // Of second order in cells: (2/5)² of the coarse cells' error is left, so it is their difference over 5.25; cubes
    // of 1 mm add a quarter. Eight layers are known to 1 % of a rise where thickness steps (below). Half as much again
    // for higher terms, and a step's tolerance.
    const steps = name.startsWith('step') ? 0.01 * (Math.max(...explicit.peakC) - 20) : 0;
    const allowed = (a: readonly number[], b: readonly number[]) =>
      (1.5 * 1.25 * furthest(a, b)) / 5.25 + steps + toleranceK;
    expect(furthest(peaksOf(fine), explicit.peakC)).toBeLessThan(allowed(peaksOf(fine), peaksOf(coarse)));
    expect(furthest(endsOf(fine), explicit.endC)).toBeLessThan(allowed(endsOf(fine), endsOf(coarse)));
  });
});

describe('one layer', () => {
  it.each([
    ['step 25 to 3 mm', 0.4],
    ['step 12 to 3 mm', 0.19],
    ['step 8 to 3 mm', 0.09],
  ])(
    'reads low beside a %s, by at least %f of the rise, and its doubt covers that everywhere',
    (name, low) => {
      const { plan } = bothWays.find((job) => job.name === name)!;
      const explicit = keptOf(name);
      const { probes, doubt, grid } = solvePlate({ ...plan, layers: 1 });
      const missed = probes.map(({ peakC }, k) => explicit.peakC[k]! - peakC);
      expect(missed[0]! / (explicit.peakC[0]! - 20)).toBeGreaterThan(low);
      for (const [k, { xMm, yMm, doubtful }] of probes.entries()) {
        const place = Math.floor((yMm - grid.originMm[1]) / 2) * grid.columns + Math.floor(xMm / 2);
        expect(doubt.differenceK[place]).toBeGreaterThan(missed[k]!);
        if (missed[k]! > 0.05 * (explicit.peakC[k]! - 20)) expect(doubtful).toBe(true);
      }
    },
  );
});

describe('layers', () => {
  it('converge with the second order of their number', () => {
    const { plan } = bothWays.find(({ name }) => name === 'step 25 to 3 mm')!;
    const wall = (layers: number) =>
      solvePlate({ ...plan, cellMm: 5, layers }, { toleranceK: 0.05 }).probes[1]!.peakC;
    const [three, six, twelve, twentyFour] = [3, 6, 12, 24].map(wall) as [number, number, number, number];
    const order = Math.log2((six - twelve) / (twelve - twentyFour));
    expect(order).toBeGreaterThan(1.6);
    expect(order).toBeLessThan(2.4);
    // Second order: what eight layers are off by is under (12/8)² of what twelve are, a third of their difference.
    expect((2.25 * (twelve - twentyFour) * 4) / 3).toBeLessThan(0.01 * (twentyFour - 20));
    expect(three).toBeGreaterThan(six);
  });

  const thick = (more: Partial<PlatePlan>) =>
    solvePlate(
      smallPlan({
        part: [{ shape: { rectMm: [0, 0, 60, 40] }, thicknessMm: 12, metal: plainMetal }],
        probes: [
          { name: 'top', xMm: 30, yMm: 28 },
          { name: 'bottom', xMm: 30, yMm: 28, face: 'bottom' },
          { name: 'middle', xMm: 30, yMm: 28, depthMm: 6 },
        ],
        ...more,
      }),
      { toleranceK: 0.2 },
    );

  it('of one even metal are together the plate of one layer: their mean, weighted by thickness, is its temperature', () => {
    // No loss and constant properties: summed over the depth the equations of the layers are those of one layer, arc and all.
    const even = smallPlan({
      part: [{ shape: { rectMm: [0, 0, 60, 40] }, thicknessMm: 12, metal: plainMetal }],
      surface: { convectionWPerM2K: 0, emissivity: 0, ambientC: 20 },
    });
    const toleranceK = 0.1;
    const [x, y] = [31, 23];
    const flat = solvePlate(
      { ...even, layers: 1, probes: [{ name: 'plate', xMm: x, yMm: y }] },
      { toleranceK },
    ).probes[0]!.history;
    for (const layers of [2, 5]) {
      const cuts = layerDepthsMm({ ...even, layers }, even.part);
      expect(cuts).toHaveLength(layers + 1);
      const probes = cuts.slice(1).map((to, k) => ({
        name: `layer ${k + 1}`,
        xMm: x,
        yMm: y,
        depthMm: (cuts[k]! + to) / 2,
      }));
      const run = solvePlate({ ...even, layers, probes }, { toleranceK });
      const histories = run.probes.map(({ history }) => history);
      expect(Math.max(...peaksOf(run)) - Math.min(...peaksOf(run))).toBeGreaterThan(2);
      for (const t of [4, 8, 10, 14, 20, 28]) {
        const mean = histories.reduce(
          (sum, h, k) => sum + (tempAt(h, t) * (cuts[k + 1]! - cuts[k]!)) / 12,
          0,
        );
        // Each run may be off by the tolerance of its steps.
        expect(Math.abs(mean - tempAt(flat, t))).toBeLessThan(2 * toleranceK);
      }
    }
  });

  it('lie one where the part is thin, two to four where it is thick or stepped', () => {
    expect(solvePlate(smallPlan()).layers).toBe(1);
    expect(thick({}).layers).toBe(2);
    expect(thick({ passes: [] }).layers).toBe(1);
    expect(thick({ layers: 5 }).layers).toBe(5);
  });

  it('take the heat in on the face it is given on, the same upside down', () => {
    const [above, below] = (['top', 'bottom'] as const).map((face) =>
      thick({ passes: [{ ...smallPlan().passes[0]!, face }] }),
    ) as [PlateResult, PlateResult];
    const [top, bottom, middle] = peaksOf(above) as [number, number, number];
    expect(top).toBeGreaterThan(middle);
    expect(middle).toBeGreaterThan(bottom);
    // The linear solver may leave a tenth of the tolerance, differently in the two.
    expect(furthest(peaksOf(below), [bottom, top, middle])).toBeLessThan(0.1);
  });

  it('chill the face the chill is on', () => {
    const chilled = (face: 'top' | 'bottom') =>
      thick({
        layers: 4,
        passes: [],
        initialC: 300,
        contacts: [{ shape: { rectMm: [0, 0, 60, 40] }, conductanceWPerM2K: 20_000, bodyC: 20, face }],
        until: { coolForS: 1 },
      });
    const [above, below] = [endsOf(chilled('top')), endsOf(chilled('bottom'))];
    expect(above[0]!).toBeLessThan(above[1]! - 10);
    expect(furthest([below[1]!, below[0]!], above.slice(0, 2))).toBeLessThan(0.2);
  });

  it('do not pass heat between faces that do not meet in height', () => {
    const plan = smallPlan({
      part: [
        { name: 'low', shape: { rectMm: [0, 0, 30, 40] }, thicknessMm: 4, metal: plainMetal },
        { name: 'high', shape: { rectMm: [30, 0, 60, 40] }, thicknessMm: 4, topMm: 5, metal: plainMetal },
      ],
    });
    expect(() => solvePlate(plan)).toThrow(
      /2 pieces that do not touch.*low \| high.*topMm|in plan and in height/,
    );
  });
});
