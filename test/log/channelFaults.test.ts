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
});
