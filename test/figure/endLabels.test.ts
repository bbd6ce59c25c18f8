import { describe, expect, it } from 'vitest';
import { endLabels } from '../../lib/figure/parts/endLabels';

describe('endLabels', () => {
  const label = (text: string, at: number, stopsAtX?: number) => ({
    text,
    look: 0,
    at,
    ...(stopsAtX === undefined ? {} : { stops: { atX: stopsAtX, side: 'above' } as const }),
  });
  /** Where a label ends up, px down. */
  const placedPx = ({ y, ay }: { y: number; ay?: number }) => -y + (ay ?? 0);

  it('moves names of lines that end together apart, at the edge and short of it', () => {
    for (const stop of [undefined, 47]) {
      const labels = endLabels([label('107 %', 107, stop), label('105 %', 105, stop)], 'y', 1);
      const [upper, lower] = labels.map(placedPx);
      expect(lower! - upper!).toBeGreaterThanOrEqual(15 - 0.1);
    }
  });

  it('leaves a name alone where another line ends elsewhere', () => {
    const labels = endLabels([label('107 %', 107, 47), label('106 %', 106, 70)], 'y', 1);
    expect(labels[0]!.ay).toBe(labels[1]!.ay);
  });

  it('names a line that stops early beside its end, not on the lines that go on there', () => {
    const [stopped, ...others] = endLabels([label('a', 100, 47), label('b', 100), label('c', 98)], 'y', 1);
    for (const other of others) expect(Math.abs(placedPx(stopped!) - -other.y)).toBeGreaterThan(15);
  });
});
