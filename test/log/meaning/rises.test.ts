import { describe, expect, it } from 'vitest';
import { readLog } from '../../../lib/log';
import { lines, rows, temps, weldC } from '../write';

/** The rise at 1 Hz: exactly 0.0 until the arc starts, then 45 K each second. */
const rise = (t: number) => weldC(t) - 22;
const own = (head: string, row: (t: number) => string) =>
  lines(
    head,
    rows(120, (t) => `${t},${row(t)}`),
  );

describe('rises over the room', () => {
  it.each(['Rise TC1 (K)', 'rise TC1', 'TC1 temperature rise', 'Delta T1', 'dT 1', 'T1 over ambient'])(
    'called so ("%s") ask for the room',
    (name) =>
      expect(() => readLog(own(`Time (s),${name}`, (t) => rise(t).toFixed(1)))).toThrow(/option riseOverC/),
  );

  it.each([
    ['exact zeros', (t: number) => rise(t).toFixed(1)],
    ['a dither of a tenth', (t: number) => (rise(t) + (t % 2) / 10).toFixed(1)],
  ])('in °C that start with %s are left open', (_, row) => {
    const log = readLog(own('Time (s),TC1 (°C)', row));
    expect(log.openReadings.map(({ option }) => option)).toContain('riseOverC');
  });

  it('that nothing gives a unit are left open and not taken for a cold shop', () => {
    const log = readLog(own('Time (s),TC1', (t) => (rise(t) + (t % 2) / 10).toFixed(1)));
    expect(log.openReadings.map(({ option }) => option)).toContain('riseOverC');
  });

  it('zeros before the first measurement of a room are none', () => {
    const log = readLog(own('Time (s),TC1 (°C)', (t) => (t < 6 ? '0.0' : weldC(t).toFixed(1))));
    expect(log.openReadings).toEqual([]);
    expect(temps(log)[0]).toBe(22);
  });

  it.each(['0.0', '0.4'])('in K that start at %s are no kelvin', (first) => {
    const bytes = own('Time (s),TC1 (K)', (t) => (t < 10 ? first : rise(t).toFixed(1)));
    expect(() => readLog(bytes)).toThrow(/starts at zero.*riseOverC/s);
    const log = readLog(bytes, { riseOverC: 22 });
    expect(Math.max(...temps(log))).toBeCloseTo(
      22 + Math.max(...rows(120, (t) => rise(t).toFixed(1)).map(Number)),
      6,
    );
  });
});
