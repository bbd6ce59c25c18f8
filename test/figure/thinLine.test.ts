import { expect, it } from 'vitest';
import { type Dot, thinLine } from '../../lib/figure/svg/thinLine';
import { fc } from '../setup/fc';

it('keeps ends and extremes, and moves no point by more than the tolerance', () => {
  const dot = fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 200 }));
  fc.assert(
    fc.property(fc.array(dot, { minLength: 1, maxLength: 60 }), (dots) => {
      const thin = thinLine(dots, 2);
      expect([thin[0], thin.at(-1)]).toEqual([dots[0], dots.at(-1)]);
      let at = 0;
      for (const point of dots) {
        if (point === thin[at + 1]) at += 1;
        if (at + 1 < thin.length) expect(offLine(point, thin[at]!, thin[at + 1]!)).toBeLessThanOrEqual(2.01);
      }
    }),
    { seed: 13 },
  );
});

it('draws ten thousand points of a ramp as its ends', () => {
  expect(
    thinLine(
      Array.from({ length: 10_000 }, (_, i): Dot => [i, 2 * i]),
      0.1,
    ),
  ).toEqual([
    [0, 0],
    [9999, 19_998],
  ]);
});

/** Distance to the stretch, by trying it in a thousand places: above the true one by a hundredth at most. */
function offLine([x, y]: Dot, [x0, y0]: Dot, [x1, y1]: Dot): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k <= 1000; k++)
    least = Math.min(least, Math.hypot(x - x0 - (k / 1000) * (x1 - x0), y - y0 - (k / 1000) * (y1 - y0)));
  return least;
}
