import { describe, expect, it } from 'vitest';
import {
  type Point,
  propertiesOf,
  type ResistanceOptions,
  type SectionFactor,
  sectionBody,
  sectionCautions,
  sectionFactor,
  sizeSection,
  type WeldedResistance,
  type WeldedSection,
  weldedResistance,
} from '../../lib/section';
import { supported } from './supported';

const mig: ResistanceOptions = {
  alloy: '6061',
  temper: 'T6',
  process: 'MIG',
  filler: '4043',
  code: 'EN 1999-1-1',
};
const row = ({ table }: SectionFactor, name: string) =>
  table.find(({ check }) => check.includes(name))!.factor;

describe('shear flow in fillets that join plates of one section (VQ/I)', () => {
  /** A tee: flange 100 × 8 over a web 6 × 80, a fillet on either side of the web. */
  const tee = (throats: readonly number[], turned = false): WeldedSection => {
    const at = ([x, y]: Point): Point => (turned ? [-y, x] : [x, y]);
    return {
      shape: {
        kind: 'plates',
        plates: [
          { fromMm: at([-50, 4]), toMm: at([50, 4]), thicknessMm: 8, name: 'flange' },
          { fromMm: at([0, 0]), toMm: at([0, -80]), thicknessMm: 6, name: 'web' },
        ],
      },
      form: 'open profile',
      welds: throats.map((throatMm, k) => ({
        lies: 'along',
        atMm: at([k ? 3 : -3, 0]),
        joint: 'fillet',
        throatMm,
      })),
    };
  };
  const flow = (section: WeldedSection, load: object, options = mig): number =>
    row(
      sectionFactor(supported(weldedResistance(section, options)), load, { on: 'rupture' }),
      'shear flow in',
    );

  it('is V Q/(I Σa) by hand, against f_w/√3', () => {
    const { secondMomentXMm4, centroidMm } = propertiesOf(sectionBody(tee([4]).shape).moments);
    // 170 MPa is 4043 on 6061 by the code's table 8.8.
    const perMm = (2000 * 800 * (4 - centroidMm[1])) / secondMomentXMm4;
    expect(flow(tee([4, 4]), { shearYN: 2000 })).toBeCloseTo((170 / Math.sqrt(3) / perMm) * 8, 6);
  });
  it('two fillets share it, one alone has twice, turned by a right angle it is the same', () => {
    const both = flow(tee([4, 4]), { shearYN: 2000 });
    expect(flow(tee([4]), { shearYN: 2000 })).toBeCloseTo(both / 2, 9);
    expect(flow(tee([3, 5]), { shearYN: 2000 })).toBeCloseTo(both, 9);
    expect(flow(tee([4, 4], true), { shearXN: 2000 })).toBeCloseTo(both, 6);
  });
  it('asks nothing under tension or a shear across the web’s own axis of symmetry', () => {
    expect(flow(tee([4, 4]), { axialN: 1e5 })).toBeGreaterThan(1e6);
    expect(flow(tee([4, 4]), { shearXN: 2000 })).toBeGreaterThan(1e6);
  });
  it('the US fillet strength is asked too, and without a throat the answer says what is missing', () => {
    expect(flow(tee([4, 4]), { shearYN: 2000 }, { ...mig, code: 'Aluminum Design Manual' })).toBeGreaterThan(
      1,
    );
    const bare = tee([4, 4]);
    const words = supported(
      weldedResistance({ ...bare, welds: bare.welds.map(({ throatMm: _, ...weld }) => weld) }, mig),
    ).because.join(' ');
    expect(words).toContain('without a throat (throatMm) is not checked for shear flow');
  });
  it('a box shares the shear between its joints: said, not guessed', () => {
    const box: WeldedSection = {
      shape: {
        kind: 'plates',
        plates: [
          { fromMm: [-50, 47], toMm: [50, 47], thicknessMm: 6 },
          { fromMm: [-50, -47], toMm: [50, -47], thicknessMm: 6 },
          { fromMm: [-40, -44], toMm: [-40, 44], thicknessMm: 6 },
          { fromMm: [40, -44], toMm: [40, 44], thicknessMm: 6 },
        ],
      },
      form: 'open profile',
      welds: [{ lies: 'along', atMm: [43, 44], joint: 'fillet', throatMm: 4 }],
    };
    const found = supported(weldedResistance(box, mig));
    expect(found.checks.some(({ name }) => name.startsWith('shear flow'))).toBe(false);
    expect(found.because.join(' ')).toContain('no part of the section hangs on them alone');
  });
});

describe('weld metal of a part-way butt weld', () => {
  const partWay = (toX: number, filler: string): WeldedResistance =>
    supported(
      weldedResistance(
        {
          shape: { kind: 'flat bar', widthMm: 200, thicknessMm: 6 },
          form: 'open profile',
          welds: [{ lies: 'part-way', fromMm: [-toX, 0], toMm: [toX, 0], joint: 'butt' }],
        },
        { ...mig, filler },
      ),
    );
  const pull = (resistance: WeldedResistance, name: string): number =>
    resistance.checks.find((check) => check.name.includes(name))!.alone.axialN!;
  it('weaker weld metal governs over the soft metal, stronger does not', () => {
    const weak = partWay(30, '4043');
    // Soft 6061-T6 keeps 175 of 260 MPa at rupture, 4043 has 170: 2 × (30 + 20) mm of the soft zone at 170.
    const soft = (weak.softAreaMm2 * 170) / 260;
    expect(pull(weak, 'part-way')).toBeCloseTo(260 * (1200 - weak.softAreaMm2 + soft), 0);
    expect(pull(weak, 'part-way')).toBeLessThan(pull(weak, 'rupture of the section'));
    const strong = partWay(30, '5356');
    expect(pull(strong, 'part-way')).toBeCloseTo(pull(strong, 'rupture of the section'), 3);
  });
  it('right across, it comes to what a weld across carries', () => {
    expect(pull(partWay(100, '4043'), 'part-way')).toBeCloseTo(170 * 1200, 3);
  });
});

describe('walls that buckle before they yield', () => {
  const tube = (welded: boolean): WeldedSection => ({
    shape: { kind: 'rectangular tube', widthMm: 100, depthMm: 100, wallMm: 2.5 },
    form: 'hollow profile',
    welds: welded ? [{ lies: 'across', joint: 'butt' }] : [],
  });
  it('unwelded: count with ρ = 32/x − 220/x² of their thickness (TALAT 2301, example 8.2 b)', () => {
    const bare = supported(weldedResistance(tube(false), mig));
    const x = 38 / Math.sqrt(250 / 240);
    const rho = 32 / x - 220 / x ** 2;
    expect(bare.localClasses[0]!.effectiveShare).toBeCloseTo(rho, 9);
    const push = sectionFactor(bare, { axialN: -1000 }, { on: 'yield' });
    expect(push.slenderWalls).toEqual([]);
    // Upper and lower wall over the full width, the others between them: 2 × 100 + 2 × 95 mm, all thinned alike.
    expect(push.factor.nominal).toBeCloseTo((240 * 390 * 2.5 * rho) / 1000, 6);
    expect(sectionFactor(bare, { axialN: 1000 }, { on: 'yield' }).factor.nominal).toBeCloseTo(
      (240 * 390 * 2.5) / 1000,
      6,
    );
    expect(sectionFactor(bare, { axialN: -1000 }, { on: 'rupture' }).factor.nominal).toBeCloseTo(
      push.factor.nominal,
      9,
    );
    expect(sectionCautions(bare).join(' ')).toMatch(/class 4 and counted with 70 % of the thickness/);
  });
  it('welded: no reduced thickness is known, the size is refused and says why', () => {
    const welded = supported(weldedResistance(tube(true), mig));
    expect(sectionFactor(welded, { axialN: -1000 }, { on: 'yield' }).slenderWalls).toContain('left wall');
    expect(sectionCautions(welded).join(' ')).toMatch(
      /do not hold for it: .*welded wall has other constants/,
    );
  });
  it('without a weld a size may be thin enough for class 4', () => {
    const size = supported(sizeSection(tube(false), { axialN: -20_000 }, { ...mig, factor: 4, on: 'yield' }));
    expect(size.least!.slenderWalls).toEqual([]);
    expect(size.least!.thicknessMm).toBeLessThan(100 / (22 * Math.sqrt(250 / 240) + 2));
    expect(size.least!.governs!.check).toContain('slender walls thinned');
  });
});
