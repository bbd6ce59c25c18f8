import { describe, expect, it } from 'vitest';
import { spreadLabels, spreadLabelsBeside } from '../../lib/figure/parts/spreadLabels';
import { fc } from '../setup/fc';

describe('spreadLabels', () => {
  it('does as its example says', () => {
    expect(spreadLabels([10, 12, 50], 10)).toEqual([6, 16, 50]);
  });

  it('keeps the gap and the order, and moves nothing that has room', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -500, max: 500, noNaN: true }), { maxLength: 20 }),
        fc.integer({ min: 1, max: 40 }),
        (wishes, gap) => {
          const placed = spreadLabels(wishes, gap);
          const order = wishes.map((_, i) => i).sort((a, b) => wishes[a]! - wishes[b]! || a - b);
          for (let k = 1; k < order.length; k++) {
            const apart = placed[order[k]!]! - placed[order[k - 1]!]!;
            expect(apart).toBeGreaterThanOrEqual(gap - 1e-6);
          }
          const roomy = order.every((i, k) => k === 0 || wishes[i]! - wishes[order[k - 1]!]! >= gap);
          if (roomy) for (const [i, at] of placed.entries()) expect(at).toBeCloseTo(wishes[i]!, 9);
        },
      ),
      { seed: 11 },
    );
  });
});

describe('spreadLabelsBeside', () => {
  it('does as its example says', () => {
    expect(spreadLabelsBeside([10, 30], 10, [{ from: 4, to: 14 }])).toEqual([19, 30]);
  });

  it('keeps the gap, and clear of what is taken', () => {
    const px = fc.double({ min: -500, max: 500, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(px, { maxLength: 9 }),
        px,
        fc.double({ min: 0, max: 60, noNaN: true }),
        (wishes, from, high) => {
          const placed = spreadLabelsBeside(wishes, 16, [{ from, to: from + high }]);
          const sorted = [...placed].sort((a, b) => a - b);
          sorted.slice(1).forEach((at, i) => {
            expect(at - sorted[i]!).toBeGreaterThanOrEqual(16 - 1e-6);
          });
          for (const at of placed)
            expect(Math.max(from - 8 - at, at - (from + high + 8))).toBeGreaterThanOrEqual(-1e-6);
        },
      ),
      { seed: 12 },
    );
  });
});
