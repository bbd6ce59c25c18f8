import { describe, expect, it } from 'vitest';
import { fitMetals, fitReport, memberText } from '../../../lib/kinetics';
import { drawOrder } from '../../../lib/kinetics/metals/fit/drawOrder';
import { correlatedSquares } from '../../../lib/kinetics/metals/fit/metalPosterior';
import { scoreSequence } from '../../../lib/kinetics/metals/fit/scoreSequence';
import { FITTED_COLUMNS } from '../../../lib/kinetics/metals/memberDraw';
import { memberTable } from '../../../lib/kinetics/metals/memberTable';
import { mean, seededRandom, standardDeviation } from '../../../lib/statistics';
import { inFull } from '../../setup/extent';
import { fc } from '../../setup/fc';

describe('a fit', () => {
  // Far too short to mean anything; long enough to go through every step of a real one.
  const short = () => fitMetals({ draws: 16, every: 1, warmUp: 120 });

  it('is the same from the same seed, and its text reads back', () => {
    const members = short();
    expect(short()).toEqual(members);
    expect(JSON.parse(memberText(members))).toEqual(members);
    expect(members.evidenceHash).toBe(memberTable().evidenceHash);
    expect(Object.keys(members.columns)).toEqual(Object.keys(memberTable().columns));
  });

  it('reports that nothing moved when nothing did', () => {
    for (const { before, after, shift } of fitReport(memberTable(), memberTable())) {
      expect(before).toEqual(after);
      if (shift !== null) expect(shift).toBe(0);
    }
  });
});

describe.runIf(inFull)('a fit with another seed', () => {
  // A sixth of the length of the committed one: its chains forget themselves in about 400 steps, so that it holds some 16
  // independent draws, and a mean lies within four standard errors of the committed one.
  it('agrees with the committed members within Monte Carlo error', () => {
    const independent = 16;
    const short = fitMetals({ draws: 64, every: 50, warmUp: 8000, seed: 7 });
    for (const column of FITTED_COLUMNS) {
      const committed = memberTable().columns[column]!;
      const error = standardDeviation([...committed]) / Math.sqrt(independent);
      expect(Math.abs(mean([...short.columns[column]!]) - mean([...committed])), column).toBeLessThan(
        4 * error,
      );
    }
  });
});

describe('its parts', () => {
  it('order: every draw once, and the first sixteen half from each half', () => {
    const random = seededRandom(3);
    const points = Array.from({ length: 256 }, () => [random.uniform(), random.uniform()]);
    const order = drawOrder(points, random);
    expect([...order].sort((a, b) => a - b)).toEqual(points.map((_, i) => i));
    const firsts = order.slice(0, 16).map((i) => points[i]![0]!);
    // The first halving is at the median of the first coordinate.
    const median = points.map(([x]) => x!).sort((a, b) => a - b)[128]!;
    expect(firsts.filter((x) => x < median)).toHaveLength(8);
  });

  it('scores: standard normal in every dimension', () => {
    const scores = scoreSequence(2048, 8);
    for (let k = 0; k < 8; k++) {
      const column = scores.map((row) => row[k]!);
      // The discrepancy of an additive recurrence of n points is of order ln n / n: 0.004, times the range of ±3.
      expect(Math.abs(mean(column))).toBeLessThan(0.02);
      expect(Math.abs(standardDeviation(column) - 1)).toBeLessThan(0.02);
    }
  });

  it('errors that go together: the closed form against the inverse by hand for two rows', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        (r, s, c) => {
          const byHand = (r * r - 2 * c * r * s + s * s) / (1 - c * c);
          expect(correlatedSquares([r, s], c)).toBeCloseTo(byHand, 8);
        },
      ),
    );
  });
});
