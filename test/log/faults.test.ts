import { describe, expect, it } from 'vitest';
import { faultAtRow, readLog } from '../../lib/log';
import { channel, kinds, lines, noteWith, rows, temps, times, weldC } from './write';

/** A weld trace at 2 Hz on TC1 with some rows changed, beside a good TC2. */
const withRows = (changes: Readonly<Record<number, string>>, count = 120) =>
  lines(
    'Time (s),TC1 (°C),TC2 (°C)',
    rows(count, (i) => `${i / 2},${changes[i] ?? weldC(i / 2).toFixed(1)},${weldC(i / 2, 140).toFixed(1)}`),
  );
/** Line of the file a row stands on. */
const line = (i: number) => i + 2;

describe('a field that holds no reading', () => {
  it.each<readonly [string, string]>([
    ['', 'missing field'],
    ['---', 'missing field'],
    ['NaN', 'not a number'],
    ['N/A', 'not a number'],
    ['#N/A', 'not a number'],
    ['1.#QNAN', 'not a number'],
    ['21.x', 'not a number'],
    ['22.5 °F', 'not a number'],
    ['#DIV/0!', 'error token'],
    ['ERR', 'error token'],
    ['*****', 'error token'],
    ['OPEN', 'open circuit'],
    ['Burnout', 'open circuit'],
    ['OL', 'over range'],
    ['Over', 'over range'],
    ['Inf', 'over range'],
    ['9.9E37', 'over range'],
    ['9.91E37', 'not a number'],
    ['32767', 'open circuit'],
    ['-9999', 'open circuit'],
    ['9999', 'open circuit'],
    ['999.9', 'open circuit'],
    ['1372', 'open circuit'],
    ['1380.2', 'over range'],
    ['-80', 'over range'],
    ['-273.15', 'absolute zero'],
    ['-273', 'absolute zero'],
    ['-1000000', 'over range'],
  ])('"%s" is a fault of kind %s', (text, kind) => {
    const log = readLog(withRows({ 60: text }));
    expect(log.channels[0]!.faults).toMatchObject([
      {
        kind,
        row: line(60),
        lastRow: line(60),
        column: 'TC1 (°C)',
        value: text,
        readings: 1,
        fromS: 30,
        toS: 30,
      },
    ]);
    expect(log.channels[0]!.faults[0]!.reason).toMatch(/; bridged by a straight line over 1 s\.$/);
    expect(log.channels[1]!.faults).toEqual([]);
    expect(log.rows).toEqual({ read: 120, kept: 119, flagged: 1, rejected: 0 });
    expect(times(log)).not.toContain(30);
    expect(channel(log, 'TC1').rows).not.toContain(line(60));
  });

  it('runs of one kind are one fault', () => {
    const log = readLog(
      withRows(Object.fromEntries(rows(10, (i) => String(60 + i)).map((i) => [i, 'OPEN']))),
    );
    expect(log.channels[0]!.faults).toMatchObject([
      {
        kind: 'open circuit',
        row: line(60),
        lastRow: line(69),
        readings: 10,
        reason: /left open as a gap of 5.5 s/,
      },
    ]);
    expect([...log.channels[0]!.history.gapAfter!]).toEqual([59]);
    expect(noteWith(log, /"TC1": 10 readings left out: 10 open circuit \(first in row 62\)/)).toBeTypeOf(
      'string',
    );
  });

  it('a sentinel among readings as hot as itself is a reading', () => {
    const log = readLog(
      lines(
        'Time (s),Furnace (°C)',
        rows(60, (i) => `${i * 10},${(990 + (i % 20)).toFixed(1)}`),
      ),
    );
    expect(kinds(log)).toEqual([]);
    expect(temps(log)).toContain(999);
  });

  it('sentinels of your own replace the list', () => {
    const log = readLog(withRows({ 60: '85.0', 80: '999.9' }), { sentinels: [85] });
    expect(log.channels[0]!.faults.map(({ row, kind }) => [row, kind])).toEqual([
      [line(60), 'open circuit'],
      [line(80), 'spike'],
    ]);
  });

  it('zeros in every channel before the first measurement are no readings', () => {
    const log = readLog(
      lines(
        'Time (s),TC1 (°C),TC2 (°C)',
        '0,0,0',
        rows(20, (i) => `${i + 1},22.${i % 3},22.5`),
      ),
    );
    expect(kinds(log, 0)).toEqual(['missing field']);
    expect(log.channels[1]!.faults[0]).toMatchObject({
      row: 2,
      readings: 1,
      reason: /zero before the first/,
    });
  });

  it('is found by channel and line of the file', () => {
    const log = readLog(withRows({ 60: 'OPEN', 61: 'OPEN', 80: '300.0' }));
    const tc1 = channel(log, 'TC1');
    expect(faultAtRow(tc1, line(61))).toMatchObject({ kind: 'open circuit', row: line(60), readings: 2 });
    expect(faultAtRow(tc1, line(80))?.kind).toBe('spike');
    expect(faultAtRow(tc1, line(62))).toBeUndefined();
    expect(faultAtRow(channel(log, 'TC2'), line(61))).toBeUndefined();
  });

  it('limits of your own hold', () => {
    const log = readLog(withRows({}), { limits: { highC: 150 } });
    expect(kinds(log)).toEqual(['over range']);
    expect(Math.max(...temps(log))).toBeLessThan(150);
  });
});

describe('a row that is short or long', () => {
  it('is rejected whole, never shifted', () => {
    const log = readLog(
      lines('Time (s),TC1 (°C),TC2 (°C)', '0,22,80', '1,80', '2,22,80', '3,22,80,5', '4,22,80'),
    );
    expect(temps(log, 0)).toEqual([22, 22, 22]);
    expect(temps(log, 1)).toEqual([80, 80, 80]);
    expect(log.rows).toEqual({ read: 5, kept: 3, flagged: 0, rejected: 2 });
    expect(log.rowFaults).toMatchObject([
      { kind: 'missing field', row: 3, value: '1,80', reason: /has 2 of 3 fields; which one is missing/ },
      { kind: 'missing field', row: 5, value: '3,22,80,5', reason: /more than the 3 fields/ },
    ]);
  });

  it('is rejected at a ragged end', () => {
    const log = readLog(Buffer.from('Time (s),TC1 (°C),TC2 (°C)\n0,22,23\n1,22,23\n2,22,23\n,'));
    expect(log.rows).toEqual({ read: 4, kept: 3, flagged: 0, rejected: 1 });
    expect(log.rowFaults).toMatchObject([{ kind: 'missing field', row: 5, value: ',' }]);
  });

  it('is rejected as the first row too', () => {
    const log = readLog(
      lines(
        'Time (s),TC1 (°C),TC2 (°C)',
        '0,22',
        rows(6, (i) => `${i + 1},22,23`),
      ),
    );
    expect(log.rows).toEqual({ read: 7, kept: 6, flagged: 0, rejected: 1 });
    expect(log.rowFaults[0]).toMatchObject({ row: 2 });
  });

  it('runs of such rows are one fault', () => {
    const log = readLog(
      lines(
        'Time (s),TC1 (°C),TC2 (°C)',
        rows(30, (i) => (i > 9 && i < 15 ? `${i},22` : `${i},22,23`)),
      ),
    );
    expect(log.rowFaults).toMatchObject([
      { kind: 'gap', row: 11, lastRow: 17 },
      { kind: 'missing field', row: 12, lastRow: 16, readings: 5 },
    ]);
  });
});

describe('a channel logged more seldom than the others', () => {
  const seldom = (i: number) => (i % 5 === 2 ? weldC(i / 2, 140).toFixed(1) : '');
  const file = (field: (i: number) => string) =>
    lines(
      'Time (s),TC1 (°C),TC2 (°C)',
      rows(200, (i) => `${i / 2},${weldC(i / 2).toFixed(1)},${field(i)}`),
    );

  it('misses no reading between its own', () => {
    const log = readLog(file(seldom));
    expect(log.rows).toEqual({ read: 200, kept: 200, flagged: 0, rejected: 0 });
    expect(times(log, 1)).toEqual(rows(40, (i) => String(i * 2.5 + 1)).map(Number));
    expect(log.channels[1]!.history.gapAfter).toBeUndefined();
    expect(noteWith(log, /"TC2" has a reading every 5 rows/)).toBeTypeOf('string');
  });

  it('misses the ones that should have been there', () => {
    const log = readLog(file((i) => (i === 102 ? '' : i === 52 ? 'OPEN' : seldom(i))));
    expect(log.channels[1]!.faults).toMatchObject([
      { kind: 'open circuit', row: line(52), readings: 1, reason: /bridged by a straight line over 5 s/ },
      { kind: 'missing field', row: line(98), lastRow: line(106), readings: 9 },
    ]);
  });
});

describe('spikes', () => {
  it.each([
    ['one high reading', { 4: '160.0' }, 1],
    ['one low reading on a hot part', { 60: '20.0' }, 1],
    ['two high readings', { 60: '300.0', 61: '280.0' }, 2],
    ['one on the steep rise', { 24: '420.0' }, 1],
    ['a burst of single readings', { 4: '160.0', 6: '90.0', 8: '-30.0' }, 3],
  ])('%s', (_, changes, readings) => {
    const log = readLog(withRows(changes));
    expect(new Set(kinds(log))).toEqual(new Set(['spike']));
    expect(log.channels[0]!.faults.reduce((n, fault) => n + fault.readings, 0)).toBe(readings);
    expect(log.channels[0]!.faults.map(({ row }) => row)).toContain(line(Number(Object.keys(changes)[0])));
    expect(log.channels[0]!.history.gapAfter).toBeUndefined();
    expect(log.channels[0]!.faults[0]!.reason).toMatch(/bridged by a straight line/);
  });

  it('kept on request', () => {
    const log = readLog(withRows({ 60: '300.0' }), { accept: ['spike'] });
    expect(kinds(log)).toEqual([]);
    expect(Math.max(...temps(log))).toBe(300);
    expect(noteWith(log, /1 reading that looks like "spike" is kept, as you said/)).toBeTypeOf('string');
  });
});

describe('steps no metal can make', () => {
  it('there and back is marked between', () => {
    const log = readLog(
      withRows(Object.fromEntries(rows(8, (i) => String(60 + i)).map((i) => [i, '560.0']))),
    );
    expect(log.channels[0]!.faults).toMatchObject([
      {
        kind: 'impossible step',
        row: line(60),
        lastRow: line(67),
        readings: 8,
        reason: /faster than metal can \(400 °C\/s\)/,
      },
    ]);
  });

  it('down to the room for good is a probe that let go', () => {
    const file = lines(
      'Time (s),TC1 (°C)',
      rows(120, (i) => `${i / 10},${i < 100 ? 290 : 23.5}`),
    );
    const log = readLog(file);
    expect(log.channels[0]!.faults).toMatchObject([
      { kind: 'impossible step', row: 102, lastRow: 121, readings: 20 },
    ]);
  });

  it('up past the melting point for good is marked', () => {
    const log = readLog(
      lines(
        'Time (s),TC1 (°C)',
        rows(120, (i) => `${i / 10},${i < 100 ? 290 : 900 + (i % 3)}`),
      ),
    );
    expect(log.channels[0]!.faults).toMatchObject([{ kind: 'impossible step', row: 102, readings: 20 }]);
  });

  it('to a level that could be right parts the trace', () => {
    const log = readLog(
      lines(
        'Time (s),TC1 (°C)',
        rows(120, (i) => `${i / 10},${i < 60 ? 150 : 290 + (i % 3)}`),
      ),
    );
    expect(log.channels[0]!.faults).toMatchObject([{ kind: 'impossible step', row: 62, readings: 1 }]);
    expect([...log.channels[0]!.history.gapAfter!]).toEqual([59]);
  });
});

describe('false ramps', () => {
  const open = (from: number, count: number) =>
    Object.fromEntries(rows(count, (i) => String(from + i)).map((i) => [i, 'OPEN']));

  it('between two runs of error words is marked', () => {
    const ramp = Object.fromEntries(
      rows(12, (i) => String(63 + i)).map((i) => [i, String(60 + (Number(i) - 63) * 70)]),
    );
    const log = readLog(withRows({ ...open(60, 3), ...ramp, ...open(75, 3) }));
    expect(log.channels[0]!.faults).toMatchObject([
      { kind: 'open circuit', readings: 3 },
      {
        kind: 'ramp between faults',
        row: line(63),
        lastRow: line(74),
        readings: 12,
        reason: /stand between two faults/,
      },
      { kind: 'open circuit', readings: 3 },
    ]);
    expect(Math.max(...temps(log))).toBeLessThan(210);
  });

  it('sliding in and out through impossible readings is marked', () => {
    const trace = (i: number) =>
      i < 100 ? -900 + i * 9.5 : i < 200 ? (i - 100) * 13.7 : i < 250 ? 1375 : 1375 - (i - 250) * 20;
    const log = readLog(
      lines(
        'Time (s),TC1 (°C)',
        rows(400, (i) => `${i / 10},${trace(i).toFixed(1)}`),
      ),
    );
    expect(kinds(log)).toContain('ramp between faults');
    expect(times(log)).toEqual([]);
    expect(noteWith(log, /Nothing of the channel can be used/)).toBeTypeOf('string');
  });

  it('a real weld cycle between two dropouts is kept', () => {
    const log = readLog(withRows({ 18: 'OL', 30: 'OL' }));
    expect(kinds(log)).toEqual(['over range', 'over range']);
    expect(times(log).length).toBe(118);
  });

  it('an opening junction is marked on its way out', () => {
    const out = { 60: '520.0', 61: '780.0', 62: '1100.0', 63: '1350.0', ...open(64, 56) };
    const log = readLog(withRows(out));
    expect(Math.max(...temps(log))).toBeLessThan(700);
    expect(
      log.channels[0]!.faults.every(({ kind }) => kind === 'open circuit' || kind === 'impossible step'),
    ).toBe(true);
  });
});

describe('clamped readings', () => {
  it('at the bottom of a pyrometer are marked', () => {
    const pyro = (t: number) => Math.max(799.5, 500 + 700 * Math.exp(-((t - 150) ** 2) / 800)).toFixed(1);
    const log = readLog(
      lines(
        'Time (s),Pyrometer (°C)',
        rows(300, (i) => `${i},${pyro(i)}`),
      ),
    );
    expect(new Set(kinds(log))).toEqual(new Set(['clamped']));
    expect(Math.min(...temps(log))).toBeGreaterThan(799.5);
    expect(log.channels[0]!.faults[0]!.reason).toMatch(/799\.5 °C.*bottom of the instrument's range/);
  });

  it('at the top of an input are marked', () => {
    const log = readLog(
      lines(
        'Time (s),TC1 (°C)',
        rows(400, (i) => `${i / 2},${Math.min(150, weldC(i / 2, 300)).toFixed(1)}`),
      ),
    );
    expect(log.channels[0]!.faults).toMatchObject([
      { kind: 'clamped', reason: /150\.0 °C.*top of the instrument's range/ },
    ]);
    expect(Math.max(...temps(log))).toBeLessThan(150);
  });

  it.each([
    ['a room at rest', (i: number) => (i < 300 ? 22.1 : 22.1 + (i - 300) * 3)],
    [
      'a soak that never moves a digit',
      (i: number) => Math.round(Math.min(538, 22 + 516 * (1 - Math.exp(-i / 40)))),
    ],
    ['boiling water', (i: number) => (i < 100 ? 22 + 77.9 * (1 - Math.exp(-i / 12)) : 99.9)],
    [
      'a preheated part at rest',
      (i: number) => (i < 200 ? Math.round(120 - i / 60) : 120 + Math.round((i - 200) * 2)),
    ],
  ])('%s is not clamped', (_, trace) => {
    const log = readLog(
      lines(
        'Time (s),TC1 (°C)',
        rows(400, (i) => `${i},${trace(i).toFixed(1)}`),
      ),
    );
    expect(kinds(log)).toEqual([]);
  });
});

describe('channels against their neighbours', () => {
  const four = (own: (t: number) => number, name = 'TC4') =>
    lines(
      `Time (s),TC1 (°C),TC2 (°C),TC3 (°C),${name} (°C)`,
      rows(
        200,
        (i) =>
          `${i / 2},${[300, 250, 200].map((rise) => weldC(i / 2, rise).toFixed(1)).join()},${own(i / 2).toFixed(1)}`,
      ),
    );

  it('one that stays cold among hot ones is dead', () => {
    const log = readLog(four((t) => 22 + (t % 3) / 10));
    expect(channel(log, 'TC4').faults).toMatchObject([
      {
        kind: 'dead channel',
        readings: 200,
        reason: /does not measure the part; nothing of the channel is left/,
      },
    ]);
    expect(channel(log, 'TC4').history.timeS.length).toBe(0);
    expect(channel(log, 'TC1').faults).toEqual([]);
    expect(log.rows).toEqual({ read: 200, kept: 0, flagged: 200, rejected: 0 });
  });

  it('one that is named for the room is not', () => {
    expect(channel(readLog(four(() => 22.4, 'Ambient')), 'Ambient').faults).toEqual([]);
  });

  it('one that warms with the part is not, however little', () => {
    expect(channel(readLog(four((t) => weldC(t, 12))), 'TC4').faults).toEqual([]);
  });

  it('four quiet channels in a quiet log are not dead', () => {
    const log = readLog(
      lines(
        'Time (s),TC1 (°C),TC2 (°C),TC3 (°C),TC4 (°C)',
        rows(60, (i) => `${i},22.${i % 2},22.1,22.0,21.9`),
      ),
    );
    expect(log.rows.kept).toBe(60);
  });

  it('one that falls as they rise has its wires swapped', () => {
    const log = readLog(four((t) => 44 - weldC(t, 60)));
    expect(channel(log, 'TC4').faults).toMatchObject([
      { kind: 'reversed polarity', readings: 200, reason: /two wires are swapped/ },
    ]);
  });

  it('one that falls to the room while they are hot let go of the part', () => {
    const log = readLog(four((t) => (t < 30 ? weldC(t, 280) : 22 + 150 * Math.exp(-(t - 30) / 0.5))));
    const faults = channel(log, 'TC4').faults;
    expect(faults.at(-1)).toMatchObject({
      kind: 'let go',
      reason: /let go of the part; the trace ends before it/,
    });
    expect(Math.max(...channel(log, 'TC4').history.timeS)).toBeLessThan(32);
  });

  it('a quench, in which all fall, is no fault', () => {
    const quench = (t: number, lag: number) => (t < 30 ? 538 : 25 + 513 * Math.exp(-(t - 30) / lag));
    const log = readLog(
      lines(
        'Time (s),TC1 (°C),TC2 (°C)',
        rows(400, (i) => `${i / 4},${quench(i / 4, 3).toFixed(1)},${quench(i / 4, 4).toFixed(1)}`),
      ),
    );
    expect(log.rows.kept).toBe(400);
  });

  it('two that are equal to the digit are pointed out', () => {
    expect(
      noteWith(readLog(four((t) => weldC(t, 300))), /"TC1" and "TC4" are equal to the last digit/),
    ).toBeTypeOf('string');
  });
});
