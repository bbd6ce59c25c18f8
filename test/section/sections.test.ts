import { describe, expect, it } from 'vitest';
import {
  castingAllowable,
  filletGroup,
  filletShearUs,
  type KeptAtDistance,
  type ResistanceOptions,
  roundFillet,
  type SectionShape,
  sectionCautions,
  sectionFactor,
  throatOfLeg,
  type WeldedSection,
  weldedResistance,
} from '../../lib/section';
import { fc } from '../setup/fc';
import { supported } from './supported';

const mig: ResistanceOptions = { alloy: '6061', temper: 'T6', process: 'MIG', code: 'EN 1999-1-1' };
const tie: WeldedSection = {
  shape: { kind: 'flat bar', widthMm: 120, thicknessMm: 6 },
  form: 'open profile',
  welds: [{ lies: 'along', atMm: [0, 0], joint: 'butt' }],
};
const outline = (width: number, depth: number): SectionShape => ({
  kind: 'outline',
  thicknessMm: depth,
  cornersMm: [
    [-width / 2, -depth / 2],
    [width / 2, -depth / 2],
    [width / 2, depth / 2],
    [-width / 2, depth / 2],
  ],
});
const yields = (section: WeldedSection, options = mig) =>
  supported(weldedResistance(section, options)).checks.find(({ on }) => on === 'yield')!;

describe('one section by two doors', () => {
  it('a flat bar, the same as plates, and a round tube in two halves', () => {
    const plates: SectionShape = {
      kind: 'plates',
      plates: [
        { fromMm: [-60, 0], toMm: [10, 0], thicknessMm: 6 },
        { fromMm: [10, 0], toMm: [60, 0], thicknessMm: 6 },
      ],
    };
    const [bar, built] = [yields(tie).metal!, yields({ ...tie, shape: plates }).metal!];
    expect(built.areaMm2).toBeCloseTo(bar.areaMm2, 9);
    expect(built.secondMomentYMm4).toBeCloseTo(bar.secondMomentYMm4, 4);
    const tube = { kind: 'round tube', outsideMm: 50, wallMm: 4 } as const;
    const oval = { kind: 'oval tube', widthMm: 50, depthMm: 50, wallMm: 4 } as const;
    const weld = [{ lies: 'along', atMm: [0, 23], joint: 'butt' }] as const;
    const areas = [tube, oval].map((shape) => yields({ ...tie, shape, welds: weld }).metal!.areaMm2);
    expect(areas[0]).toBeCloseTo(areas[1]!, 9);
  });

  it('an outline softens at least what the same bar of walls does, and little more', () => {
    const solid = yields({ ...tie, shape: outline(120, 6) }).metal!.areaMm2;
    const walls = yields(tie).metal!.areaMm2;
    // Around the point, not square to the wall: a disc of 20 mm in 6 mm of metal leaves out its corners.
    expect(Math.abs(solid - walls)).toBeLessThan(0.01 * walls);
  });

  it('welds given twice, in another order, or inside another’s zone change nothing', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -59, max: 59, noNaN: true }), { minLength: 1, maxLength: 4 }),
        (places) => {
          const welds = places.map((x) => ({ lies: 'along', atMm: [x, 0], joint: 'butt' }) as const);
          for (const shape of [tie.shape, outline(120, 6)]) {
            const area = (list: typeof welds) => yields({ ...tie, shape, welds: list }).metal!.areaMm2;
            expect(area([...welds].reverse())).toBeCloseTo(area(welds), 6);
            expect(area([...welds, ...welds])).toBeCloseTo(area(welds), 6);
            // One weld more never leaves more metal.
            expect(area(welds)).toBeLessThanOrEqual(area(welds.slice(1)) + 1e-6);
          }
        },
      ),
      { numRuns: 12 },
    );
  });

  it('turned by a right angle, bending changes its axis', () => {
    const angle = (turned: boolean): WeldedSection => {
      const at = (x: number, y: number) => (turned ? ([-y, x] as const) : ([x, y] as const));
      return {
        ...tie,
        shape: {
          kind: 'plates',
          plates: [
            { fromMm: at(0, 4), toMm: at(80, 4), thicknessMm: 8 },
            { fromMm: at(3, 8), toMm: at(3, 60), thicknessMm: 6 },
          ],
        },
        welds: [{ lies: 'along', atMm: at(3, 8), joint: 'fillet' }],
      };
    };
    const [a, b] = [yields(angle(false)).alone, yields(angle(true)).alone];
    expect(b.momentYNmm).toBeCloseTo(a.momentXNmm!, 3);
    expect(b.momentXNmm).toBeCloseTo(a.momentYNmm!, 3);
    expect(b.axialN).toBeCloseTo(a.axialN!, 6);
  });

  it('a part-way weld lies between none and one right across', () => {
    const tube: WeldedSection = {
      shape: { kind: 'round tube', outsideMm: 200, wallMm: 5 },
      form: 'extruded tube',
      welds: [{ lies: 'part-way', fromMm: [97.5, 0], toMm: [0, 97.5], joint: 'fillet' }],
    };
    const soft = supported(weldedResistance(tube, mig));
    // A quarter of the mid-line, and 20 mm × 3/3 beyond each end along chords.
    const reach = 2 * Math.asin(20 / (2 * 97.5));
    const wanted = (Math.PI / 2 + 2 * reach) * 97.5 * 5;
    // Points 2 mm apart stand for the line, and each reaches half a spacing farther, squared: up to 0.03 mm.
    expect(Math.abs(soft.softAreaMm2 - wanted)).toBeLessThan(0.6);
    const area = (welds: WeldedSection['welds']) => yields({ ...tube, welds }).metal!.areaMm2;
    expect(area(tube.welds)).toBeLessThan(area([]));
  });
});

describe('the free edge and the whole part', () => {
  it('a weld nearer to a free edge than three extents takes the outstand with it', () => {
    const soft = (x: number) =>
      supported(weldedResistance({ ...tie, welds: [{ lies: 'along', atMm: [x, 0], joint: 'butt' }] }, mig))
        .softAreaMm2 / 6;
    expect(soft(0)).toBeCloseTo(40, 9);
    // 59.9 mm from the edge is less than 60: the outstand of 59.9 mm goes soft, and 20 mm on the other side.
    expect(soft(0.1)).toBeCloseTo(59.9 + 20, 9);
  });
  it('a soft zone wider than the part makes all of it soft, and says so', () => {
    const narrow = supported(
      weldedResistance({ ...tie, shape: { kind: 'flat bar', widthMm: 30, thicknessMm: 6 } }, mig),
    );
    expect(narrow.softAreaMm2).toBeCloseTo(180, 9);
    expect(narrow.because.join(' ')).toContain('wider than the part');
  });
  it('TIG above 6 mm has no extent: unsupported, until one is measured', () => {
    const thick: WeldedSection = { ...tie, shape: { kind: 'flat bar', widthMm: 120, thicknessMm: 8 } };
    const tig = { ...mig, process: 'TIG' } as const;
    expect(weldedResistance(thick, tig)).toMatchObject({
      supported: false,
      why: expect.stringContaining('no TIG extent above 6 mm'),
      remedy: expect.stringContaining('extentMm'),
    });
    expect(yields(thick, { ...tig, extentMm: 20 }).metal!.areaMm2).toBeCloseTo(
      960 - 8 * 40 * (1 - 0.48 * 0.64),
      6,
    );
  });
});

describe('a modelled profile of the soft zone', () => {
  const profile = (low: number): KeptAtDistance[] =>
    [5, 10, 20, 30].map((distanceMm, i) => {
      const nominal = [0.6, 0.55, 0.7, 1][i]!;
      return { distanceMm, keptFraction: { nominal, low: i === 3 ? 1 : low, high: 1 } };
    });
  it('is never above the code without saying so', () => {
    const ask = (low: number) =>
      supported(weldedResistance(tie, { ...mig, code: 'soft-zone profile', profile: profile(low) }));
    expect(ask(0.6).because.join(' ')).toMatch(/ABOVE THE CODE: the model keeps 144 MPa where.*115 MPa/);
    expect(ask(0.4).because.join(' ')).toContain('where it is softest the model is not above it');
    expect(() => sectionFactor(ask(0.4), { axialN: 1 }, { on: 'rupture' })).toThrow(
      /nothing to count on rupture/,
    );
  });
  it('with one step is the code’s own strip', () => {
    const step = [20, 20.001].map((distanceMm, i) => ({
      distanceMm,
      keptFraction: { nominal: i ? 1 : 0.48, low: i ? 1 : 0.48, high: 1 },
    }));
    const area = yields(tie, { ...mig, code: 'soft-zone profile', profile: step }).metal!.areaMm2;
    expect(area).toBeCloseTo(yields(tie).metal!.areaMm2, 1);
  });
  it('answers for a casting on yield, and refuses a profile that runs inward', () => {
    const cast = { ...mig, alloy: 'A356.0', code: 'soft-zone profile' } as const;
    const section: WeldedSection = { ...tie, castBy: 'sand' };
    const found = supported(weldedResistance(section, { ...cast, profile: profile(0.4) }));
    expect(found.because.join(' ')).toContain('No code gives a strength to hold this against');
    expect(() => weldedResistance(section, { ...cast, profile: [...profile(0.4)].reverse() })).toThrow(
      /go outward/,
    );
    expect(() => weldedResistance(section, cast)).toThrow(/needs the profile/);
    expect(() => weldedResistance({ ...tie }, { ...cast, profile: profile(0.4) })).toThrow(
      /sand or permanent mould/,
    );
  });
});

describe('fillet groups', () => {
  const pair = [-1, 1].map((side) => ({
    fromMm: [-50, side * 30] as const,
    toMm: [50, side * 30] as const,
    throatMm: throatOfLeg(6),
  }));
  it('direct pull over the throats, and a round weld twisted: T r/J', () => {
    const pull = filletGroup(pair, { forceXN: 10_000 });
    expect(pull.vectorSumMPa).toBeCloseTo(10_000 / (200 * 6 * Math.SQRT1_2), 9);
    expect(pull.combinedMPa).toBeCloseTo(Math.sqrt(3) * pull.vectorSumMPa, 9);
    const round = filletGroup(roundFillet(60, 4), { torsionNmm: 1e6 });
    // J of a thin line weld: 2π r³ a; 72 chords hold it to a part in a thousand.
    expect(Math.abs(round.vectorSumMPa / (1e6 / (2 * Math.PI * 30 ** 2 * 4)) - 1)).toBeLessThan(2e-3);
  });
  it('a force off the centroid is a force and a twist', () => {
    const off = filletGroup(pair, { forceYN: 4000, atMm: [120, 0] });
    const both = filletGroup(pair, { forceYN: 4000, torsionNmm: 480_000 });
    expect(off).toEqual(both);
  });
  it('the vector sum is never below the book rule √((σ/2)² + τ²), nor above twice it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 1e4, noNaN: true }),
        fc.double({ min: 0, max: 1e4, noNaN: true }),
        (n, v) => {
          const sum = filletGroup(pair, { forceZN: n, forceXN: v }).vectorSumMPa;
          const area = 200 * 6 * Math.SQRT1_2;
          const book = Math.hypot(n / area / 2, v / area);
          expect(sum).toBeGreaterThanOrEqual(book * (1 - 1e-12));
          expect(sum).toBeLessThanOrEqual(2 * book * (1 + 1e-12));
        },
      ),
    );
  });
  it('a tube in a boss by a fillet: throat and leg are both checked', () => {
    const boss: WeldedSection = {
      shape: { kind: 'round tube', outsideMm: 60, wallMm: 3 },
      form: 'extruded tube',
      welds: [{ lies: 'across', joint: 'fillet', throatMm: 3 }],
    };
    const checks = supported(weldedResistance(boss, { ...mig, filler: '4043' })).checks;
    const throat = checks.find(({ name }) => name.startsWith('throat'))!;
    // √2 F/(π d a) against f_w.
    expect(throat.alone.axialN).toBeCloseTo((170 * Math.PI * 60 * 3) / Math.SQRT2, 3);
    expect(checks.some(({ name }) => name.startsWith('soft metal at the leg'))).toBe(true);
    const us = supported(weldedResistance(boss, { ...mig, code: 'Aluminum Design Manual', filler: '4043' }));
    const shear = supported(filletShearUs('4043')).shearMPa;
    expect(us.checks.find(({ name }) => name.startsWith('throat'))!.alone.axialN).toBeCloseTo(
      shear * Math.PI * 180,
      3,
    );
    expect(() => weldedResistance({ ...boss, welds: [{ lies: 'across', joint: 'fillet' }] }, mig)).toThrow(
      /throatMm/,
    );
  });
});

describe('bad input', () => {
  it.each([
    [
      'a weld off the section',
      { ...tie, welds: [{ lies: 'along', atMm: [80, 0], joint: 'butt' }] },
      /off the section/,
    ],
    [
      'an outline that crosses itself',
      {
        ...tie,
        shape: {
          kind: 'outline',
          thicknessMm: 5,
          cornersMm: [
            [0, 0],
            [10, 10],
            [10, 0],
            [0, 10],
          ],
        },
        welds: [],
      },
      /crosses itself/,
    ],
    [
      'plates that overlap',
      {
        ...tie,
        shape: {
          kind: 'plates',
          plates: [
            { fromMm: [0, 0], toMm: [50, 0], thicknessMm: 5 },
            { fromMm: [25, -20], toMm: [25, 20], thicknessMm: 5 },
          ],
        },
        welds: [],
      },
      /overlap/,
    ],
    [
      'walls that meet',
      { ...tie, shape: { kind: 'round tube', outsideMm: 20, wallMm: 12 }, welds: [] },
      /walls meet/,
    ],
    [
      'a wall of 3 m',
      { ...tie, shape: { kind: 'round tube', outsideMm: 60, wallMm: 3000 }, welds: [] },
      /wallMm/,
    ],
    [
      'an outline given in metres',
      {
        ...tie,
        shape: {
          kind: 'outline',
          thicknessMm: 5,
          cornersMm: [
            [0, 0],
            [0.1, 0],
            [0.1, 0.05],
          ],
        },
        welds: [],
      },
      /holds no metal/,
    ],
    [
      'a weld off an outline',
      { ...tie, shape: outline(40, 20), welds: [{ lies: 'along', atMm: [30, 0], joint: 'butt' }] },
      /off the section/,
    ],
    ['a shape nobody knows', { ...tie, shape: { kind: 'I beam' } }, /no such section/],
    ['a joint nobody knows', { ...tie, welds: [{ lies: 'across', joint: 'lap' }] }, /no known joint/],
    ['no welds said', { ...tie, welds: undefined }, /list of welds/],
  ] as unknown as [string, WeldedSection, RegExp][])('refuses %s', (_, section, message) => {
    expect(() => weldedResistance(section, mig)).toThrow(message);
  });
  it('200 ksi typed as MPa is refused by name, in own tests and as a stress', () => {
    const own = {
      proofMPa: 1379,
      ultimateMPa: 1400,
      softProofMPa: 80,
      softUltimateMPa: 140,
      extentMm: 30,
      because: 'Coupons.',
    };
    expect(() => weldedResistance(tie, { ...mig, code: 'own tests', own })).toThrow(/own.proofMPa.*5 to 700/);
    const load = { stressMPa: 1379, atMm: [0, 0] as const };
    expect(() => sectionFactor(supported(weldedResistance(tie, mig)), load, { on: 'yield' })).toThrow(
      /stressMPa.*1000/,
    );
  });
  it('a factor on an unsupported casting zone is no number, and says what to test instead', () => {
    const cast: WeldedSection = { ...tie, form: undefined, castBy: 'sand' };
    for (const code of ['EN 1999-1-1', 'Aluminum Design Manual'] as const)
      for (const alloy of ['A356.0', '356.0'])
        expect(weldedResistance(cast, { ...mig, alloy, code })).toMatchObject({
          supported: false,
          why: expect.stringContaining('no strength beside a weld in a casting'),
          remedy: expect.stringMatching(/Break welded coupons.*measure hardness/),
        });
  });
  it('a twist on a sharp inner corner is refused, not guessed; without one an outline is a bar', () => {
    const solid = supported(weldedResistance({ ...tie, shape: outline(40, 20), welds: [] }, mig));
    const bar = supported(
      weldedResistance({ ...tie, shape: { kind: 'flat bar', widthMm: 40, thicknessMm: 20 }, welds: [] }, mig),
    );
    const twist = (r: typeof bar) => sectionFactor(r, { torsionNmm: 1e5 }, { on: 'yield' }).factor.nominal;
    // Two meshes agree to 1 %.
    expect(Math.abs(twist(solid) / twist(bar) - 1)).toBeLessThan(0.01);
    const angle = [
      [0, 0],
      [40, 0],
      [40, 20],
      [20, 20],
      [20, 40],
      [0, 40],
    ] as const;
    const cut = { kind: 'outline', thicknessMm: 20, cornersMm: angle } as const;
    const sharp = supported(weldedResistance({ ...tie, shape: cut, welds: [] }, mig));
    expect(() => sectionFactor(sharp, { torsionNmm: 1 }, { on: 'yield' })).toThrow(
      /sharp inner corner.*\(20, 20\).*Draw its radius/,
    );
    expect(sectionFactor(sharp, { axialN: 1 }, { on: 'yield' }).factor.nominal).toBeGreaterThan(1);
    expect(sharp.checks[0]!.alone.torsionNmm).toBe(0);
  });
});

it('cautions name a detail class and a clause, and no number of cycles', () => {
  const thin: WeldedSection = {
    shape: { kind: 'channel', depthMm: 120, flangeMm: 60, wallMm: 3 },
    form: 'open profile',
    welds: [{ lies: 'across', joint: 'fillet', throatMm: 3 }],
  };
  const words = sectionCautions(supported(weldedResistance(thin, mig))).join(' ');
  expect(words).toMatch(/FAT 12/);
  expect(words).toMatch(/6\.3/);
  expect(words).toMatch(/lower flange.*would buckle before yielding.*class 4/);
  expect(words).not.toMatch(/cycles|years|life of/);
});

it('what highway supports allow is never read for another alloy, temper or mould', () => {
  for (const [alloy, temper, castBy] of [
    ['A356.0', 'T6', 'sand'],
    ['319.0', 'T6', 'sand'],
    ['6061', 'T6', 'sand'],
  ] as const)
    expect(castingAllowable(alloy, temper, castBy).supported).toBe(false);
});
