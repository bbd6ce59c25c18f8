import { describe, expect, it } from 'vitest';
import { factorFigure, sectionFigure, staticSvg } from '../../lib/figure';
import {
  factorCurve,
  type SizeOptions,
  sectionFactor,
  sizeSection,
  type WeldedSection,
  weldedResistance,
} from '../../lib/section';

const channel: WeldedSection = {
  shape: { kind: 'channel', depthMm: 120, flangeMm: 60, wallMm: 5 },
  form: 'open profile',
  welds: [{ lies: 'along', atMm: [0, 0], joint: 'fillet' }],
};
const options: SizeOptions = {
  alloy: '6061',
  temper: 'T6',
  process: 'MIG',
  code: 'EN 1999-1-1',
  factor: 4,
  on: 'yield',
};
const load = { momentXNmm: 8e5, doubtFraction: 0.2 };
const now = weldedResistance(channel, options);
if (!now.supported) throw new Error(now.why);

describe('sectionFigure', () => {
  const factor = sectionFactor(now, load, options);
  const figure = sectionFigure(now, { factor });
  it('draws to scale: one scale on both axes, and the soft strip where and as large as it was computed', () => {
    const { xaxis, yaxis } = figure.layout;
    expect(yaxis!.scaleanchor).toBe('x');
    expect(xaxis!.range![1] - xaxis!.range![0]).toBeCloseTo(2 * (yaxis!.range![1] - yaxis!.range![0]), 9);
    const soft = figure.data.filter(({ name }) => name === 'soft zone');
    expect(soft).toHaveLength(1);
    const [ys, xs] = [soft[0]!.y as number[], soft[0]!.x as number[]];
    expect((Math.max(...ys) - Math.min(...ys)) * (Math.max(...xs) - Math.min(...xs))).toBeCloseTo(
      now.softAreaMm2,
      6,
    );
    expect(Math.max(...ys)).toBeCloseTo(20, 9);
  });
  it('marks the governing point on the metal and names it', () => {
    const point = figure.data.find(({ name }) => name === 'governs')!;
    expect([point.x![0], point.y![0]]).toEqual([...factor.governs.atMm]);
    expect(
      figure.layout.annotations!.some(({ text }) => text.includes(factor.factor.nominal.toFixed(2))),
    ).toBe(true);
  });
  it('is drawn without a browser', () => expect(staticSvg(figure)).not.toContain('NaN'));
});

it('a full ring has no seam: two circles, nothing drawn across the wall', () => {
  const tube = weldedResistance(
    {
      shape: { kind: 'round tube', outsideMm: 60, wallMm: 3 },
      form: 'extruded tube',
      welds: [{ lies: 'across', joint: 'butt' }],
    },
    options,
  );
  if (!tube.supported) throw new Error(tube.why);
  const lines = sectionFigure(tube).data.filter(({ line, name }) => line?.width === 0.8 && !name);
  const radii = lines.map(({ x, y }) => x!.map((px, k) => Math.hypot(px as number, y![k] as number)));
  expect(radii).toHaveLength(2);
  for (const [k, wanted] of [30, 27].entries())
    for (const radius of radii[k]!) expect(radius).toBeCloseTo(wanted, 9);
});

describe('factorFigure', () => {
  const curve = factorCurve(channel, load, options, { fromMm: 1, toMm: 20, count: 100 });
  const size = sizeSection(channel, load, options);
  if (!size.supported) throw new Error(size.why);
  const figure = factorFigure(curve, { present: size.present, chosen: size.stock });
  it('lifts the pen at every step of the code and draws what buckles first apart', () => {
    const line = figure.data.find(({ name }) => name === 'factor')!;
    const dashed = figure.data.find(({ name }) => name === 'factor if no wall buckled')!;
    for (const [i, thickness] of line.x!.entries()) {
      if (thickness === null) continue;
      const at = curve.points.find((point) => point.thicknessMm === thickness)!;
      expect([line.y![i], dashed.y![i]]).toEqual(
        at.slenderWalls.length > 0 ? [null, at.factor!.nominal] : [at.factor!.nominal, null],
      );
    }
    const steps = figure.layout.annotations!.filter(({ text }) => text.startsWith('step at'));
    expect(steps.map(({ text }) => text)).toEqual(['step at 6 mm', 'step at 12 mm', 'step at 15 mm']);
  });
  it('is drawn without a browser', () => expect(staticSvg(figure)).not.toContain('NaN'));
});
