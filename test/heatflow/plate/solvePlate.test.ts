import { describe, expect, it, vi } from 'vitest';
import { timeAbove } from '../../../lib/exposure';
import {
  checkPlan,
  type PlatePlan,
  type PlateProgress,
  plateErrorSentence,
  solvePlate,
} from '../../../lib/heatflow';
import { tempAt } from '../../../lib/history';
import { fc } from '../../setup/fc';
import { meltingMetal, plainMetal, smallPlan, withPass } from './smallPlan';

const insulated = { convectionWPerM2K: 0, emissivity: 0, ambientC: 20 };
const pass = smallPlan().passes[0]!;

describe('temperatures', () => {
  it('stay between the coldest and the hottest of start, air and contacts while no arc burns', () => {
    const tempC = fc.integer({ min: 0, max: 400 });
    fc.assert(
      fc.property(
        fc.array(
          fc.record({ x: fc.integer({ min: 0, max: 55 }), y: fc.integer({ min: 0, max: 35 }), tempC }),
          {
            maxLength: 5,
          },
        ),
        fc.record({ initialC: tempC, ambientC: tempC, bodyC: tempC, film: fc.integer({ min: 0, max: 500 }) }),
        (areas, { initialC, ambientC, bodyC, film }) => {
          const { peakC, finalC, steps } = solvePlate(
            smallPlan({
              initialC,
              preheat: areas.map(({ x, y, tempC: hot }) => ({
                shape: { rectMm: [x, y, x + 9, y + 9] },
                tempC: hot,
              })),
              surface: { convectionWPerM2K: film, emissivity: 0.5, ambientC },
              contacts: [{ shape: { rectMm: [0, 0, 20, 20] }, conductanceWPerM2K: 5000, bodyC }],
              passes: [],
            }),
          );
          const all = [initialC, ambientC, bodyC, ...areas.map((area) => area.tempC)];
          // A second-order step may overshoot by what its error estimate allows.
          const slack = steps.toleranceK;
          for (const map of [peakC, finalC]) {
            expect(Math.min(...map)).toBeGreaterThan(Math.min(...all) - slack);
            expect(Math.max(...map)).toBeLessThan(Math.max(...all) + slack);
          }
        },
      ),
      { numRuns: 25 },
    );
  });

  it('are symmetric where the plan is', () => {
    const { peakC, finalC, grid } = solvePlate(smallPlan(), { toleranceK: 0.5 });
    for (let row = 0; row < grid.rows; row++)
      for (let column = 0; column < grid.columns; column++)
        for (const map of [peakC, finalC]) {
          const mirrored = map[(grid.rows - 1 - row) * grid.columns + column]!;
          // The linear solver may leave a tenth of the tolerance, differently on the two sides.
          expect(Math.abs(map[row * grid.columns + column]! - mirrored)).toBeLessThan(0.05);
        }
  });

  it('do not depend on which way round the plan is drawn', () => {
    const plan = smallPlan({ probes: [{ name: 'a', xMm: 41, yMm: 27 }] });
    const turned = smallPlan({
      part: [{ ...plan.part[0]!, shape: { rectMm: [0, 0, 40, 60] } }],
      passes: [{ ...pass, path: pass.path.map(([x, y]) => [y, x] as const) }],
      probes: [{ name: 'a', xMm: 27, yMm: 41 }],
    });
    const [a, b] = [plan, turned].map((p) => solvePlate(p, { toleranceK: 0.2 }).probes[0]!.history);
    for (let t = 0; t <= 28; t += 0.5) expect(Math.abs(tempAt(a!, t) - tempAt(b!, t))).toBeLessThan(0.4);
  });

  it('do not change when a straight path gets a point in its middle', () => {
    const straight = solvePlate(smallPlan(), { toleranceK: 0.1 }).probes[0]!;
    const pointed = solvePlate(withPass({ path: [pass.path[0]!, [22, 20], [30, 20], pass.path[1]!] }), {
      toleranceK: 0.1,
    }).probes[0]!;
    expect(Math.abs(straight.peakC - pointed.peakC)).toBeLessThan(0.2);
  });

  it('come closer to the exact as the tolerance is tightened', () => {
    const peakAt = (toleranceK: number) => solvePlate(smallPlan(), { toleranceK }).probes[0]!.peakC;
    const exact = peakAt(0.002);
    for (const toleranceK of [2, 0.5, 0.1])
      expect(Math.abs(peakAt(toleranceK) - exact)).toBeLessThan(toleranceK);
  });

  it('of a double-ended source with equal radii are those of the round one; a long tail drags the heat behind', () => {
    const probes = [
      { name: 'ahead', xMm: 55, yMm: 20 },
      { name: 'behind', xMm: 41, yMm: 20 },
    ];
    const run = (sourceRadiusMm: PlatePlan['passes'][number]['sourceRadiusMm']) =>
      solvePlate({ ...withPass({ sourceRadiusMm }), probes, until: { coolForS: 0 } }).probes.map(
        ({ history }) => history.tempC.at(-1)!,
      );
    const round = run(4);
    expect(run({ acrossMm: 4, aheadMm: 4, behindMm: 4 })).toEqual(round);
    const dragged = run({ acrossMm: 4, aheadMm: 4, behindMm: 12 });
    expect(dragged[0]).toBeLessThan(round[0]! - 1);
    expect(dragged[1]).toBeGreaterThan(round[1]! + 1);
  });
});

describe('thickness and alloy map', () => {
  it('carries one flow through a step in thickness and alloy, the two halves in series', () => {
    const other = { ...plainMetal, conductivityWPerMK: 15 };
    const { finalC, grid } = solvePlate(
      smallPlan({
        // In plan view the whole section of the thick side carries the flow at once.
        layers: 1,
        part: [
          { shape: { rectMm: [0, 0, 60, 2] }, thicknessMm: 3, metal: other },
          { shape: { rectMm: [30, 0, 60, 2] }, thicknessMm: 25, metal: plainMetal },
        ],
        surface: insulated,
        contacts: [
          { shape: { rectMm: [0, 0, 2, 2] }, conductanceWPerM2K: 1e9, bodyC: 0 },
          { shape: { rectMm: [58, 0, 60, 2] }, conductanceWPerM2K: 1e9, bodyC: 100 },
        ],
        passes: [],
        probes: [],
        until: { coolForS: 3000 },
      }),
      { toleranceK: 0.01 },
    );
    expect(grid.columns).toBe(30);
    // From the first to the last cell centre: 29 mm of 3 × 15 and 29 mm of 25 × 170, W mm/K per mm of width.
    const [thin, thick] = [29 / (3 * 15), 29 / (25 * 170)];
    const step = 100 / (thin + thick);
    for (let i = 0; i < 30; i++) {
      const x = 2 * i;
      const expected = x <= 28 ? (step * x) / (3 * 15) : 100 - (step * (58 - x)) / (25 * 170);
      expect(Math.abs(finalC[i]! - expected)).toBeLessThan(0.02);
    }
  });

  it('takes alloys by name, and says which region wins where two overlap', () => {
    const { massKg, notes } = solvePlate(
      smallPlan({
        part: [
          { name: 'tube', shape: { rectMm: [0, 0, 60, 40] }, thicknessMm: 3, metal: '6061' },
          { name: 'block', shape: { rectMm: [0, 0, 20, 40] }, thicknessMm: 25, metal: 'A356.0' },
        ],
      }),
    );
    expect(massKg).toBeCloseTo((20 * 40 * 25 * 2680 + 40 * 40 * 3 * 2700) * 1e-9, 6);
    expect(notes.join(' ')).toMatch(/block over tube on 800 mm²/);
  });

  it('follows an irregular outline: a polygon with a hole', () => {
    const { grid, massKg } = solvePlate(
      smallPlan({
        part: [
          {
            shape: {
              polygonMm: [
                [0, 0],
                [60, 0],
                [60, 40],
              ],
            },
            thicknessMm: 4,
            metal: plainMetal,
          },
          { shape: { circleMm: [40, 12, 6] }, thicknessMm: 0, metal: plainMetal },
        ],
        passes: [],
        probes: [],
      }),
    );
    expect(grid.columns).toBe(30);
    // Cells whose centre is inside: the area to within half a cell along the outline.
    const area = (60 * 40) / 2 - Math.PI * 36;
    expect(Math.abs(massKg - area * 4 * 2700e-9)).toBeLessThan((60 + 40 + 72 + 38) * 1 * 4 * 2700e-9);
    const hole = 6 * grid.columns + 20;
    expect(grid.inPart[hole]).toBe(0);
  });

  it('refuses a part in pieces, and names them', () => {
    const plan = smallPlan({
      part: [
        ...smallPlan().part,
        { name: 'loose', shape: { rectMm: [70, 0, 80, 40] }, thicknessMm: 4, metal: plainMetal },
      ],
    });
    expect(() => solvePlate(plan)).toThrow(/2 pieces that do not touch.*plate \| loose/);
  });
});

describe('surroundings', () => {
  it('a chill of finite heat and the part meet at their common mean, exponentially', () => {
    const kg = 20 * 20 * 4 * 2700e-9;
    const bodyHeatJPerK = 10;
    const { probes, energy } = solvePlate(
      smallPlan({
        part: [
          {
            shape: { rectMm: [0, 0, 20, 20] },
            thicknessMm: 4,
            metal: { ...plainMetal, conductivityWPerMK: 2000 },
          },
        ],
        surface: insulated,
        contacts: [{ shape: { rectMm: [0, 0, 20, 20] }, conductanceWPerM2K: 1000, bodyC: 20, bodyHeatJPerK }],
        initialC: 200,
        passes: [],
        probes: [{ name: 'p', xMm: 10, yMm: 10 }],
        until: { coolForS: 60 },
      }),
      { toleranceK: 0.05 },
    );
    const partHeat = kg * 1000;
    const rate = 1000e-6 * 400 * (1 / partHeat + 1 / bodyHeatJPerK);
    const commonC = (200 * partHeat + 20 * bodyHeatJPerK) / (partHeat + bodyHeatJPerK);
    for (const t of [2, 5, 10, 20, 60]) {
      const exact = commonC + (200 - commonC) * Math.exp(-rate * t);
      // The body's temperature is held through a step: first order, of steps that are fractions of a second here.
      expect(Math.abs(tempAt(probes[0]!.history, t) - exact)).toBeLessThan(0.02 * (200 - commonC));
    }
    expect(energy.lostToContactsJ).toBeCloseTo(partHeat * (200 - probes[0]!.history.tempC.at(-1)!), 1);
  });

  it('an insulated rim loses less than an exposed one, by its area', () => {
    const loss = (rim: 'exposed' | 'insulated') =>
      solvePlate(
        smallPlan({
          surface: { convectionWPerM2K: 10, emissivity: 0, ambientC: 20, rim },
          initialC: 100,
          passes: [],
          until: { coolForS: 1 },
        }),
      ).energy.lostToAirJ;
    const [faces, rim] = [2 * 60 * 40, 2 * (60 + 40) * 4];
    expect(loss('exposed') / loss('insulated')).toBeCloseTo((faces + rim) / faces, 3);
  });

  it('a contact covers the face it touches', () => {
    const { energy } = solvePlate(
      smallPlan({
        surface: { convectionWPerM2K: 10, emissivity: 0, ambientC: 20, rim: 'insulated' },
        contacts: [{ shape: { rectMm: [0, 0, 60, 40] }, conductanceWPerM2K: 0, bodyC: 20, faces: 2 }],
        initialC: 100,
        passes: [],
      }),
    );
    expect(energy.lostToAirJ).toBe(0);
  });
});

describe('passes and waits', () => {
  const twice = (startAfter: PlatePlan['passes'][number]['startAfter'], more: Partial<PlatePlan> = {}) =>
    solvePlate(smallPlan({ passes: [pass, { ...pass, ...(startAfter ? { startAfter } : {}) }], ...more }));

  it('run for path over speed, after the wait asked for', () => {
    const { passes, endS } = twice({ waitS: 33 });
    expect(passes.map(({ startS }) => startS)).toEqual([0, expect.closeTo(8 + 33, 9)]);
    expect(passes[0]!.endS).toBeCloseTo(8, 9);
    expect(endS).toBeCloseTo(8 + 33 + 8 + 20, 9);
    expect(passes[0]!.heatJ).toBeCloseTo(6400, 6);
    expect(passes[1]!.bulkStartC).toBeGreaterThan(150);
  });

  it('strike the next arc when the probe has cooled to the interpass limit, not before', () => {
    const { passes, probes } = twice(
      { interpassC: 120, atProbe: 'near' },
      { surface: { ...smallPlan().surface, convectionWPerM2K: 300 } },
    );
    const { startS, interpassC } = passes[1]!;
    expect(interpassC).toBeLessThanOrEqual(120);
    expect(interpassC).toBeGreaterThan(119.8);
    const { history } = probes[0]!;
    expect(tempAt(history, startS)).toBeCloseTo(interpassC!, 6);
    for (let t = passes[0]!.endS; t < startS - 1; t += 0.5) expect(tempAt(history, t)).toBeGreaterThan(120);
  });

  it('do not wait for a limit that is met when the fixed wait is over', () => {
    const { passes } = twice({ waitS: 60, interpassC: 400, atProbe: 'near' });
    expect(passes[1]!.interpassC).toBeLessThan(400);
    // It takes one look of a second to see that the reading does not rise.
    expect(passes[1]!.startS - passes[0]!.endS).toBeGreaterThanOrEqual(60);
    expect(passes[1]!.startS - passes[0]!.endS).toBeLessThanOrEqual(61.01);
  });

  it('do not take a probe that is still warming for a cool one', () => {
    const far = [{ name: 'far', xMm: 199, yMm: 20 }];
    const { passes, probes } = twice(
      { interpassC: 60, atProbe: 'far' },
      { part: [{ ...smallPlan().part[0]!, shape: { rectMm: [0, 0, 200, 40] } }], probes: far },
    );
    const { history } = probes[0]!;
    // At the end of the first pass it was far below the limit; it had to pass its own peak first.
    expect(tempAt(history, passes[0]!.endS)).toBeLessThan(30);
    expect(passes[1]!.startS).toBeGreaterThan(passes[0]!.endS + 20);
  });

  it('refuse a limit that is never reached', () => {
    // The air is at 20 °C, which is only neared.
    const named = [pass, { ...pass, name: 'cap', startAfter: { interpassC: 20.01, atProbe: 'near' } }];
    expect(() => solvePlate(smallPlan({ passes: named }), { longestWaitS: 2000 })).toThrow(
      /^cap would wait for ever.*probe "near".*Raise/,
    );
    expect(() => solvePlate(smallPlan({ until: { coolToC: 20.01 } }), { longestWaitS: 2000 })).toThrow(
      /does not cool.*20\.01 °C/,
    );
  });

  it('refuse one below all there is before anything is computed', () => {
    const below = [pass, { ...pass, name: 'cap', startAfter: { interpassC: 15, atProbe: 'near' } }];
    expect(() => checkPlan(smallPlan({ passes: below }))).toThrow(
      /^cap would wait for ever.*15\.0 °C.*Nothing here is colder than 20\.0 °C/,
    );
    expect(() => checkPlan(smallPlan({ until: { coolToC: 10 } }))).toThrow(/does not cool.*10\.0 °C/);
    const chill = { shape: { rectMm: [0, 0, 10, 10] }, conductanceWPerM2K: 1000, bodyC: 5 } as const;
    expect(() => checkPlan(smallPlan({ passes: below, contacts: [chill] }))).not.toThrow();
  });

  it('stop when the hottest metal is down to a temperature', () => {
    const { finalC } = solvePlate(smallPlan({ until: { coolToC: 100 } }));
    const hottest = finalC.reduce((a, b) => Math.max(a, b));
    expect(hottest).toBeLessThanOrEqual(100);
    expect(hottest).toBeGreaterThan(99.8);
  });
});

describe('what comes back', () => {
  it('maps, histories and time above a limit agree with each other', () => {
    const {
      probes,
      peakC,
      finalC,
      grid,
      timeAbove: above,
    } = solvePlate(smallPlan(), { timeAboveC: [150, 5000] });
    const cell = 15 * grid.columns + 15;
    const { history, peakC: probePeak } = probes[0]!;
    expect(history.tempC.at(-1)).toBeCloseTo(finalC[cell]!, 9);
    expect(Math.abs(probePeak - peakC[cell]!)).toBeLessThan(0.1);
    expect(Math.abs(timeAbove(history, 150) - above[0]!.seconds[cell]!)).toBeLessThan(0.1);
    expect(above[0]!.seconds[cell]).toBeGreaterThan(1);
    expect(Math.max(...above[1]!.seconds)).toBe(0);
  });

  it('flags a probe in the weld pool and one too near for plan view', () => {
    const { probes, notes } = solvePlate(
      smallPlan({
        part: [{ shape: { rectMm: [0, 0, 120, 90] }, thicknessMm: 4, metal: meltingMetal }],
        passes: [{ ...pass, netPowerW: 2500 }],
        probes: [
          { name: 'pool', xMm: 40, yMm: 20 },
          { name: 'edge', xMm: 40, yMm: 24 },
          { name: 'far', xMm: 40, yMm: 60 },
        ],
      }),
    );
    expect([probes[0]!.molten, probes[2]!.molten]).toEqual([true, false]);
    expect(probes.map(({ doubtful }) => doubtful)).toEqual([true, true, false]);
    expect(notes.join(' ')).toMatch(/"pool" lies in the weld pool/);
  });

  it('says where it cannot notice melting, for want of a solidus', () => {
    const plate = smallPlan().part[0]!;
    expect(solvePlate(smallPlan()).notes.join(' ')).toMatch(/metal of plate has no solidusC/);
    expect(solvePlate(smallPlan({ part: [{ ...plate, metal: meltingMetal }] })).notes).toEqual([]);
  });

  it('doubts plan view near the path, beside a thickness step and over a strong chill, not elsewhere', () => {
    const { doubt, grid } = solvePlate(
      smallPlan({
        layers: 1,
        part: [
          { shape: { rectMm: [0, 0, 160, 80] }, thicknessMm: 3, metal: plainMetal },
          { shape: { rectMm: [0, 0, 40, 80] }, thicknessMm: 20, metal: plainMetal },
        ],
        contacts: [{ shape: { rectMm: [0, 0, 8, 8] }, conductanceWPerM2K: 20_000, bodyC: 20 }],
        passes: [
          {
            ...pass,
            path: [
              [100, 20],
              [150, 20],
            ],
          },
        ],
      }),
    );
    const at = (x: number, y: number) => doubt.doubtful[Math.floor(y / 2) * grid.columns + Math.floor(x / 2)];
    expect([at(120, 20), at(120, 23)]).toEqual([1, 1]);
    expect([at(120, 32), at(120, 60)]).toEqual([0, 0]);
    // Beside the step and far from the arc four layers find a rise 7 % larger at 20 mm, 2 % at 40.
    expect([at(60, 20), at(80, 20)]).toEqual([1, 0]);
    expect([at(3, 3), at(15, 15)]).toEqual([1, 0]);
  });

  it('doubts one layer far around a step that is welded, and layers hardly at all', () => {
    const run = (layers?: number) => {
      const { doubt, grid, notes } = solvePlate(
        smallPlan({
          ...(layers ? { layers } : {}),
          part: [
            { shape: { rectMm: [0, 0, 120, 80] }, thicknessMm: 3, metal: plainMetal },
            { shape: { rectMm: [0, 0, 40, 80] }, thicknessMm: 20, metal: plainMetal },
          ],
          passes: [
            {
              ...pass,
              path: [
                [42, 20],
                [42, 60],
              ],
            },
          ],
          probes: [{ name: 'wall', xMm: 70, yMm: 40 }],
        }),
      );
      const at = (x: number) => doubt.doubtful[20 * grid.columns + Math.floor(x / 2)];
      return { near: [at(1), at(21), at(35), at(41), at(61)], notes };
    };
    const plain = run(1);
    // Two thicknesses inside the thick side heat has spread through it; the wall keeps what cannot get in.
    expect(plain.near).toEqual([0, 1, 1, 1, 1]);
    expect(plain.notes.join(' ')).toMatch(
      /At probe "wall" .* hotter than told, .*layers: 1.*leave layers out/,
    );
    const layered = run();
    expect(layered.near).toEqual([0, 0, 0, 1, 0]);
    expect(layered.notes.join(' ')).not.toMatch(/At probe "wall"/);
  });

  it('measures its own errors when asked', () => {
    const { errors } = solvePlate(smallPlan(), { checkErrors: true });
    expect(errors).toHaveLength(1);
    const { timeStepK, gridK } = errors![0]!;
    expect(timeStepK).toBeGreaterThan(0);
    expect(timeStepK).toBeLessThan(1);
    const finer = solvePlate(smallPlan({ cellMm: 1 })).probes[0]!.peakC;
    expect(gridK).toBeGreaterThan(Math.abs(finer - solvePlate(smallPlan()).probes[0]!.peakC));
  });

  it('says when the grid error cannot be measured, and still measures that of the steps', () => {
    const { errors, notes } = solvePlate(withPass({ sourceRadiusMm: 3 }), { checkErrors: true });
    expect(Object.keys(errors![0]!)).toEqual(['name', 'timeStepK']);
    expect(errors![0]!.timeStepK).toBeGreaterThan(0);
    expect(errors![0]!.timeStepK).toBeLessThan(1);
    expect(notes.join(' ')).toMatch(/grid error could not be measured/);
    expect(notes.join(' ')).toMatch(/coarse for the arc of pass 1/);
  });

  it('tells its errors in a sentence: the worst of the places that did not melt', () => {
    const result = solvePlate(smallPlan(), { checkErrors: true });
    const [probe] = result.probes;
    const at = (name: string, molten: boolean) => ({ ...probe!, name, molten });
    const probes = [at('near', false), at('far', false), at('pool', true)];
    const told = (gridK: number | undefined) =>
      plateErrorSentence({
        ...result,
        probes,
        errors: [
          { name: 'near', timeStepK: 0.5, ...(gridK === undefined ? {} : { gridK }) },
          { name: 'far', timeStepK: 0.1, ...(gridK === undefined ? {} : { gridK: gridK / 4 }) },
          { name: 'pool', timeStepK: 9, gridK: 9 },
        ],
        notes: ['The grid error could not be measured.'],
      });
    const steps =
      'Steps four times finer move the temperatures at the probes, outside the weld pool, by at most 0.5 °C (0.9 °F) at near';
    expect(told(4)).toBe(`${steps}, cells twice as large their peaks by at most 4.0 °C (7.2 °F) at near.`);
    expect(told(undefined)).toBe(`${steps}. The grid error could not be measured.`);
    expect(() => plateErrorSentence(solvePlate(smallPlan({ passes: [] })))).toThrow(/checkErrors: true/);
  });

  it('tells where it is on a long run', () => {
    const seen: PlateProgress[] = [];
    // A clock on which every step takes a second, however fast the machine.
    let nowMs = 0;
    const clock = vi.spyOn(Date, 'now').mockImplementation(() => (nowMs += 1000));
    solvePlate(smallPlan({ passes: [pass, { ...pass, startAfter: { interpassC: 150, atProbe: 'near' } }] }), {
      onProgress: (progress) => seen.push(progress),
    });
    clock.mockRestore();
    expect(seen.length).toBeGreaterThan(1);
    expect(new Set(seen.map(({ doing }) => doing))).toContain('pass 1 of 2');
    for (const [i, { timeS, hottestC }] of seen.entries()) {
      expect(timeS).toBeGreaterThan(i ? seen[i - 1]!.timeS : 0);
      expect(hottestC).toBeGreaterThan(20);
    }
  });
});

describe('a plan that cannot be run', () => {
  const cases: [string, PlatePlan, RegExp][] = [
    ['no travel', withPass({ travelMmPerS: 0 }), /pass 1 has no travel speed.*0 mm\/s/],
    ['negative travel', withPass({ travelMmPerS: -3 }), /no travel speed.*-3 mm\/s/],
    ['no power', withPass({ netPowerW: 0 }), /netPowerW of pass 1/],
    [
      'a path without length',
      withPass({
        path: [
          [10, 20],
          [10, 20],
        ],
      }),
      /path of pass 1 has no length/,
    ],
    [
      'a path outside the part',
      withPass({
        path: [
          [10, 20],
          [70, 20],
        ],
      }),
      /path of pass 1 leaves the part.*x 6\d\.\d mm/,
    ],
    [
      'an arc finer than a cell',
      withPass({ sourceRadiusMm: 1 }),
      /too coarse for the arc.*Choose cells of 0\.5 mm/,
    ],
    [
      'a probe outside',
      smallPlan({ probes: [{ name: 'TC9', xMm: 5, yMm: 50 }] }),
      /Probe "TC9" is not on the part/,
    ],
    [
      'two probes of one name',
      smallPlan({ probes: [0, 1].map(() => ({ name: 'A', xMm: 5, yMm: 5 })) }),
      /same name/,
    ],
    [
      'an unknown interpass probe',
      withPass({ startAfter: { interpassC: 100, atProbe: 'TC7' } }),
      /"TC7".*one of "near"/,
    ],
    ['no part', smallPlan({ part: [] }), /no part/],
    [
      'an unknown alloy',
      smallPlan({ part: [{ ...smallPlan().part[0]!, metal: 'unobtainium' }] }),
      /unobtainium/,
    ],
    [
      'no conductivity',
      smallPlan({ part: [{ ...smallPlan().part[0]!, metal: { ...plainMetal, conductivityWPerMK: 0 } }] }),
      /conductivityWPerMK is not usable/,
    ],
    [
      'a table that runs backwards',
      smallPlan({
        part: [
          {
            ...smallPlan().part[0]!,
            metal: {
              ...plainMetal,
              specificHeatJPerKgK: { tempC: [20, 10], value: [900, 900], source: 'x' },
            },
          },
        ],
      }),
      /temperature 2 of specificHeatJPerKgK/,
    ],
    [
      'latent heat without a melting range',
      smallPlan({ part: [{ ...smallPlan().part[0]!, metal: { ...plainMetal, latentHeatJPerKg: 1e5 } }] }),
      /melting range/,
    ],
    [
      'a region hidden by a later one',
      smallPlan({ part: [smallPlan().part[0]!, { ...smallPlan().part[0]!, name: 'top' }] }),
      /No cell of the plan is plate/,
    ],
    [
      'a contact on nothing',
      smallPlan({
        contacts: [{ name: 'clamp', shape: { rectMm: [90, 0, 99, 9] }, conductanceWPerM2K: 1, bodyC: 20 }],
      }),
      /clamp touches no metal/,
    ],
    [
      'a shape without area',
      smallPlan({ part: [{ ...smallPlan().part[0]!, shape: { rectMm: [5, 5, 5, 9] } }] }),
      /no area/,
    ],
    [
      'a preheat area beside the part',
      smallPlan({ preheat: [{ shape: { rectMm: [90, 0, 99, 9] }, tempC: 200 }] }),
      /Preheat area 1 covers no metal/,
    ],
    [
      'a lone region of negative thickness',
      smallPlan({ part: [{ ...smallPlan().part[0]!, thicknessMm: -4 }] }),
      /thicknessMm of plate.*-4/,
    ],
    ['far too many cells', smallPlan({ cellMm: 0.01 }), /more cells than can be computed/],
    ['a start below absolute zero', smallPlan({ initialC: -300 }), /initialC/],
    ['NaN', smallPlan({ surface: { ...insulated, emissivity: Number.NaN } }), /emissivity.*NaN/],
  ];
  it.each(cases)('is refused in words: %s', (_what, plan, message) => {
    let refusal: unknown;
    try {
      solvePlate(plan);
    } catch (error) {
      refusal = error;
    }
    expect(refusal).toMatchObject({ name: 'TemperbookError', message: expect.stringMatching(message) });
  });

  it('and so are options that make no sense', () => {
    expect(() => solvePlate(smallPlan(), { toleranceK: 0 })).toThrow(/toleranceK/);
    expect(() => solvePlate(smallPlan(), { timeAboveC: [Number.NaN] })).toThrow(/timeAboveC/);
  });
});
