import { describe, expect, it } from 'vitest';
import { isInstalled } from './installed';

/** The little of danfojs that is asked here. */
interface Frame {
  readonly values: unknown[][];
  readonly index: unknown[];
  readonly columns: string[];
  readonly T: Frame;
  describe(): Frame;
  groupby(columns: string[]): { col(columns: string[]): { [of in 'mean' | 'std' | 'count']: () => Frame } };
  sortValues(column: string, options: { ascending: boolean }): Frame;
  sample(count: number, options: { seed: number }): Promise<Frame>;
  [does: string]: unknown;
}
const danfo = require('danfojs-node');
const frame = (rows: object[]): Frame => new danfo.DataFrame(rows);
const toldBy = (of: Frame): Record<string, unknown> =>
  Object.fromEntries(of.index.map((name, i) => [String(name), of.values[i]![0]]));

const ROWS = [
  { bench: 'one', peak: 240.5, clock: 1700000000123 },
  { bench: 'two', peak: 310, clock: 1700000000250 },
  { bench: 'one', peak: 265.5, clock: 1700000000377 },
];

// Stands against answers worked out by hand and, in comments, what the packages that were replaced gave.
describe.runIf(isInstalled)('data frames of the notebooks', () => {
  it('describe a column: mean, spread of a sample, median', () => {
    // mathjs 9.5.2: 272, 35.2029..., 265.5
    const told = toldBy(frame(ROWS.map(({ peak }) => ({ peak }))).describe());
    expect(told).toMatchObject({
      count: 3,
      mean: 272,
      min: 240.5,
      max: 310,
      median: 265.5,
      variance: 1239.25,
    });
    expect(told.std).toBeCloseTo(Math.sqrt(1239.25), 9);
  });

  it('group, and sort', () => {
    const groups = frame(ROWS).groupby(['bench']).col(['peak']);
    expect(groups.mean().values).toEqual([
      ['one', 253],
      ['two', 310],
    ]);
    expect(groups.count().values).toEqual([
      ['one', 2],
      ['two', 1],
    ]);
    expect(groups.std().values[1]).toEqual(['two', 0]);
    const sorted = frame(ROWS).sortValues('peak', { ascending: false });
    expect(sorted.values.map(([, peak]) => peak)).toEqual([310, 265.5, 240.5]);
  });

  it('export text that has every digit', () => {
    expect(danfo.toCSV(frame(ROWS), { download: false }).split('\n').slice(0, 2)).toEqual([
      'bench,peak,clock',
      'one,240.5,1700000000123',
    ]);
  });

  it.each([
    ['add', [[11, 22]], [[1, -2]], [[12, 20]]],
    ['sub', [[11, 22]], [[1, -2]], [[10, 24]]],
    ['mul', [[11, 22]], [[1, -2]], [[11, -44]]],
    ['div', [[11, 22]], [[2, -2]], [[5.5, -11]]],
    ['pow', [[2, 3]], [[3, 2]], [[8, 9]]],
    // The remainder takes the divisor's sign.
    ['mod', [[7, -7]], [[3, 3]], [[1, 2]]],
    ['gt', [[1, 3]], [[2, 2]], [[false, true]]],
    ['le', [[1, 3]], [[1, 2]], [[true, false]]],
    ['eq', [[1, 3]], [[1, 2]], [[true, false]]],
    ['ne', [[1, 3]], [[1, 2]], [[false, true]]],
  ])('%s two frames', (does, a, b, expected) => {
    const [left, right] = [new danfo.DataFrame(a), new danfo.DataFrame(b)];
    expect(left[does](right).values).toEqual(expected);
  });

  it('work with a number, a row and a column', () => {
    const table = new danfo.DataFrame([
      [1, 2],
      [3, 4],
    ]);
    expect(table.add(10).values).toEqual([
      [11, 12],
      [13, 14],
    ]);
    expect(table.add([10, 20], { axis: 1 }).values).toEqual([
      [11, 22],
      [13, 24],
    ]);
    expect(table.add([10, 20], { axis: 0 }).values).toEqual([
      [11, 12],
      [23, 24],
    ]);
    expect(() => table.add([1, 2, 3], { axis: 1 })).toThrow('could not be broadcast');
  });

  it('keep the milliseconds of a clock, which single precision would lose', () => {
    const clock = new danfo.DataFrame([[1700000000123], [1700000000250]]);
    expect(clock.add(1).values).toEqual([[1700000000124], [1700000000251]]);
    expect(clock.diff(1).values[1]).toEqual([127]);
  });

  it('scale, take a sample by its seed, and find the largest', async () => {
    expect(new danfo.MinMaxScaler().fitTransform([1, 2, 3, 4, 5])).toEqual([0, 0.25, 0.5, 0.75, 1]);
    const [low] = new danfo.StandardScaler().fitTransform([1, 2, 3]);
    expect(low).toBeCloseTo(-Math.sqrt(1.5), 12);
    const taken = await frame(ROWS).sample(2, { seed: 3 });
    expect((await frame(ROWS).sample(2, { seed: 3 })).values).toEqual(taken.values);
    expect(new Set(taken.values.map(([, peak]) => peak)).size).toBe(2);
    expect(new danfo.Series([3, 9, 1]).argMax()).toBe(1);
  });
});
