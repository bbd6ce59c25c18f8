import { describe, expect, it } from 'vitest';
import examples from '../../data/published/welded-section-examples.json';
import {
  factorCurve,
  moveWeld,
  type SectionLoad,
  type SectionSize,
  type SizeOptions,
  sectionFactor,
  sizeDoubler,
  sizeSection,
  type WeldedSection,
  weldedResistance,
} from '../../lib/section';
import { fc } from '../setup/fc';
import { supported } from './supported';

const bar: WeldedSection = {
  shape: { kind: 'flat bar', widthMm: 120, thicknessMm: 6 },
  form: 'open profile',
  welds: [{ lies: 'across', joint: 'butt' }],
};
const mast: WeldedSection = {
  shape: { kind: 'round tube', outsideMm: 60, wallMm: 3 },
  form: 'extruded tube',
  welds: [{ lies: 'across', joint: 'butt' }],
};
const shop: SizeOptions = {
  alloy: '6061',
  temper: 'T6',
  process: 'TIG',
  filler: '4043',
  code: 'EN 1999-1-1',
  factor: 4,
  on: 'yield',
};
const wind: SectionLoad = { axialN: -2000, shearYN: 800, momentXNmm: 250_000 };
const sized = (section: WeldedSection, load: SectionLoad, change: Partial<SizeOptions> = {}): SectionSize =>
  supported(sizeSection(section, load, { ...shop, ...change }));

describe('ST-3: thickness that restores the design resistance of the parent', () => {
  const wanted = examples.examples.find(({ id }) => id === 'ST-3')!.result as unknown as Record<
    string,
    number
  >;
  const target: SectionLoad = { axialN: (720 * 240) / 1.1 };
  const least = (change: Partial<SizeOptions>) =>
    sized(bar, target, { factor: 1, on: 'rupture', codeFactors: true, ...change }).least!.thicknessMm;
  it('MIG with 5356 and with 4043', () => {
    expect(least({ process: 'MIG', filler: '5356' })).toBeCloseTo(wanted.t_req_MIG_5356_mm!, 3);
    expect(least({ process: 'MIG' })).toBeCloseTo(wanted.t_req_MIG_4043_mm!, 3);
  });
  it('TIG: the first answer is not accepted above 6 mm', () => {
    // 112 MPa in place of 140: printed as 14.61 beside the first pass of 11.688.
    expect(least({})).toBeCloseTo(wanted.t_req_TIG_first_pass_mm! / 0.8, 2);
    expect(least({})).toBeCloseTo(14.61, 2);
  });
});

describe('sizeSection', () => {
  it('gives a thickness whose resistance, asked by the other door, is the factor', () => {
    for (const on of ['yield', 'rupture'] as const)
      for (const section of [bar, mast]) {
        const size = sized(section, wind, { on, factor: 3 });
        if (!size.least) continue;
        const { thicknessMm } = size.least;
        const shape = { ...section.shape, [section === bar ? 'thicknessMm' : 'wallMm']: thicknessMm };
        const again = supported(
          weldedResistance({ ...section, shape: shape as WeldedSection['shape'] }, shop),
        );
        const factor = sectionFactor(again, wind, { on }).factor.nominal;
        expect(factor).toBeGreaterThanOrEqual(3 * (1 - 1e-9));
        // The bisection stops at 1e-4 mm, of at least 1 mm: factors follow about as the thickness, bending as its cube.
        if (size.reachesMm[0]![0] > 6.001 || size.reachesMm[0]![0] < 6)
          expect(factor).toBeLessThan(3 * (1 + 5e-4));
      }
  });

  it('agrees with a plain search over 0.01 mm', () => {
    const load: SectionLoad = { axialN: 9000, momentYNmm: 100_000 };
    const size = sized(bar, load, { on: 'rupture' });
    const scan = factorCurve(bar, load, { ...shop, on: 'rupture' }, { fromMm: 0.6, toMm: 12.6, count: 1201 });
    const first = scan.points.find(({ factor }) => factor && factor.low >= 4)!;
    expect(Math.abs(size.least!.thicknessMm - first.thicknessMm)).toBeLessThan(0.011);
  });

  it('does not take a stock size that a step of the code makes too weak', () => {
    // Just enough below 6 mm; 8 mm of TIG keeps a further 0.8 and loses again.
    const load: SectionLoad = { axialN: (120 * 5.5 * 115 * 0.8) / 4 };
    const size = sized(bar, load, { stockMm: [6.1, 6.5, 8] });
    expect(size.least!.thicknessMm).toBeCloseTo(5.5, 3);
    expect(size.reachesMm).toHaveLength(2);
    expect(size.reachesMm[0]![1]).toBe(6);
    expect(size.reachesMm[1]![0]).toBeCloseTo(5.5 / 0.8, 3);
    expect(size.stock!.thicknessMm).toBe(8);
  });

  it('more load, more doubt, TIG for MIG, a weld for none: never thinner', () => {
    const thickness = (load: SectionLoad, change: Partial<SizeOptions> = {}, section = bar): number =>
      sized(section, load, { on: 'rupture', ...change }).least?.thicknessMm ?? Infinity;
    fc.assert(
      fc.property(
        fc.record({
          axialN: fc.double({ min: 500, max: 20_000, noNaN: true }),
          momentYNmm: fc.double({ min: 0, max: 300_000, noNaN: true }),
          doubtFraction: fc.double({ min: 0, max: 0.5, noNaN: true }),
        }),
        (load) => {
          const own = thickness(load);
          expect(thickness({ ...load, axialN: 1.1 * load.axialN })).toBeGreaterThanOrEqual(own - 1e-3);
          expect(thickness({ ...load, doubtFraction: 0 })).toBeLessThanOrEqual(own + 1e-3);
          expect(thickness(load, { process: 'MIG' })).toBeLessThanOrEqual(own + 1e-3);
          expect(thickness(load, {}, { ...bar, welds: [] })).toBeLessThanOrEqual(own + 1e-3);
          expect(thickness(load, { filler: undefined })).toBeGreaterThanOrEqual(own - 1e-3);
        },
      ),
      { numRuns: 25 },
    );
  });

  it('a stress at the weld with its gradient is the same load as its forces', () => {
    const full = supported(weldedResistance(mast, shop)).full;
    const [force, moment] = [4000, 200_000];
    const stressMPa = force / full.areaMm2 + (moment * 30) / full.secondMomentXMm4;
    const gradientMPaPerMm = [0, moment / full.secondMomentXMm4] as const;
    const byForces = sectionFactor(
      supported(weldedResistance(mast, shop)),
      { axialN: force, momentXNmm: moment },
      shop,
    );
    const byStress = sectionFactor(
      supported(weldedResistance(mast, shop)),
      { stressMPa, atMm: [0, 30], gradientMPaPerMm },
      shop,
    );
    expect(byStress.factor.nominal).toBeCloseTo(byForces.factor.nominal, 9);
  });

  it('takes no wall that would buckle before it yields', () => {
    const thin: WeldedSection = {
      shape: { kind: 'rectangular tube', widthMm: 100, depthMm: 100, wallMm: 2 },
      form: 'hollow profile',
      welds: [{ lies: 'across', joint: 'butt' }],
    };
    const push = sized(thin, { axialN: -1000 });
    const pull = sized(thin, { axialN: 1000 });
    expect(push.present.slenderWalls).toContain('left wall');
    expect(pull.present.slenderWalls).toEqual([]);
    // Class 3 up to (b − 2t)/t = 18 √(250/240).
    expect(push.least!.thicknessMm).toBeCloseTo(100 / (18 * Math.sqrt(250 / 240) + 2), 2);
    expect(pull.least!.thicknessMm).toBeLessThan(1);
  });

  it('says so when nothing reaches the factor', () => {
    const size = sized(bar, { axialN: 5e6 }, { upToMm: 30 });
    expect(size.least).toBeNull();
    expect(size.stock).toBeNull();
    expect(size.best.factor!.nominal).toBeLessThan(4);
    // The row of the extrusion ends at 20 mm: no answer beyond it is made up.
    expect(size.best.thicknessMm).toBe(20);
  });

  it.each([
    ['a wall of 3 m', { ...mast, shape: { ...mast.shape, wallMm: 3000 } }, wind, {}, /wallMm.*0.3 to 200/],
    ['a factor below 1', mast, wind, { factor: 0.25 }, /factor is not usable.*from 1/],
    ['a load of nothing', mast, {}, {}, /is no load/],
    ['a misspelt load', mast, { axialKN: 3 }, {}, /does not know.*axialKN/],
    [
      'a basis the code lacks',
      mast,
      wind,
      { on: 'allowable' },
      /nothing to count on allowable.*yield or rupture/,
    ],
    ['a filler nobody knows', mast, wind, { filler: '9999' }, /does not know this filler.*4043/],
    ['a code nobody knows', mast, wind, { code: 'DIN' }, /no such code/],
    [
      'an outline',
      {
        ...mast,
        shape: {
          kind: 'outline',
          thicknessMm: 5,
          cornersMm: [
            [0, 0],
            [9, 0],
            [9, 9],
          ],
        },
        welds: [],
      },
      wind,
      {},
      /no one thickness/,
    ],
  ] as [string, WeldedSection, SectionLoad, Partial<SizeOptions>, RegExp][])(
    'refuses %s',
    (_, section, load, change, message) => {
      expect(() => sizeSection(section, load, { ...shop, ...change })).toThrow(message);
    },
  );
});

describe('castings', () => {
  const lug: WeldedSection = {
    shape: { kind: 'flat bar', widthMm: 80, thicknessMm: 20 },
    castBy: 'sand',
    welds: [{ lies: 'across', joint: 'butt' }],
  };
  const cast: SizeOptions = { ...shop, alloy: '356.0' };
  it('no building code answers for the welded zone, and a factor is not made up', () => {
    for (const code of ['EN 1999-1-1', 'Aluminum Design Manual'] as const)
      expect(sizeSection(lug, wind, { ...cast, code })).toMatchObject({
        supported: false,
        why: expect.stringContaining('gives no strength beside a weld in a casting'),
        remedy: expect.stringContaining('Break welded coupons'),
      });
  });
  it('the code for highway supports does, as an allowable stress that holds its own factor', () => {
    const highway = { ...cast, code: 'AASHTO LTS', on: 'allowable', factor: 1 } as const;
    const size = supported(sizeSection(lug, { axialN: 38_000 }, highway));
    // 5.6 ksi = 38.61 MPa on 80 mm.
    expect(size.least!.thicknessMm).toBeCloseTo(38_000 / (80 * 38.6106), 2);
    expect(size.source).toContain('AASHTO LTS');
    expect(() => sizeSection(lug, wind, { ...highway, on: 'yield', factor: 4 })).toThrow(
      /holds a safety factor already/,
    );
    expect(sizeSection(lug, wind, { ...highway, alloy: 'A356.0' })).toMatchObject({ supported: false });
  });
  it('own coupons answer, a casting factor divides, and impossible strengths are refused', () => {
    const own = {
      proofMPa: 140,
      ultimateMPa: 200,
      softProofMPa: 80,
      softUltimateMPa: 140,
      extentMm: 30,
      because: 'Five coupons across the weld of lot 7.',
    };
    const size = supported(sizeSection(lug, { axialN: 30_000 }, { ...cast, code: 'own tests', own }));
    expect(size.least!.thicknessMm).toBeCloseTo((4 * 30_000) / (80 * 80), 3);
    expect(() =>
      sizeSection(lug, wind, { ...cast, code: 'own tests', own: { ...own, proofMPa: 1379 } }),
    ).toThrow(/own.proofMPa.*5 to 700/);
    const bare = (castingFactor?: number) =>
      supported(sizeSection({ ...lug, welds: [] }, { axialN: 30_000 }, { ...cast, castingFactor })).least!
        .thicknessMm;
    expect(bare(1.5)).toBeCloseTo(1.5 * bare(), 3);
  });
});

describe('other ways than thickness', () => {
  it('moves a weld to where bending is less, never nearer than its soft zone reaches', () => {
    const arm: SectionLoad = { shearYN: 500, momentXNmm: 250_000 };
    const away = (factor: number) =>
      supported(moveWeld(mast, arm, { ...shop, code: 'EN 1999-1-1', factor, withinMm: 400 }));
    expect(away(1).distanceMm).toBe(0);
    const place = away(4);
    expect(place.distanceMm).toBeGreaterThan(30);
    const there: SectionLoad = { shearYN: 500, momentXNmm: 250_000 - 500 * place.distanceMm! };
    const factor = sectionFactor(supported(weldedResistance(mast, shop)), there, shop).factor.nominal;
    expect(factor).toBeGreaterThan(4 * (1 - 1e-3));
    expect(away(8).distanceMm).toBeNull();
  });
  it('a doubler cannot do more than the bar softened by its own side fillets', () => {
    const wide = { ...bar, shape: { kind: 'flat bar', widthMm: 200, thicknessMm: 6 } } as const;
    const ask = (axialN: number) =>
      supported(
        sizeDoubler(wide, axialN, {
          ...shop,
          process: 'MIG',
          on: 'rupture',
          factor: 2,
          doublerWidthMm: 60,
          throatMm: 4,
        }),
      );
    const weak = ask(140_000);
    expect(weak.thicknessMm).toBeNull();
    expect(weak.factorAtEnd).toBeLessThan(2);
    const fits = ask(115_000);
    expect(fits.thicknessMm).toBeGreaterThan(0);
    expect(fits.lengthMm).toBeGreaterThan(2 * 20);
    // Equilibrium: bar at its soft strength and plates at theirs carry the target together.
    const needN = 2 * 115_000 - 1200 * 175;
    expect(2 * fits.thicknessMm! * 60 * 260).toBeGreaterThan(needN);
  });
});
