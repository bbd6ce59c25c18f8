import { afterEach, describe, expect, it, vi } from 'vitest';
import { readLog } from '../../lib/log';
import { refuseTooLarge } from '../../lib/log/bytes/sourceBytes';
import { TemperbookError } from '../../lib/quantity';
import { lines, rows } from './write';

describe('a file larger than memory', () => {
  it('is refused before it is read, with the size that would do', () => {
    expect(() => refuseTooLarge(250e6, 1e9, 'week.csv')).not.toThrow();
    const refuse = () => refuseTooLarge(251e6, 1e9, 'week.csv');
    expect(refuse).toThrow(TemperbookError);
    expect(refuse).toThrow(
      /week\.csv.*251 MB, with 1000 MB of memory free.*at most 250 MB.*Cut the log into parts/s,
    );
  });
});

describe('how far reading has come', () => {
  afterEach(() => {
    vi.restoreAllMocks();
  });
  /** 4 MB: some hundred chunks of the reader. */
  const bytes = lines(
    'Time (s),TC1 (°C)',
    rows(200_000, (i) => `${i},${(22 + (i % 100) / 10).toFixed(3)}`),
  );

  it('is told on a slow machine, ascending, at most twice a second', () => {
    let nowMs = 0;
    // Every look at the clock finds a tenth of a second gone.
    vi.spyOn(Date, 'now').mockImplementation(() => {
      nowMs += 100;
      return nowMs;
    });
    const told: [share: number, atMs: number][] = [];
    readLog(bytes, { onProgress: (share) => told.push([share, nowMs]) });
    expect(told.length).toBeGreaterThan(3);
    told.forEach(([share, atMs], k) => {
      expect(share).toBeGreaterThan(0);
      expect(share).toBeLessThanOrEqual(1);
      expect(atMs).toBeGreaterThan(2000);
      if (k === 0) return;
      expect(share).toBeGreaterThanOrEqual(told[k - 1]![0]);
      expect(atMs - told[k - 1]![1]).toBeGreaterThanOrEqual(500);
    });
  });

  it('is not told where reading is quick, and changes nothing', () => {
    vi.spyOn(Date, 'now').mockImplementation(() => 0);
    const told: number[] = [];
    const log = readLog(bytes, { onProgress: (share) => told.push(share) });
    expect(told).toEqual([]);
    expect(log).toEqual(readLog(bytes));
  });
});
