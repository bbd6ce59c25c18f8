import { describe, expect, it } from 'vitest';
import { readLog } from '../../lib/log';
import { channel, lines, rows } from './write';

/** Three probes on one part, invented; rows once a second, a 22 °C room, one weld at 60 s. */
const hot = (t: number, riseC: number) =>
  t < 60 ? 22 : 22 + riseC * Math.min(1, (t - 60) / 20) * Math.exp(-Math.max(0, t - 80) / 600);
const log = (third: (t: number) => number, count = 400) =>
  readLog(
    lines(
      'Time (s),TC1 (°C),TC2 (°C),TC3 (°C)',
      rows(count, (i) => [i, hot(i, 220).toFixed(1), hot(i, 180).toFixed(1), third(i).toFixed(1)].join()),
    ),
  );

describe('a channel that stops telling of the part', () => {
  it('fades to the air over nine seconds', () => {
    const fades = (t: number) =>
      t < 120 ? hot(t, 160) : 22 + (hot(120, 160) - 22) * Math.exp(-(t - 120) / 3);
    const read = log(fades);
    const [fault] = channel(read, 'TC3').faults;
    expect(fault).toMatchObject({ kind: 'let go' });
    expect(fault!.fromS).toBeLessThanOrEqual(125);
    expect(channel(read, 'TC3').history.timeS.at(-1)).toBeLessThan(125);
    expect(channel(read, 'TC1').faults).toEqual([]);
  });

  it('a quench of the whole part is none', () => {
    const quenched = (t: number, riseC: number) =>
      t < 200 ? hot(t, riseC) : 22 + (hot(200, riseC) - 22) * Math.exp(-(t - 200) / 3);
    const read = readLog(
      lines(
        'Time (s),TC1 (°C),TC2 (°C)',
        rows(400, (i) => `${i},${quenched(i, 220).toFixed(1)},${quenched(i, 160).toFixed(1)}`),
      ),
    );
    expect(read.channels.flatMap(({ faults }) => faults)).toEqual([]);
  });

  it('freezes while hot', () => {
    const read = log((t) => hot(Math.min(t, 100), 160));
    expect(channel(read, 'TC3').faults).toMatchObject([{ kind: 'frozen', fromS: 101, toS: 399 }]);
    expect(channel(read, 'TC3').faults[0]!.reason).toMatch(/stopped measuring/);
  });

  it('stays at the room while it is cold and far from the arc: no fault', () =>
    expect(
      channel(
        log((t) => hot(t - 200, 60)),
        'TC3',
      ).faults,
    ).toEqual([]));

  it('stays below 40 °C while all others pass 900 °C', () => {
    const furnace = (t: number) => 22 + 900 * (1 - Math.exp(-t / 60));
    const read = readLog(
      lines(
        'Time (s),TC1 (°C),TC2 (°C),TC3 (°C)',
        rows(400, (i) =>
          [
            i,
            furnace(i).toFixed(1),
            (furnace(i) + 3).toFixed(1),
            (22 + 16 * Math.sin(i / 254)).toFixed(1),
          ].join(),
        ),
      ),
    );
    expect(channel(read, 'TC3').faults).toMatchObject([{ kind: 'dead channel' }]);
  });

  it('is clamped at the low end with noise in its last digits', () => {
    const jitter = (i: number) => 0.1 * ((i * 7) % 5);
    const ir = (t: number) => Math.max(149 + jitter(t), hot(t % 1300, 260) + 30);
    const read = readLog(
      lines(
        'Time (s),TC1 (°C)',
        rows(2600, (i) => `${i},${ir(i).toFixed(1)}`),
      ),
    );
    expect(read.channels[0]!.faults.map(({ kind }) => kind)).toContain('clamped');
    expect(Math.min(...read.channels[0]!.history.tempC)).toBeGreaterThan(149.5);
  });

  /** Rises of 60 K/s and slow cooling, read ten times a second by a module whose range ends at `topC`, with noise on its last digits. */
  const weldUnder = (topC: number) =>
    readLog(
      lines(
        'Time (s),TC1 (°C)',
        rows(3000, (i) => {
          const t = i / 10;
          const metal = t < 20 ? 22 : t < 27 ? 22 + 60 * (t - 20) : 22 + 420 * Math.exp((27 - t) / 90);
          const jitter = 0.1 * ((i * 7) % 5);
          return `${t},${(Math.min(metal, topC) + jitter).toFixed(1)}`;
        }),
      ),
    ).channels[0]!;

  it('is clamped at the high end with noise in its last digits, where it runs into it at full slope', () => {
    const clamped = weldUnder(300);
    expect(clamped.faults.map(({ kind }) => kind)).toEqual(['clamped']);
    expect(clamped.faults[0]!.reason).toMatch(/300\.4 °C.*full slope.*top of the instrument's range/);
    expect(Math.max(...clamped.history.tempC)).toBeLessThan(300);
    expect(weldUnder(600).faults).toEqual([]);
  });

  it.each([0.3, 0.7, 1, 2, 5, 20])(
    'is not clamped in a bath that it follows with %d rows of lag',
    (lagRows) => {
      const bath = readLog(
        lines(
          'Time (s),TC1 (°C)',
          rows(400, (i) => {
            const metal = i < 50 ? 20 : 20 + 250 * (1 - Math.exp((50 - i) / lagRows));
            return `${i / 2},${(metal + 0.1 * ((i * 7) % 5)).toFixed(1)}`;
          }),
        ),
      ).channels[0]!;
      expect(bath.faults.map(({ kind }) => kind)).not.toContain('clamped');
    },
  );

  it('is not clamped in a furnace that is set to rise and to hold', () => {
    const furnace = readLog(
      lines(
        'Time (s),TC1 (°C)',
        rows(600, (i) => `${i * 10},${(Math.min(20 + 3 * i, 540) + 0.1 * ((i * 7) % 5)).toFixed(1)}`),
      ),
    ).channels[0]!;
    expect(furnace.faults).toEqual([]);
  });
});
