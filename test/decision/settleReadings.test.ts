import { describe, expect, it } from 'vitest';
import { judge, settleReadings } from '../../lib/decision';
import { type ReadOptions, readLog, undecidedError } from '../../lib/log';

const PART = { alloy: 'A356.0', temper: 'T6' };
/** A hump of 20 rows; what a row is long, nothing says. */
const hump = (head: string, peak: number, row: (i: number, tempC: number) => string) =>
  Buffer.from(
    [
      head,
      ...Array.from({ length: 150 }, (_, i) =>
        row(
          i,
          i < 10 ? 22 : 22 + (peak - 22) * Math.min(1, (i - 10) / 10) * Math.exp(-Math.max(0, i - 20) / 30),
        ),
      ),
      '',
    ].join('\n'),
  );
const bare = (peak: number) => hump('Time,TC1 (°C)', peak, (i, t) => `${i},${t.toFixed(1)}`);
const settle = (bytes: Uint8Array, options: ReadOptions = {}) =>
  settleReadings(readLog(bytes, options), (other) => readLog(bytes, other), PART);

describe('readings of a file that it leaves open', () => {
  it('are taken for the likeliest where every way leads to the same word', () => {
    const bytes = hump('Time (s),TC1', 60, (i, t) => `${i},${(t + 18).toFixed(1)}`);
    expect(judge(readLog(bytes), PART).verdict).toBe('uncertain');
    const { log, undecided, same } = settle(bytes);
    expect(undecided).toBeUndefined();
    expect(same.join()).toMatch(
      /^Nothing says in which unit "TC1" is\. It is read as °C; read as °F the word is the same\.$/,
    );
    expect(log.notes).toContain(same[0]);
    expect(judge(log, PART).verdict).toBe('kept');
  });

  it('are put side by side where the word hangs on them', () => {
    const { undecided } = settle(bare(235));
    expect(undecided!.reading.option).toBe('clock.format');
    const words = new Map(undecided!.ways.map((way) => [way.options.clock!.format, way.verdicts.join()]));
    expect(words.get('min')).toBe('uncertain, check it');
    expect(words.get('s')).toBe('temper kept');
    expect(undecidedError(undecided!).message).toMatch(
      /The word hangs on it.*seconds \(.*: temper kept; minutes \(.*: uncertain, check it.*option clock\.format.*\{"clock":\{"format":"s"\}\} for seconds.*\{"clock":\{"format":"min"\}\} for minutes/s,
    );
    // Chosen, it is decided.
    for (const way of undecided!.ways) {
      const bytes = bare(235);
      const chosen = settle(bytes, way.options);
      expect(chosen.undecided).toBeUndefined();
      expect(judge(chosen.log, PART).verdict).toBe(judge(readLog(bytes, way.options), PART).verdict);
    }
  });

  it('that stand together are judged together', () => {
    // Neither the unit nor the clock is said.
    const bytes = hump('Time,TC1', 235, (i, t) => `${i},${(t + 40).toFixed(1)}`);
    expect(
      readLog(bytes)
        .openReadings.map(({ option }) => option)
        .sort(),
    ).toEqual(['clock.format', 'unit']);
    const seen = new Set<string>();
    let options: ReadOptions = {};
    for (;;) {
      const { undecided, log } = settle(bytes, options);
      if (!undecided) {
        expect(log.openReadings).toEqual([]);
        break;
      }
      expect(seen.has(undecided.reading.option)).toBe(false);
      seen.add(undecided.reading.option);
      options = undecided.ways.at(-1)!.options;
    }
    expect(seen.size).toBeGreaterThan(0);
  });

  it('leave a log without any as it is', () => {
    const log = readLog(hump('Time (s),TC1 (°C)', 60, (i, t) => `${i},${t.toFixed(1)}`));
    expect(settleReadings(log, () => log, PART)).toEqual({ log, same: [] });
  });
});
