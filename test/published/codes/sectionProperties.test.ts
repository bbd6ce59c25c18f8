import { describe, expect, it } from 'vitest';
import published from '../../../data/published/section-properties.json';
import {
  propertiesOf,
  type SectionShape,
  sectionBody,
  shearStressPerN,
  torsionOf,
} from '../../../lib/section';

describe('section properties against SymPy (exact rational arithmetic)', () => {
  it.each(published.rows)('$name', (row) => {
    const found = propertiesOf(sectionBody(row.shape as unknown as SectionShape).moments);
    // Double precision on numbers of up to 1e7: nine digits are left after the parallel axes.
    const close = (a: number, b: number, scale: number) => expect(Math.abs(a - b)).toBeLessThan(1e-9 * scale);
    close(found.areaMm2, row.areaMm2, row.areaMm2);
    close(found.centroidMm[0], row.centroidMm[0]!, 100);
    close(found.centroidMm[1], row.centroidMm[1]!, 100);
    close(found.secondMomentXMm4, row.secondMomentXMm4, row.secondMomentXMm4);
    close(found.secondMomentYMm4, row.secondMomentYMm4, row.secondMomentYMm4);
    close(found.productMomentMm4, row.productMomentMm4, row.secondMomentYMm4);
  });
});

describe('torsion of rectangles (Timoshenko & Goodier)', () => {
  it.each(published.rectangleTorsion.rows)('b/t $ratio', ({ ratio, beta, alpha }) => {
    const shape = { kind: 'flat bar', widthMm: 10 * ratio, thicknessMm: 10 } as const;
    const { constantMm4, stressPerNmm } = torsionOf(shape)!;
    // The table prints three decimals.
    expect(Math.abs(constantMm4 / (10 * ratio * 1000) - beta)).toBeLessThan(6e-4);
    expect(Math.abs(1 / (stressPerNmm * 10 * ratio * 100) - alpha)).toBeLessThan(6e-4);
  });
});

describe('closed forms', () => {
  const tube = { kind: 'round tube', outsideMm: 60, wallMm: 5 } as const;
  it('round tube: A, I, J and peak shear', () => {
    const { areaMm2, secondMomentXMm4, secondMomentYMm4 } = propertiesOf(sectionBody(tube).moments);
    const fourth = 60 ** 4 - 50 ** 4;
    expect(areaMm2).toBeCloseTo((Math.PI / 4) * (3600 - 2500), 9);
    expect(secondMomentXMm4).toBeCloseTo((Math.PI / 64) * fourth, 5);
    expect(secondMomentYMm4).toBeCloseTo((Math.PI / 64) * fourth, 5);
    expect(torsionOf(tube)!.constantMm4).toBeCloseTo((Math.PI / 32) * fourth, 5);
    // τ = 4V/(3A) (R² + Rr + r²)/(R² + r²); the ring is drawn in chords of 4°, which costs 0.2 %.
    const exact = ((4 / 3 / areaMm2) * (900 + 750 + 625)) / (900 + 625);
    expect(Math.abs(shearStressPerN(sectionBody(tube), 'y') / exact - 1)).toBeLessThan(0.004);
  });
  it('flat bar: peak shear 1.5/A both ways', () => {
    const body = sectionBody({ kind: 'flat bar', widthMm: 120, thicknessMm: 6 });
    for (const direction of ['x', 'y'] as const)
      expect(shearStressPerN(body, direction)).toBeCloseTo(1.5 / 720, 9);
  });
  it('an oval tube as wide as deep is a round one, and its ends keep their closed form', () => {
    const round = sectionBody({ kind: 'oval tube', widthMm: 60, depthMm: 60, wallMm: 5 });
    expect(propertiesOf(round.moments).secondMomentXMm4).toBeCloseTo((Math.PI / 64) * (60 ** 4 - 50 ** 4), 4);
    const oval = propertiesOf(
      sectionBody({ kind: 'oval tube', widthMm: 100, depthMm: 60, wallMm: 5 }).moments,
    );
    const [solid, hole] = [60, 50].map((d) => (Math.PI / 64) * d ** 4 + (40 * d ** 3) / 12);
    expect(oval.secondMomentXMm4).toBeCloseTo(solid! - hole!, 4);
    expect(oval.areaMm2).toBeCloseTo((Math.PI / 4) * 1100 + 40 * 10, 9);
  });
  it('Bredt on a square tube: J = t (b − t)³; with round corners 4 A² t/s of the mid-line', () => {
    const square = { kind: 'rectangular tube', widthMm: 50, depthMm: 50, wallMm: 3 } as const;
    expect(torsionOf(square)!.constantMm4).toBeCloseTo(3 * 47 ** 3, 6);
    const enclosed = 47 ** 2 - (4 - Math.PI) * 4.5 ** 2;
    const around = 4 * 38 + 2 * Math.PI * 4.5;
    expect(torsionOf({ ...square, cornerMm: 6 })!.constantMm4).toBeCloseTo(
      (4 * enclosed ** 2 * 3) / around,
      6,
    );
  });
});
