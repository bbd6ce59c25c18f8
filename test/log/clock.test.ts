import { describe, expect, it } from 'vitest';
import { type ReadOptions, readLog } from '../../lib/log';
import { lines, noteWith, rows, temps, times } from './write';

const close = (values: readonly number[], digits = 6) => values.map((v) => expect.closeTo(v, digits));
const log = (header: string, stamps: readonly string[], options?: ReadOptions, delimiter = ',') =>
  readLog(
    lines(
      `${header}${delimiter}TC1 (°C)`,
      stamps.map((stamp, i) => `${stamp}${delimiter}${20 + i}`),
    ),
    options,
  );

describe('clocks', () => {
  const half = [0, 0.5, 1, 1.5, 2];
  const CLOCKS: readonly (readonly [
    string,
    string,
    readonly string[],
    readonly number[],
    ReadOptions?,
    string?,
  ])[] = [
    ['elapsed seconds from a negative start', 'Time (s)', ['-1', '-0.5', '0', '0.5'], [-1, -0.5, 0, 0.5]],
    ['elapsed h:m:s', 'Time', ['0:00:01', '0:00:02', '0:00:03'], [1, 2, 3]],
    ['elapsed hours above 24', 'Time', ['23:59:59', '24:00:00', '25:10:01'], [0, 1, 4202]],
    ['h:m:s with a fraction', 'Time', ['18:32:09.0', '18:32:09.5', '18:32:10.0'], [0, 0.5, 1]],
    ['h:m:s with a comma', 'Zeit', ['18:32:09,0', '18:32:09,5', '18:32:10,0'], [0, 0.5, 1], {}, ';'],
    ['h:m:s:ms', 'Time', ['18:32:09:000', '18:32:09:500', '18:32:10:000'], [0, 0.5, 1]],
    ['m:s with a fraction, past the hour', 'Time', ['59:59.0', '59:59.5', '00:00.0'], [0, 0.5, 1]],
    ['m:s by its unit', 'Time (mm:ss)', ['10:01', '10:02', '10:04'], [0, 1, 3]],
    ['h:m', 'Time', ['10:01', '10:02', '10:04'], [0, 60, 180]],
    ['clock across midnight', 'Time', ['23:59:58', '23:59:59', '00:00:00', '00:00:01'], [0, 1, 2, 3]],
    [
      'AM and PM across noon',
      'Time',
      ['11:59:58 AM', '11:59:59 AM', '12:00:00 PM', '12:00:01 PM'],
      [0, 1, 2, 3],
    ],
    ['AM and PM across midnight', 'Time', ['11:59:59 PM', '12:00:00 AM', '12:00:01 a.m.'], [0, 1, 2]],
    ['ISO with a blank', 'Time', ['2031-05-06 18:00:00', '2031-05-06 18:00:05'], [0, 5]],
    ['ISO with T and zone Z', 'Time', ['2031-05-06T18:00:00Z', '2031-05-06T18:00:00.25Z'], [0, 0.25]],
    [
      'ISO with a zone that changes',
      'Time',
      ['2031-05-06T18:00:00+02:00', '2031-05-06T17:00:01+01:00'],
      [0, 1],
    ],
    ['epoch seconds', 'Time', ['1935000000', '1935000001', '1935000002.5'], [0, 1, 2.5]],
    ['epoch milliseconds', 'ts', ['1935000000000', '1935000000250', '1935000000500'], [0, 0.25, 0.5]],
    ['seconds since 1904', 'Time', ['4017844800', '4017844801', '4017844802'], [0, 1, 2]],
    [
      'day numbers of a spreadsheet',
      'Date',
      ['48000.5000000', '48000.5000579', '48000.5001157'],
      [0, 5.003, 9.996],
    ],
    ['day first by a day above 12', 'Date', ['12/05/2031 23:59:59', '13/05/2031 00:00:00'], [0, 1]],
    ['month first by a day above 12', 'Date', ['05/12/2031 23:59:59', '05/13/2031 00:00:00'], [0, 1]],
    [
      'day first by days that follow each other',
      'Date',
      ['06/05/2031 23:59:59', '07/05/2031 00:00:00'],
      [0, 1],
    ],
    [
      'month first by days that follow each other',
      'Date',
      ['05/06/2031 23:59:59', '05/07/2031 00:00:00'],
      [0, 1],
    ],
    ['points are day first', 'Datum', ['06.05.2031 18:00:00', '06.05.2031 18:00:02'], [0, 2]],
    ['two-digit years', 'Date', ['31/12/30 23:59:59', '01/01/31 00:00:00'], [0, 1]],
    ['names of months', 'Date', ['28-Feb-2032 23:59:59', '29-Feb-2032 00:00:00'], [0, 1]],
    ['time before the date', 'Stamp', ['18:00:00 06.05.2031', '18:00:01 06.05.2031'], [0, 1]],
    [
      '20 digits of a second',
      'Time',
      ['18:00:00.00000000000000000000', '18:00:00.50000000000000000000'],
      [0, 0.5],
    ],
    [
      'a date and a time column',
      'Date;Time',
      ['06.05.2031;23:59:59', '07.05.2031;00:00:00'],
      [0, 1],
      {},
      ';',
    ],
    [
      'a date and a time parted by blanks',
      'Stamp',
      ['2031-05-06 23:59:59', '2031-05-07 00:00:00'],
      [0, 1],
      {},
      ' ',
    ],
    ['rows at an interval', 'Time (s)', ['0', '7', '9'], [0, 0.5, 1], { intervalS: 0.5 }],
    [
      'a clock chosen by option',
      'Time (s),Time2 (s)',
      ['0,5', '1,7', '2,9'],
      [5, 7, 9],
      { clock: { column: 'Time2' } },
    ],
    [
      'a format said by option',
      'Stamp',
      ['10:01', '10:02', '10:04'],
      [0, 1, 3],
      { clock: { format: 'm:s' } },
    ],
    ['minutes said by option', 'Time', ['0', '1', '2'], [0, 60, 120], { clock: { format: 'min' } }],
    ['padding', 'Time (s)', half.map((t) => `  ${t} `), half],
  ];
  for (const [name, header, stamps, expected, options, delimiter] of CLOCKS)
    it(name, () => {
      const read = log(header, stamps, options, delimiter);
      expect(times(read)).toEqual(close(expected));
      expect(temps(read)).toEqual(stamps.map((_, i) => 20 + i));
    });

  it('starts are told as ISO stamps, with a zone only where the file has one', () => {
    expect(log('Time', ['2031-05-06 18:00:00', '2031-05-06 18:00:05']).startedAt).toBe('2031-05-06T18:00:00');
    expect(log('Time', ['2031-05-06T18:00:00.5+02:00', '2031-05-06T18:00:05+02:00']).startedAt).toBe(
      '2031-05-06T18:00:00.500+02:00',
    );
    expect(log('Time', ['1935000000', '1935000001']).startedAt).toBe('2031-04-26T20:00:00Z');
    expect(log('Time (s)', ['0', '1']).startedAt).toBeUndefined();
    const header = lines('Start;06.05.2031 18:00:00', 'Time (s);TC1 (°C)', '0;20', '1;21');
    expect(readLog(header).startedAt).toBe('2031-05-06T18:00:00');
  });

  it('a lone date that could be either way leaves only the start open', () => {
    const read = log('Date', ['05/06/2031 18:00:00', '05/06/2031 18:00:01']);
    expect(times(read)).toEqual([0, 1]);
    expect(read.startedAt).toBeUndefined();
    expect(noteWith(read, /cannot be told.*dateOrder/)).toBeTypeOf('string');
    const told = log('Date', ['05/06/2031 18:00:00', '05/06/2031 18:00:01'], {
      clock: { dateOrder: 'day first' },
    });
    expect(told.startedAt).toBe('2031-06-05T18:00:00');
  });

  it('dates that give different times either way are asked for', () => {
    const stamps = ['05/06/2031 18:00:00', '06/07/2031 18:00:00'];
    expect(() => log('Date', stamps)).toThrow(/row 2, column "Date".*day first or month first.*dateOrder/s);
    expect(times(log('Date', stamps, { clock: { dateOrder: 'month first' } }))).toEqual([0, 32 * 86_400]);
  });

  it('dates that contradict each other are named', () => {
    expect(() => log('Date', ['13/05/2031 18:00:00', '05/14/2031 18:00:00'])).toThrow(
      /contradict.*13\/05.*05\/14/s,
    );
  });

  it('no clock at all asks for the interval', () => {
    expect(() => readLog(lines('TC1 (°C)', '20', '21', '22'))).toThrow(
      /No column holds the time.*intervalS/s,
    );
  });

  it('an interval in the header is pointed to, not taken', () => {
    const file = lines('Sample interval,0.5 s', 'TC1 (°C),TC2 (°C)', '20,21', '21,22', '22,23');
    expect(() => readLog(file)).toThrow(/intervalS in seconds \(the header says "Sample interval,0\.5 s"\)/);
  });

  it('a rejected row still took its time when rows come at an interval', () => {
    const read = readLog(lines('TC1 (°C),TC2 (°C)', '20,20', '21', '22,22'), { intervalS: 2 });
    expect(times(read)).toEqual([0, 4]);
  });

  it('two clocks that disagree are pointed out', () => {
    const read = readLog(
      lines(
        'time (s),time10 (s),TC1 (°C)',
        rows(9, (i) => `${i},${i / 10},20`),
      ),
    );
    expect(times(read)[8]).toBe(8);
    expect(read.leftAside).toMatchObject([{ name: 'time10 (s)', why: /another clock.*disagrees/ }]);
    expect(noteWith(read, /Warning.*disagree.*0\.1/)).toBeTypeOf('string');
    const [open] = read.openReadings;
    expect(open).toMatchObject({ of: 'clock', option: 'clock.column' });
    expect(open!.other.map(({ options }) => options.clock)).toEqual([{ column: 'time10 (s)' }]);
  });

  it('two clocks that agree, or of which one only counts, leave nothing open', () => {
    const start = Date.UTC(2025, 2, 14, 9, 30);
    const own = (name: string, other: (i: number) => string) =>
      readLog(
        lines(
          `UTC,${name},TC1 (°C)`,
          rows(20, (i) => `${new Date(start + i * 5000).toISOString()},${other(i)},20`),
        ),
      );
    const clocks: [string, (i: number) => string][] = [
      ['Elapsed (min)', (i) => String(i / 12)],
      ['Time stamp', (i) => String(start + i * 5000)],
      ['Time', (i) => String(i)],
      ['Clock', (i) => `10:${30 + Math.floor(i / 12)}:${String((i % 12) * 5).padStart(2, '0')}`],
    ];
    for (const [name, other] of clocks) expect(own(name, other).openReadings, name).toEqual([]);
  });
});

describe('clocks that misbehave', () => {
  it('stamps at whole seconds under four rows a second are rebuilt', () => {
    const read = readLog(
      lines(
        'Time,TC1 (°C)',
        rows(40, (i) => `18:00:${String(Math.floor(i / 4)).padStart(2, '0')},${20 + i}`),
      ),
    );
    expect(times(read)).toEqual(close(rows(40, (i) => String(i / 4)).map(Number)));
    expect(noteWith(read, /come regularly.*0\.25 s apart/)).toBeTypeOf('string');
    expect(read.rows.kept).toBe(40);
  });

  it('stamps at four significant digits are rebuilt', () => {
    const stamp = (i: number) => Number((i * 0.5).toPrecision(4));
    const read = readLog(
      lines(
        'Time (s),TC1 (°C)',
        rows(6000, (i) => `${stamp(i)},${(20 + i / 100).toFixed(2)}`),
      ),
    );
    expect(times(read)).toEqual(close(rows(6000, (i) => String(i / 2)).map(Number)));
    expect(noteWith(read, /0\.5 s apart/)).toBeTypeOf('string');
  });

  it('stamps of an uneven log are spread inside the second', () => {
    const seconds = [0, 0, 0, 1, 2, 2, 3, 3, 3, 3, 4, 5, 5, 60, 60, 61];
    const read = readLog(
      lines(
        'Time (s),TC1 (°C)',
        seconds.map((s, i) => `${s},${20 + i}`),
      ),
    );
    expect(times(read).slice(0, 6)).toEqual(close([0, 1 / 3, 2 / 3, 1, 2, 2.5]));
    expect(times(read).slice(13)).toEqual(close([60, 60.5, 61]));
    expect(noteWith(read, /spread evenly/)).toBeTypeOf('string');
  });

  it('a row written twice is used once', () => {
    const file = rows(200, (i) => `${i},${20 + i / 10}`);
    file.splice(101, 0, file[100]!);
    const read = readLog(lines('Time (s),TC1 (°C)', file));
    expect(read.rows).toEqual({ read: 201, kept: 200, flagged: 0, rejected: 1 });
    expect(read.rowFaults).toMatchObject([{ row: 103, kind: 'clock', reason: /repeats the one before/ }]);
  });

  it('rows out of order are sorted, and rows keep their line numbers', () => {
    const read = readLog(lines('Time (s),TC1 (°C)', '0,20', '1,21', '3,23', '2,22', '4,24'));
    expect(temps(read)).toEqual([20, 21, 22, 23, 24]);
    expect([...read.channels[0]!.rows]).toEqual([2, 3, 5, 4, 6]);
    expect(noteWith(read, /1 row \(the first is row 5\)/)).toBeTypeOf('string');
  });

  it('newest first is turned round', () => {
    const read = readLog(
      lines(
        'Time (s),TC1 (°C)',
        rows(9, (i) => `${8 - i},${20 + i}`),
      ),
    );
    expect(times(read)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
    expect(temps(read)[0]).toBe(28);
    expect(noteWith(read, /newest first/)).toBeTypeOf('string');
  });

  it('a recording started anew is set apart by a gap', () => {
    const read = readLog(
      lines(
        'Time (s),TC1 (°C)',
        rows(5, (i) => `${i},20`),
        rows(5, (i) => `${i},60`),
      ),
    );
    expect(times(read).length).toBe(10);
    expect([...read.channels[0]!.history.gapAfter!]).toEqual([4]);
    expect(noteWith(read, /row 7 the recording starts anew.*unknown/)).toBeTypeOf('string');
  });

  it('a clock that always starts from zero asks for the interval', () => {
    const file = lines(
      'Time (s),TC1 (°C)',
      rows(12, (i) => `${i % 2},20`),
    );
    expect(() => readLog(file)).toThrow(/starts from zero again and again.*intervalS/s);
  });

  it('an hour set back is warned of and taken to follow on', () => {
    const stamp = (i: number) => {
      const minute = 2 * 60 + 50 + i * 5;
      const wall = minute < 180 ? minute : minute - 60;
      return `2031-10-26 ${String(Math.floor(wall / 60)).padStart(2, '0')}:${String(wall % 60).padStart(2, '0')}:00`;
    };
    const read = readLog(
      lines(
        'Time,TC1 (°C)',
        rows(8, (i) => `${stamp(i)},${20 + i}`),
      ),
    );
    expect(times(read)).toEqual(rows(8, (i) => String(i * 300)).map(Number));
    expect(noteWith(read, /Warning: at row 4 the clock goes back.*summer time/)).toBeTypeOf('string');
  });

  it('one stamp far ahead is not used', () => {
    const stamp = (i: number) => (i === 4 ? '2061-05-06 18:00:04' : `2031-05-06 18:00:0${i}`);
    const read = readLog(
      lines(
        'Time,TC1 (°C)',
        rows(9, (i) => `${stamp(i)},${20 + i}`),
      ),
    );
    expect(read.rows).toEqual({ read: 9, kept: 8, flagged: 0, rejected: 1 });
    expect(read.rowFaults).toMatchObject([{ row: 6, kind: 'clock', reason: /far ahead/ }]);
  });

  it('gaps of the clock are faults of the log and marked in every history', () => {
    const read = readLog(
      lines(
        'Time (s),TC1 (°C),TC2 (°C)',
        rows(10, (i) => `${i < 5 ? i : i + 60},20,21`),
      ),
    );
    expect(read.rowFaults).toMatchObject([
      { kind: 'gap', row: 6, lastRow: 7, fromS: 4, toS: 65, readings: 0 },
    ]);
    for (const { history } of read.channels) expect([...history.gapAfter!]).toEqual([4]);
    expect(noteWith(read, /1 gap/)).toBeTypeOf('string');
    const patient = readLog(
      lines(
        'Time (s),TC1 (°C)',
        rows(10, (i) => `${i < 5 ? i : i + 60},20`),
      ),
      { limits: { gapS: 100 } },
    );
    expect(patient.rowFaults).toEqual([]);
    expect(patient.channels[0]!.history.gapAfter).toBeUndefined();
  });

  it('a change of the logging rate is no gap', () => {
    const stamps = [...rows(50, (i) => (i / 10).toFixed(1)), ...rows(20, (i) => String(5 + i * 2))];
    const read = readLog(
      lines(
        'Time (s),TC1 (°C)',
        stamps.map((stamp) => `${stamp},20`),
      ),
    );
    expect(read.rowFaults).toEqual([]);
  });

  it('a row whose time cannot be read is rejected with its text', () => {
    const read = readLog(lines('Time (s),TC1 (°C)', '0,20', '??,21', ',22', '3,23', '4,24', '5,25'));
    expect(read.rows).toEqual({ read: 6, kept: 4, flagged: 0, rejected: 2 });
    expect(read.rowFaults).toMatchObject([
      {
        row: 3,
        kind: 'clock',
        column: 'Time (s)',
        value: '??,21',
        reason: 'The time of the row cannot be read.',
      },
      { row: 4, kind: 'clock', value: ',22', reason: 'The row has no time.' },
    ]);
  });
});
