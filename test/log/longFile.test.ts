import { describe, expect, it } from 'vitest';
import { type ReadOptions, readLog, type ThermalLog } from '../../lib/log';
import { fc } from '../setup/fc';
import { lines } from './write';

const HEAD = 'Time (s),Channel,Value (°C)';
const times = <T>(count: number, make: (i: number) => T): T[] =>
  Array.from({ length: count }, (_, i) => make(i));
const names = (log: ThermalLog) => log.channels.map(({ name }) => name);
const added = ({ rows: { read, kept, flagged, rejected } }: ThermalLog) =>
  expect(kept + flagged + rejected).toBe(read);
/** Room, then a slow rise; a different one for each channel. */
const at = (k: number, t: number) => 22 + k + 0.5 * t;

describe('a file with one reading to a row', () => {
  it('is read as a column for each channel, every line accounted for', () => {
    const log = readLog(
      lines(
        HEAD,
        times(60, (i) => `${Math.floor(i / 3)},TC${(i % 3) + 1},${at(i % 3, Math.floor(i / 3)).toFixed(1)}`),
      ),
    );
    expect(names(log)).toEqual(['TC1', 'TC2', 'TC3']);
    expect(log.rows).toEqual({ read: 60, kept: 60, flagged: 0, rejected: 0 });
    log.channels.forEach(({ history, rows: lineOf }, k) => {
      expect([...history.timeS]).toEqual(times(20, (t) => t));
      expect([...history.tempC]).toEqual(times(20, (t) => Number(at(k, t).toFixed(1))));
      // The line of the first reading of each time.
      expect([...lineOf]).toEqual(times(20, (t) => 2 + 3 * t));
    });
    expect(log.notes.join(' ')).toContain('one reading to a row, with its channel in column "Channel"');
  });

  it('gives the same log as the wide file with the same readings', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 6 }),
        fc.array(fc.array(fc.integer({ min: 150, max: 4000 }), { minLength: 6, maxLength: 6 }), {
          minLength: 8,
          maxLength: 30,
        }),
        fc.constantFrom(',', ';', '\t'),
        (width, readings, d) => {
          const channels = times(width, (k) => `TC${k + 1}`);
          const value = (t: number, k: number) => (readings[t]![k]! / 10).toFixed(1);
          const wide = lines(
            ['Time (s)', ...channels.map((name) => `${name} (°C)`)].join(d),
            times(readings.length, (t) => [t, ...channels.map((_, k) => value(t, k))].join(d)),
          );
          const long = lines(
            ['Time (s)', 'Channel', 'Value (°C)'].join(d),
            times(readings.length * width, (i) => {
              const [t, k] = [Math.floor(i / width), i % width];
              return [t, channels[k], value(t, k)].join(d);
            }),
          );
          const options: ReadOptions = {
            accept: ['spike', 'impossible step', 'loose junction', 'swapped', 'frozen'],
          };
          const [one, other] = [readLog(wide, options), readLog(long, options)];
          expect(other.channels.map(({ name, history }) => ({ name, history }))).toEqual(
            one.channels.map(({ name, history }) => ({ name, history })),
          );
          added(other);
          expect(other.rows.read).toBe(width * readings.length);
        },
      ),
      { numRuns: 60, endOnFailure: true },
    );
  });

  it('takes channels of different rates, in step with one another or not', () => {
    const inStep = times(120, (t) => [
      `${t},TC1,${at(0, t)}`,
      ...(t % 10 === 0 ? [`${t},TC2,${at(1, t)}`] : []),
    ]).flat();
    const apart = times(120, (t) => [
      `${t},TC1,${at(0, t)}`,
      ...(t % 3 === 0 ? [`${t + 0.5},TC2,${at(1, t + 0.5)}`] : []),
    ]).flat();
    for (const [text, count] of [
      [inStep, 12],
      [apart, 40],
    ] as const) {
      const log = readLog(lines(HEAD, text));
      expect(names(log)).toEqual(['TC1', 'TC2']);
      expect(log.channels.map(({ history }) => history.timeS.length)).toEqual([120, count]);
      expect(log.channels.map(({ history, faults }) => [history.gapAfter ?? [], faults])).toEqual([
        [[], []],
        [[], []],
      ]);
      for (const [k, { history }] of log.channels.entries())
        expect([...history.tempC]).toEqual([...history.timeS].map((t) => at(k, t)));
      expect(log.rows).toEqual({ read: 120 + count, kept: 120 + count, flagged: 0, rejected: 0 });
    }
  });

  it('leaves a gap where a channel has no line for long', () => {
    const log = readLog(
      lines(
        HEAD,
        times(60, (t) => [
          `${t},TC1,${at(0, t)}`,
          ...(t < 20 || t > 40 ? [`${t},TC2,${at(1, t)}`] : []),
        ]).flat(),
      ),
    );
    const { history, faults } = log.channels[1]!;
    expect(faults).toEqual([]);
    expect([...(history.gapAfter ?? [])]).toEqual([19]);
    added(log);
  });

  it('uses neither of two readings of one channel at one time, and one of two that are the same', () => {
    const text = times(30, (t) => [`${t},TC1,${at(0, t)}`, `${t},TC2,${at(1, t)}`]).flat();
    const twice = [...text.slice(0, 20), '9,TC1,80', ...text.slice(20)];
    const log = readLog(lines(HEAD, twice));
    expect(log.channels[0]!.history.timeS).not.toContain(9);
    expect(log.channels[1]!.history.timeS).toContain(9);
    expect(log.rows).toEqual({ read: 61, kept: 59, flagged: 0, rejected: 2 });
    const faults = log.rowFaults.filter(({ kind }) => kind === 'clock');
    expect(faults.map(({ row, value }) => [row, value])).toEqual([
      [20, '9,TC1,26.5'],
      [22, '9,TC1,80'],
    ]);
    expect(faults[0]!.reason).toMatch(
      /"TC1" has more than one reading at this time; which is right cannot be known/,
    );
    const same = readLog(lines(HEAD, [...text.slice(0, 20), text[18]!, ...text.slice(20)]));
    expect(same.channels[0]!.history.timeS).toContain(9);
    expect(same.rows).toEqual({ read: 61, kept: 60, flagged: 0, rejected: 1 });
  });

  it('spreads the stamps of a clock coarser than the readings', () => {
    const log = readLog(
      lines(
        'Time,Channel,Value (°C)',
        times(240, (i) => {
          const t = Math.floor(i / 2);
          return `10:00:${String(Math.floor(t / 4)).padStart(2, '0')},${i % 2 ? 'TC2' : 'TC1'},${at(i % 2, t / 4)}`;
        }),
      ),
    );
    expect(log.channels.map(({ history }) => history.timeS.length)).toEqual([120, 120]);
    expect(log.intervalS).toBeCloseTo(0.25, 6);
    expect(log.rows.kept).toBe(240);
  });

  it('takes the unit of each row, and leaves aside what is no temperature', () => {
    const head = 'Time (s),Channel,Value,Unit';
    const body = (unit: (t: number) => string) =>
      times(40, (t) => [
        `${t},TC1,${at(0, t)},C`,
        `${t},TC2,${(at(1, t) * 1.8 + 32).toFixed(2)},${unit(t)}`,
        `${t},Hum,45,%RH`,
      ]).flat();
    const log = readLog(
      lines(
        head,
        body(() => 'F'),
      ),
    );
    expect(log.channels.map(({ name, sourceUnit }) => [name, sourceUnit])).toEqual([
      ['TC1', '°C'],
      ['TC2', '°F'],
    ]);
    expect(log.channels[1]!.history.tempC[39]).toBeCloseTo(at(1, 39), 2);
    expect(log.leftAside.map(({ name }) => name)).toEqual(['Hum (%RH)']);
    expect(() =>
      readLog(
        lines(
          head,
          body((t) => (t < 20 ? 'F' : 'C')),
        ),
      ),
    ).toThrow(
      /unit of the temperatures changes.*row 63.*"C" after °F for "TC2"|row 63.*unit of the temperatures changes/s,
    );
  });

  it('accounts for empty readings, words for none, and lines that name no channel', () => {
    const text = times(30, (t) => [`${t},TC1,${at(0, t)}`, `${t},TC2,${at(1, t)}`]).flat();
    text[11] = '5,TC2,';
    text[21] = '10,TC2,OPEN';
    text[31] = '15,,30.1';
    text[41] = '20';
    const log = readLog(lines(HEAD, text));
    expect(log.rows).toEqual({ read: 60, kept: 56, flagged: 2, rejected: 2 });
    expect(log.channels[1]!.faults.map(({ kind, row }) => [kind, row])).toEqual([
      ['missing field', 12],
      ['open circuit', 22],
    ]);
    expect(log.rowFaults.filter(({ kind }) => kind !== 'gap').map(({ row, value }) => [row, value])).toEqual([
      [33, '15,,30.1'],
      [43, '20'],
    ]);
  });

  it('goes on over a header that comes again, a date and a time apart, and names that need quotes', () => {
    const head = 'Date;Time;Channel;"Value; (°C)";Status';
    const body = (from: number) =>
      times(20, (t) => {
        const time = `2031-05-06;10:00:${String(from + t).padStart(2, '0')}`;
        return [`${time};"hinge; left";${at(0, from + t)};ok`, `${time};lug;${at(1, from + t)};ok`];
      }).flat();
    const log = readLog(lines('Device: logger', head, body(0), head, body(20)));
    expect(names(log)).toEqual(['hinge; left', 'lug']);
    expect(log.channels[0]!.history.timeS.length).toBe(40);
    expect(log.startedAt).toBe('2031-05-06T10:00:00');
    expect(log.rows).toEqual({ read: 80, kept: 80, flagged: 0, rejected: 0 });
    expect(log.notes.join(' ')).toContain('"Status" is left aside');
  });
});
