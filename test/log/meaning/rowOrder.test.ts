import { describe, expect, it } from 'vitest';
import { readLog } from '../../../lib/log';
import { seededRandom } from '../../../lib/statistics';
import { lines, rows, times, weldC } from '../write';

const row = (t: number) => `${t},${weldC(t).toFixed(1)}`;
const own = (order: readonly number[]) => readLog(lines('Time (s),TC1 (°C)', order.map(row)));
const inOrder = rows(200, String).map(Number);

describe('rows in another order than their times', () => {
  it.each([1, 2, 3, 4, 5])('are refused when shuffled, whatever row comes first (seed %i)', (seed) => {
    const random = seededRandom(seed);
    const order = [...inOrder]
      .map((t) => [random.uniform(), t] as const)
      .sort(([a], [b]) => a - b)
      .map(([, t]) => t);
    expect(() => own(order)).toThrow(/Most rows stand in another order than their times/);
  });

  it('are put in order when newest first, or when few are late', () => {
    expect(times(own([...inOrder].reverse()))).toEqual(inOrder);
    const late = [...inOrder];
    late.splice(50, 0, ...late.splice(40, 3));
    expect(times(own(late))).toEqual(inOrder);
  });

  it('are recordings set apart by gaps when the clock starts anew', () => {
    const log = own([...inOrder.slice(0, 60), ...inOrder.slice(0, 60), ...inOrder.slice(0, 60)]);
    expect(log.restarts).toHaveLength(2);
  });
});

describe('a header that gives an interval', () => {
  const own = (line: string) => readLog(lines(line, 'Time,TC1 (°C)', rows(120, row)));

  it('other than the steps of a clock without a unit leaves the clock open', () => {
    const [open] = own('Sample interval: 5 s').openReadings;
    expect(open?.other.map(({ options }) => options.intervalS)).toContain(5);
  });

  it('that fits the steps settles them', () => expect(own('Sample interval: 1 s').openReadings).toEqual([]));
});
