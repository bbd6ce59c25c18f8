import { describe, expect, it } from 'vitest';
import its90 from '../../../data/published/its90-table.json';
import { type ReadOptions, readLog } from '../../../lib/log';
import { seebeckMvPerK } from '../../../lib/thermocouple';

const read = (lines: readonly string[], options: ReadOptions = {}) =>
  readLog(Buffer.from(`${lines.join('\n')}\n`), options);
const stamps = (first: string, second: string, options: ReadOptions = {}) =>
  read(['Time,TC1 (°C)', `${first},20`, `${second},21`], options);

describe('RFC 3339, section 5.8: examples of Internet dates and times', () => {
  it.each([
    // [stamp, the same instant in UTC as the RFC puts it]
    ['1985-04-12T23:20:50.52Z', '1985-04-12T23:20:50.52Z'],
    ['1996-12-19T16:39:57-08:00', '1996-12-20T00:39:57Z'],
    ['1937-01-01T12:00:27.87+00:20', '1937-01-01T11:40:27.87Z'],
  ])('%s', (stamp, utc) => {
    const log = stamps(utc, new Date(Date.parse(stamp) + 1000).toISOString());
    const zoned = stamps(stamp, new Date(Date.parse(stamp) + 1000).toISOString());
    expect([...log.channels[0]!.history.timeS]).toEqual([0, 1]);
    expect([...zoned.channels[0]!.history.timeS]).toEqual([0, 1]);
    expect(Date.parse(zoned.startedAt!)).toBe(Date.parse(utc));
  });
});

describe('POSIX seconds since the Epoch (IEEE Std 1003.1, 4.16: 86400 × days since 1970 and so on)', () => {
  it('10⁹ is 2001-09-09T01:46:40Z', () => {
    // From memory; 11574 days and 6400 s after 1970-01-01.
    expect(stamps('1000000000', '1000000001').startedAt).toBe('2001-09-09T01:46:40Z');
  });
});

describe('day numbers of spreadsheets (ECMA-376 Part 1, 18.17.4.1: the 1900 date base system)', () => {
  it.each([
    // The standard's own example is from memory: serial 38749.0 is 2006-02-01 in the 1900 system.
    ['38749.00000', '2006-02-01T00:00:00'],
    ['36526.50000', '2000-01-01T12:00:00'],
  ])('%s is %s', (serial, iso) => {
    const log = stamps(serial, (Number(serial) + 0.0001).toFixed(5), {
      clock: { format: 'spreadsheet days' },
    });
    expect(log.startedAt).toBe(iso);
    expect(log.channels[0]!.history.timeS[1]).toBeCloseTo(8.64, 6);
  });
});

describe('RFC 4180: comma-separated values', () => {
  it('quoted fields, doubled quotes and CR LF (rules 5 to 7)', () => {
    const text = '"Time (s)","TC1 ""toe"", upper (°C)"\r\n"0","20.5"\r\n"1","21.5"';
    const log = readLog(Buffer.from(text));
    expect(log.channels[0]!.name).toBe('TC1 "toe", upper');
    expect([...log.channels[0]!.history.tempC]).toEqual([20.5, 21.5]);
  });

  it('a last line with or without its end (rule 2)', () => {
    const text = 'Time (s),TC1 (°C)\r\n0,20.5\r\n1,21.5';
    expect(readLog(Buffer.from(text)).channels).toEqual(readLog(Buffer.from(`${text}\r\n`)).channels);
  });
});

describe('columns in mV against the NIST one-degree tables (SRD 60, Monograph 175)', () => {
  it.each(['E', 'J', 'K', 'N', 'R', 'S', 'T'] as const)('type %s', (type) => {
    const table = its90.types[type];
    const points = table.tempC
      .map((tempC, i) => ({ tempC, emfMv: table.emfMv[i]! }))
      .filter(({ tempC }) => tempC >= -40 && tempC < 1300);
    const log = read(['Time (s),TC1 (mV)', ...points.map(({ emfMv }, i) => `${i},${emfMv.toFixed(3)}`)], {
      thermocouple: { type, referenceC: 0 },
    });
    const { history, faults } = log.channels[0]!;
    expect(faults).toEqual([]);
    expect(history.tempC.length).toBe(points.length);
    // Half a printed digit, 0.0005 mV, and 1e-5 mV for decimal halves, carried through the slope at the point.
    points.forEach(({ tempC }, i) => {
      const slope = Math.min(seebeckMvPerK(type, tempC), seebeckMvPerK(type, history.tempC[i]!));
      expect(Math.abs(history.tempC[i]! - tempC)).toBeLessThan(0.00051 / slope);
    });
  });
});
