import { describe, expect, it } from 'vitest';
import { heatInput, type PlatePass, type PlatePlan, solvePlate } from '../../../lib/heatflow';
import { tempAt } from '../../../lib/history';
import { TemperbookError } from '../../../lib/quantity';
import { plainMetal, smallPlan, withPass } from './smallPlan';

const { netPowerW: _power, travelMmPerS: _travel, ...bare } = smallPlan().passes[0]!;
const peakOf = (pass: PlatePass, more: Partial<PlatePlan> = {}) =>
  solvePlate(smallPlan({ passes: [pass], ...more })).probes[0]!.peakC;

describe('the heat of a pass', () => {
  it('may be said in amps, volts and process, at the efficiency of the process or one of its own', () => {
    const amps = { ...bare, amps: 100, volts: 14, process: 'TIG', travelMmPerS: 5 } as const;
    const { netPowerW } = heatInput({ amps: 100, volts: 14, process: 'TIG', travelMmPerS: 5 });
    expect(solvePlate(smallPlan({ passes: [amps] })).energy.arcJ).toBeCloseTo(netPowerW.nominal * 8, 6);
    expect(solvePlate(smallPlan({ passes: [{ ...amps, efficiency: 0.7 }] })).energy.arcJ).toBeCloseTo(
      0.7 * 1400 * 8,
      6,
    );
  });

  it('is the same at mm/s, mm/min and in so many seconds', () => {
    const net = { ...bare, netPowerW: 800 };
    const perS = peakOf({ ...net, travelMmPerS: 5 });
    expect(peakOf({ ...net, travelMmPerMin: 300 })).toBe(perS);
    expect(peakOf({ ...net, arcOnS: 8 })).toBe(perS);
  });

  it('may change along the path: a current that falls brings its mean, most of it early', () => {
    const falling = { atMm: [0, 40], value: [150, 50] };
    const pass = {
      ...bare,
      amps: falling,
      volts: 10,
      process: 'TIG',
      efficiency: 0.8,
      travelMmPerS: 5,
    } as const;
    const run = (passes: PlatePass[]) =>
      solvePlate(
        smallPlan({
          passes,
          probes: [
            { name: 'early', xMm: 15, yMm: 31 },
            { name: 'late', xMm: 45, yMm: 31 },
          ],
        }),
        { toleranceK: 0.2 },
      );
    const fell = run([pass]);
    const even = run([{ ...pass, amps: 100 }]);
    // Heat is laid in pieces of 0.2 radii, its power taken in the middle of each: exact for a straight line.
    expect(fell.energy.arcJ).toBeCloseTo(even.energy.arcJ, 3);
    expect(fell.probes[0]!.peakC).toBeGreaterThan(even.probes[0]!.peakC + 5);
    expect(fell.probes[1]!.peakC).toBeLessThan(even.probes[1]!.peakC - 5);
  });

  it('may dwell: a tack brings its power for its time, the same all round', () => {
    const tack: PlatePass = { path: [[30, 20]], arcOnS: 3, netPowerW: 900, sourceRadiusMm: 4 };
    const { energy, passes, probes } = solvePlate(
      smallPlan({
        passes: [tack],
        probes: [
          { name: 'right', xMm: 38, yMm: 20 },
          { name: 'left', xMm: 22, yMm: 20 },
        ],
      }),
      { toleranceK: 0.2 },
    );
    expect(energy.arcJ).toBeCloseTo(2700, 9);
    expect(passes[0]!.endS).toBeCloseTo(3, 9);
    expect(Math.abs(probes[0]!.peakC - probes[1]!.peakC)).toBeLessThan(0.05);
  });

  it('may be shared between the two legs of a fillet', () => {
    const { probes, energy } = solvePlate(
      smallPlan({
        passes: [
          {
            ...smallPlan().passes[0]!,
            path: [
              [10, 10],
              [50, 10],
            ],
            beside: {
              path: [
                [10, 30],
                [50, 30],
              ],
              share: 0.5,
            },
          },
        ],
        probes: [
          { name: 'one', xMm: 30, yMm: 10 },
          { name: 'other', xMm: 30, yMm: 30 },
        ],
      }),
    );
    expect(energy.arcJ).toBeCloseTo(6400, 6);
    expect(Math.abs(probes[0]!.peakC - probes[1]!.peakC)).toBeLessThan(0.1);
  });

  it('warms the filler it lays: as much less in the part as the filler holds in the end', () => {
    const insulated = { convectionWPerM2K: 0, emissivity: 0, ambientC: 20 };
    const fillerMm2 = 12;
    const { finalC, energy } = solvePlate({
      ...withPass({ fillerMm2 }),
      surface: insulated,
      until: { coolForS: 300 },
    });
    const mm3 = 60 * 40 * 4 + fillerMm2 * 40;
    const mean = 20 + 6400 / (mm3 * 2700e-9 * 1000);
    expect(energy.imbalance).toBeLessThan(1e-9);
    // 300 s are 60 time constants of the slowest mode; a step adds up to a tenth of its tolerance then.
    for (const tempC of finalC) expect(Math.abs(tempC - mean)).toBeLessThan(0.2);
  });
});

describe('chills and air that change', () => {
  const chilled = (more: object) =>
    solvePlate(
      smallPlan({
        initialC: 200,
        passes: [],
        contacts: [
          { name: 'chill', shape: { rectMm: [0, 0, 60, 40] }, conductanceWPerM2K: 2000, bodyC: 20, ...more },
        ],
        surface: { convectionWPerM2K: 0, emissivity: 0, ambientC: 20 },
        until: { coolForS: 20 },
      }),
    );
  // h/(ρc d): 2000e-6 / (2.7e-3 · 4) per second.
  const rate = 2000e-6 / (2700e-9 * 1000 * 4);

  it('put on late and taken off early, a chill draws only in between', () => {
    const { probes, energy } = chilled({ putOn: { atS: 5 }, takenOff: { atS: 10 } });
    const { history } = probes[0]!;
    expect(tempAt(history, 4.9)).toBeCloseTo(200, 6);
    expect(tempAt(history, 10)).toBeCloseTo(20 + 180 * Math.exp(-rate * 5), 0);
    expect(tempAt(history, 20)).toBeCloseTo(tempAt(history, 10), 2);
    expect(energy.imbalance).toBeLessThan(1e-9);
  });

  it('goes by the passes where it is told to', () => {
    const plan = smallPlan({
      passes: [{ ...smallPlan().passes[0]!, name: 'root' }],
      contacts: [
        {
          shape: { rectMm: [0, 0, 60, 6] },
          conductanceWPerM2K: 5000,
          bodyC: 20,
          putOn: { pass: 'root', when: 'end', afterS: 2 },
        },
      ],
    });
    const { energy, probes } = solvePlate({ ...plan, probes: [{ name: 'under', xMm: 30, yMm: 3 }] });
    const { history } = probes[0]!;
    // The arc goes out after 8 s: still warming until 10 s, cooling fast from there.
    expect(tempAt(history, 9.9)).toBeGreaterThan(tempAt(history, 9));
    expect(tempAt(history, 12)).toBeLessThan(tempAt(history, 10) - 30);
    expect(energy.lostToContactsJ).toBeGreaterThan(0);
  });

  it('a fan put on late cools from then on', () => {
    const { probes, energy } = solvePlate(
      smallPlan({
        initialC: 200,
        passes: [],
        surface: { convectionWPerM2K: 0, emissivity: 0, ambientC: 20, rim: 'insulated' },
        airChanges: [{ from: { atS: 10 }, convectionWPerM2K: 100, ambientC: 10 }],
        until: { coolForS: 20 },
      }),
    );
    const { history } = probes[0]!;
    expect(tempAt(history, 9.9)).toBeCloseTo(200, 6);
    const airRate = (2 * 100e-6) / (2700e-9 * 1000 * 4);
    expect(tempAt(history, 20)).toBeCloseTo(10 + 190 * Math.exp(-airRate * 10), 1);
    expect(energy.imbalance).toBeLessThan(1e-9);
  });
});

describe('a path on an edge', () => {
  // 61 mm on cells of 2 mm: the last half cell is no cell.
  const plate = (path: PlatePass['path']) =>
    smallPlan({
      part: [{ shape: { rectMm: [0, 0, 61, 41] }, thicknessMm: 4, metal: plainMetal }],
      passes: [{ ...smallPlan().passes[0]!, path }],
    });
  it.each([
    [
      [0, 20],
      [30, 20],
    ],
    [
      [61, 20],
      [30, 20],
    ],
    [
      [30, 0],
      [30, 20],
    ],
    [
      [30, 41],
      [30, 20],
    ],
  ] as const)('may begin at %j', (from, to) => {
    expect(solvePlate(plate([from, to])).energy.imbalance).toBeLessThan(1e-9);
    expect(solvePlate(plate([to, from])).energy.imbalance).toBeLessThan(1e-9);
  });
});

describe('the edges of a join', () => {
  const girth = 60;
  const tube = (fromX: number, toX: number, cellMm = 5) =>
    smallPlan({
      cellMm,
      part: [{ name: 'tube', shape: { rectMm: [0, 0, girth, 40] }, thicknessMm: 3, metal: plainMetal }],
      passes: [{ ...bare, netPowerW: 800, travelMmPerS: 5, sourceRadiusMm: 6 }],
      joins: [
        {
          name: 'seam',
          edgeMm: [
            [fromX, 0],
            [fromX, 40],
          ],
          toEdgeMm: [
            [toX, 0],
            [toX, 40],
          ],
        },
      ],
    });

  it.each([
    [2, girth, /"seam" is no edge of the part.*both sides of x 2\.0 mm, y \d.*the edge is at x 0\.0 mm/],
    [0, girth - 1.5, /"seam" is no edge of the part.*x 58\.5 mm.*the edge is at x 60\.0 mm/],
    [-2, girth, /"seam" has a gap.*no metal at x -2\.0 mm.*the edge is at x 0\.0 mm/],
    [0, girth + 1, /"seam" has a gap.*x 61\.0 mm.*the edge is at x 60\.0 mm/],
  ])('are not taken from lines beside them, however large the cells: x %d and %d mm', (from, to, told) => {
    expect(() => solvePlate(tube(from, to))).toThrow(told);
    expect(() => solvePlate(tube(from, to, 2))).toThrow(told);
  });

  it('may be off by what a rounded circumference is', () => {
    expect(solvePlate(tube(0, girth - 0.3)).energy.imbalance).toBeLessThan(1e-9);
  });
});

describe('a slip in a pass, a join or a moment', () => {
  const joined = (join: object, more: Partial<PlatePlan> = {}) =>
    smallPlan({ joins: [join as never], ...more });
  const arm = { name: 'arm', shape: { rectMm: [0, 60, 60, 90] as const }, thicknessMm: 4, metal: plainMetal };
  const net = { ...bare, netPowerW: 800 };
  it.each<[string, PlatePlan, RegExp]>([
    [
      'no travel',
      smallPlan({ passes: [{ ...net, travelMmPerS: 0 }] }),
      /pass 1 has no travel speed.*0 mm\/s/,
    ],
    [
      'travel the other way',
      smallPlan({ passes: [{ ...net, travelMmPerMin: -300 }] }),
      /-300 mm\/min.*turn the path round/,
    ],
    [
      'two paces',
      smallPlan({ passes: [{ ...net, travelMmPerS: 5, arcOnS: 8 }] }),
      /pass 1 needs one pace.*travelMmPerS 5 and arcOnS 8/,
    ],
    ['no pace', smallPlan({ passes: [net] }), /pass 1 needs one pace.*none/],
    ['no heat', smallPlan({ passes: [{ ...bare, travelMmPerS: 5 }] }), /pass 1 needs its heat once/],
    [
      'heat given twice',
      smallPlan({ passes: [{ ...net, amps: 100, volts: 14, process: 'TIG', travelMmPerS: 5 }] }),
      /netPowerW beside amps/,
    ],
    [
      'amps without volts',
      smallPlan({ passes: [{ ...bare, amps: 100, process: 'TIG', travelMmPerS: 5 }] }),
      /amps without volts/,
    ],
    [
      'a dwell without time',
      smallPlan({ passes: [{ ...net, path: [[30, 20]], travelMmPerS: 5 }] }),
      /path of pass 1 has no length.*arcOnS/,
    ],
    [
      'a current that steps back',
      smallPlan({ passes: [{ ...net, netPowerW: { atMm: [10, 5], value: [1, 2] }, travelMmPerS: 5 }] }),
      /place 2 of netPowerW of pass 1/,
    ],
    [
      'a path off the part',
      withPass({
        path: [
          [10, 20],
          [75, 20],
        ],
      }),
      /path of pass 1 leaves the part.*x 6\d/,
    ],
    [
      'a second path off the part',
      withPass({
        beside: {
          path: [
            [10, 20],
            [10, 60],
          ],
          share: 0.5,
        },
      }),
      /leaves the part.*y 4\d/,
    ],
    [
      'a tube wrapped with a gap',
      joined({
        name: 'seam',
        edgeMm: [
          [0, 0],
          [0, 40],
        ],
        toEdgeMm: [
          [62, 0],
          [62, 40],
        ],
      }),
      /join "seam" has a gap.*x 62.*mean circumference/,
    ],
    [
      'a seam that does not close',
      joined({
        edgeMm: [
          [0, 0],
          [0, 40],
        ],
        toEdgeMm: [
          [60, 0],
          [60, 36],
        ],
      }),
      /two sides.*join 1.*40.0 mm against 36.0 mm/,
    ],
    [
      'an edge in the middle of the metal',
      joined({
        edgeMm: [
          [30, 0],
          [30, 40],
        ],
        toEdgeMm: [
          [60, 0],
          [60, 40],
        ],
      }),
      /no edge of the part/,
    ],
    [
      'a join to nothing',
      joined({
        edgeMm: [
          [0, 0],
          [0, 40],
        ],
      }),
      /needs one other side/,
    ],
    [
      'an arm off the face',
      joined(
        {
          name: 'lug',
          edgeMm: [
            [0, 60],
            [40, 60],
          ],
          ontoMm: [
            [30, 20],
            [70, 20],
          ],
        },
        { part: [...smallPlan().part, arm] },
      ),
      /"lug" has a gap/,
    ],
    [
      'a chill on nothing',
      smallPlan({
        contacts: [{ name: 'bar', shape: { rectMm: [80, 0, 90, 40] }, conductanceWPerM2K: 500, bodyC: 20 }],
      }),
      /bar touches no metal.*nothing of the part in/,
    ],
    [
      'a chill put on at a pass that is not there',
      smallPlan({
        contacts: [
          {
            name: 'bar',
            shape: { rectMm: [0, 0, 9, 9] },
            conductanceWPerM2K: 500,
            bodyC: 20,
            putOn: { pass: 'cap', when: 'end' },
          },
        ],
      }),
      /putOn of bar.*"cap".*"pass 1"/,
    ],
    [
      'a moment in two ways',
      smallPlan({ airChanges: [{ from: { atS: 3, pass: 'pass 1', when: 'end' } as never, ambientC: 3 }] }),
      /change 1 of the air is said in two way/,
    ],
    ['a change of nothing', smallPlan({ airChanges: [{ from: { atS: 3 } }] }), /changes nothing/],
    [
      'a probe drilled through',
      smallPlan({ probes: [{ name: 'TC1', xMm: 30, yMm: 30, depthMm: 6 }] }),
      /"TC1" is drilled through the part.*6 mm deep in 4 mm/,
    ],
    ['layers and a half', smallPlan({ layers: 2.5 }), /counted whole/],
  ])('%s is told by its place', (_, plan, message) => {
    expect(() => solvePlate(plan)).toThrow(TemperbookError);
    expect(() => solvePlate(plan)).toThrow(message);
  });
});
