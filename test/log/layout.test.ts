import { describe, expect, it } from 'vitest';
import { type ReadOptions, readLog } from '../../lib/log';
import { lines, noteWith, rows, temps, times } from './write';

/** Every log here says the same: 20, 21.5, 23 … °C at 0, 0.5, 1 … s on the first channel. */
const COUNT = 12;
const temp = (i: number) => 20 + 1.5 * i;
const point = (x: number) => x.toFixed(2);
const comma = (x: number) => point(x).replace('.', ',');
const expected = {
  timeS: rows(COUNT, (i) => String(i * 0.5)).map(Number),
  tempC: rows(COUNT, (i) => point(temp(i))).map(Number),
};

const one = (header: readonly string[], row: (i: number) => string) => lines(header, rows(COUNT, row));
const utf16 = (text: Uint8Array, bigEndian: boolean, mark: boolean) => {
  const body = Buffer.from((mark ? '\ufeff' : '') + Buffer.from(text).toString('utf8'), 'utf16le');
  return bigEndian ? body.swap16() : body;
};
const plain = one(['Time (s),TC1 (°C)'], (i) => `${i / 2},${point(temp(i))}`);
const text = Buffer.from(plain).toString('utf8');

const LAYOUTS: readonly (readonly [string, Uint8Array, ReadOptions?])[] = [
  ['commas and points', plain],
  ['semicolons and decimal commas', one(['Zeit;TC1 [°C]'], (i) => `${comma(i / 2)};${comma(temp(i))}`)],
  ['tabs and decimal commas', one(['t [s]\tTC1 [°C]'], (i) => `${comma(i / 2)}\t${comma(temp(i))}`)],
  ['semicolons and points', one(['time;TC1 (degC)'], (i) => `${i / 2};${point(temp(i))}`)],
  ['runs of spaces', one(['  time   TC1_degC'], (i) => `  ${i / 2}    ${point(temp(i))}  `)],
  [
    'spaces with blanks inside names',
    one(['Time (s)  TC 1 (°C)  TC 2 (°C)'], (i) => `${i / 2}  ${point(temp(i))}  21.0`),
  ],
  [
    'padded commas',
    one(['   Time , TC1 (C) '], (i) => ` ${(i / 2).toFixed(2).padStart(8)}, ${point(temp(i)).padStart(8)} `),
  ],
  ['quoted fields', one(['"Time (s)","TC1 (°C)"'], (i) => `"${i / 2}","${point(temp(i))}"`)],
  [
    'quoted decimal commas between commas',
    one(['"Time (s)","TC1 (°C)"'], (i) => `"${comma(i / 2)}","${comma(temp(i))}"`),
  ],
  ['units row under the names', one(['Time,TC1', 's,°C'], (i) => `${i / 2},${point(temp(i))}`)],
  ['units row over the names', one(['s,C', 'Time,TC1'], (i) => `${i / 2},${point(temp(i))}`)],
  ['units in brackets in their own row', one(['Time,TC1', '[s],[°C]'], (i) => `${i / 2},${point(temp(i))}`)],
  [
    'a wire row under names and units',
    one(['Time,TC1', 's,°C', ',Type K'], (i) => `${i / 2},${point(temp(i))}`),
  ],
  ['a comment sign before the names', one(['# Time (s), TC1 (°C)'], (i) => `${i / 2},${point(temp(i))}`)],
  ['units glued to the numbers', one(['Time,TC1'], (i) => `${i / 2} s,${point(temp(i))} °C`)],
  [
    'degrees spelled out',
    one(['Elapsed Time (sec),Temperature (deg. C)'], (i) => `${i / 2},${point(temp(i))}`),
  ],
  ['Fahrenheit', one(['Time (s),TC1 (°F)'], (i) => `${i / 2},${(temp(i) * 1.8 + 32).toFixed(3)}`)],
  ['kelvin', one(['Time (s),Temp [K]'], (i) => `${i / 2},${(temp(i) + 273.15).toFixed(2)}`)],
  [
    'thousandths of a degree',
    one(['Time (s),TC1 (0.001 °C)'], (i) => `${i / 2},${Math.round(temp(i) * 1000)}`),
  ],
  [
    'tenths of a degree by option',
    one(['Time (s),TC1'], (i) => `${i / 2},${Math.round(temp(i) * 10)}`),
    { unit: '0.1 °C' },
  ],
  ['milliseconds', one(['Time (ms),TC1 (°C)'], (i) => `${i * 500},${point(temp(i))}`)],
  ['minutes', one(['Time (min),TC1 (°C)'], (i) => `${i / 120},${point(temp(i))}`)],
  ['exponents', one(['Time (s),TC1 (°C)'], (i) => `${(i / 2).toExponential(3)},${temp(i).toExponential(4)}`)],
  ['no header at all', one([], (i) => `${i / 2},${point(temp(i))}`)],
  ['no names but a units row', one(['s,°C'], (i) => `${i / 2},${point(temp(i))}`)],
  ['no time column, interval given', one(['TC1 (°C)'], (i) => point(temp(i))), { intervalS: 0.5 }],
  ['a trailing delimiter', one(['Time (s),TC1 (°C),'], (i) => `${i / 2},${point(temp(i))},`)],
  ['CR LF', Buffer.from(text.replace(/\n/g, '\r\n'))],
  ['CR', Buffer.from(text.replace(/\n/g, '\r'))],
  ['blank lines', Buffer.from(text.replace(/\n/g, '\n\n'))],
  ['no end of the last line', Buffer.from(text.trimEnd())],
  ['UTF-8 with a byte-order mark', Buffer.from(`\ufeff${text}`)],
  ['UTF-16 LE with a mark', utf16(plain, false, true)],
  ['UTF-16 BE with a mark', utf16(plain, true, true)],
  ['UTF-16 LE without a mark', utf16(plain, false, false)],
  ['UTF-16 BE without a mark', utf16(plain, true, false)],
  ['Windows-1252', Buffer.from(text, 'latin1')],
  ['zero bytes at the end', Buffer.concat([plain, Buffer.alloc(512)])],
  [
    'a long preamble',
    one(
      [
        ...['Mast foot, hinge block', 'Operator;none', 'Gain;5', 'Interval;0,5;s', '', 'Channels;1'],
        ...rows(300, (i) => `Setting ${i};value ${i}`),
        'Time (s);TC1 (°C)',
      ],
      (i) => `${comma(i / 2)};${comma(temp(i))}`,
    ),
  ],
  [
    'other columns around',
    one(
      ['Scan,Arc current (A),Time (s),Status,TC1 (°C),Setpoint (°C)'],
      (i) => `${i + 1},120.5,${i / 2},OK,${point(temp(i))},200`,
    ),
  ],
];

describe('one log in many layouts', () => {
  for (const [name, bytes, options] of LAYOUTS)
    it(name, () => {
      const log = readLog(bytes, options);
      expect(times(log)).toEqual(expected.timeS.map((t) => expect.closeTo(t, 9)));
      expect(temps(log)).toEqual(expected.tempC.map((t) => expect.closeTo(t, 9)));
      expect(log.rows).toEqual({ read: COUNT, kept: COUNT, flagged: 0, rejected: 0 });
      expect(log.channels[0]!.faults).toEqual([]);
      expect(log.intervalS).toBeCloseTo(0.5, 9);
    });
});

describe('thousands', () => {
  const big = (write: (x: number) => string) => (i: number) => `${i};${write(1150 + i / 2)}`;
  it.each([
    ['commas with a decimal point', big((x) => x.toFixed(1).replace(/^1/, '1,'))],
    ['points with a decimal comma', big((x) => x.toFixed(1).replace('.', ',').replace(/^1/, '1.'))],
    ['blanks with a decimal comma', big((x) => x.toFixed(1).replace('.', ',').replace(/^1/, '1\u00a0'))],
    ['apostrophes with a decimal point', big((x) => x.toFixed(1).replace(/^1/, "1'"))],
  ])('parted by %s', (_, row) => {
    const log = readLog(lines('t [s];TC1 [°C]', rows(10, row)));
    expect(temps(log)).toEqual(rows(10, (i) => String(1150 + i / 2)).map(Number));
  });

  it('leaves a number with three decimals alone', () => {
    const log = readLog(
      lines(
        't [s];TC1 [°C]',
        rows(10, (i) => `${i};21,${500 + i}`),
      ),
    );
    expect(temps(log)[3]).toBe(21.503);
  });
});

describe('what is left aside', () => {
  it('is named with its reason', () => {
    const log = readLog(
      lines(
        'Scan,Time (s),Current (A),HRR_kW,TC1 (°C),Setpoint (°C),Height,CJ (°C),Arc on,Remark',
        rows(8, (i) => `${i},${i},140,3.5,${22 + i},200,4.5,23.1,${i % 2},tack`),
      ),
    );
    expect(log.channels.map(({ name }) => name)).toEqual(['TC1']);
    expect(log.leftAside.map(({ name }) => name)).toEqual([
      ...['Scan', 'Current (A)', 'HRR_kW', 'Setpoint (°C)', 'Height', 'CJ (°C)', 'Arc on', 'Remark'],
    ]);
    expect(log.leftAside.find(({ name }) => name === 'HRR_kW')).toMatchObject({ unit: 'kW', why: /kW/ });
    expect(log.leftAside.find(({ name }) => name === 'CJ (°C)')!.why).toMatch(/cold end/);
    for (const { name } of log.leftAside)
      expect(log.notes.some((note) => note.includes(`"${name}" is left aside`))).toBe(true);
  });

  it('keeps channels named by place beside sure ones out, and says how to take them in', () => {
    const file = lines(
      'Time (s),TC1 (°C),Hinge',
      rows(8, (i) => `${i},${22 + i},${23 + i}`),
    );
    expect(readLog(file).leftAside).toMatchObject([{ name: 'Hinge', why: /option columns/ }]);
    expect(readLog(file, { columns: { Hinge: 'hinge pin' } }).channels.map(({ name }) => name)).toEqual([
      'TC1',
      'hinge pin',
    ]);
  });

  it('does not take a letter that numbers probes for a unit', () => {
    const log = readLog(
      lines(
        'Time (s),Probe A,Probe B,Probe C',
        rows(8, (i) => `${i},22,23,${24 + i}`),
      ),
    );
    expect(log.channels.map(({ name, sourceUnit }) => [name, sourceUnit])).toEqual([
      ['Probe A', '°C'],
      ['Probe B', '°C'],
      ['Probe C', '°C'],
    ]);
  });
});

describe('names in several tongues', () => {
  it.each([
    ['t,T', 'T'],
    ['Zeit,Temperatur', 'Temperatur'],
    ['Temps,Température', 'Température'],
    ['Tempo,Temp', 'Temp'],
    ['Elapsed time,Thermocouple 1', 'Thermocouple 1'],
    ['Time,T_lower', 'T_lower'],
    ['X_Value,Temp_0', 'Temp_0'],
  ])('%s', (names, name) => {
    const log = readLog(
      lines(
        names,
        rows(9, (i) => `${i / 2},22.${i}`),
      ),
    );
    expect(log.channels.map((c) => c.name)).toEqual([name]);
    expect(log.intervalS).toBe(0.5);
  });
});

describe('units that nobody wrote down', () => {
  const log = (start: number) =>
    lines(
      'Time,CH1,CH2',
      rows(12, (i) => `${i},${start + i},${start + 1.5}`),
    );

  it.each([
    [22.1, '°C'],
    [71.4, '°F'],
    [295.3, 'K'],
  ])('are told from a start at %f', (start, unit) => {
    const read = readLog(log(start));
    expect(read.channels.map(({ sourceUnit }) => sourceUnit)).toEqual([unit, unit]);
    expect(noteWith(read, /assumed/)).toMatch(new RegExp(`${unit} is assumed.*room temperature`));
  });

  it('are asked for when the start fits none', () => {
    expect(() => readLog(log(148))).toThrow(/in which unit.*option unit/s);
    expect(readLog(log(148), { unit: '°C' }).channels[0]!.history.tempC[0]).toBe(148);
  });

  it('come from a header line', () => {
    const read = readLog(
      lines(
        'Units: Fahrenheit',
        'Time,CH1',
        rows(9, (i) => `${i},${300 + i}`),
      ),
    );
    expect(read.channels[0]!.history.tempC[0]).toBeCloseTo((300 - 32) / 1.8, 9);
  });

  it('come from the other columns', () => {
    const read = readLog(
      lines(
        'Time,TC1 (°F),TC2',
        rows(9, (i) => `${i},72,${70 + i}`),
      ),
    );
    expect(read.channels[1]!.sourceUnit).toBe('°F');
  });

  it('a K beside readings that cannot be kelvin is a thermocouple type', () => {
    const read = readLog(
      lines(
        'Time (s),TC1 (K)',
        rows(9, (i) => `${i},${22 + i}`),
      ),
    );
    expect(read.channels[0]!.sourceUnit).toBe('°C');
    expect(noteWith(read, /thermocouple type/)).toBeTypeOf('string');
  });

  it('a start far from room temperature is pointed out', () => {
    const read = readLog(
      lines(
        'Time (s),TC1 (°C)',
        rows(9, (i) => `${i},${72 + i / 10}`),
      ),
    );
    expect(noteWith(read, /starts at 72.1 °C.*°F; please check/)).toBeTypeOf('string');
  });
});

describe('mV', () => {
  // ITS-90 type K: 4.096 mV is 100 °C, 1.000 mV is 25 °C.
  const file = lines(
    'Time (s),TC1 (mV),CJ (°C)',
    rows(6, (i) => `${i},${(4.096 - 1).toFixed(3)},25.0`),
  );

  it('with the cold end at a fixed temperature', () => {
    const log = readLog(file, { thermocouple: { type: 'K', referenceC: 25 } });
    expect(log.channels[0]!.history.tempC[0]).toBeCloseTo(100, 1);
    expect(log.channels[0]!.sourceUnit).toBe('mV');
  });

  it('with the cold end in a column, row by row', () => {
    const moving = lines(
      'Time (s),TC1 (mV),CJ (°C)',
      ...['0,3.096,25.0', '1,4.096,0.0', '2,3.096,', '3,3.096,25.0'],
    );
    const log = readLog(moving, { thermocouple: { type: 'K', referenceColumn: 'CJ' } });
    expect(temps(log)).toEqual([100, 100, 100].map((t) => expect.closeTo(t, 1)));
    expect(log.channels[0]!.faults).toMatchObject([{ row: 4, kind: 'missing field', reason: /cold end/ }]);
  });

  it('finds the cold end by name', () => {
    const log = readLog(file, { thermocouple: { type: 'K' } });
    expect(log.channels[0]!.history.tempC[0]).toBeCloseTo(100, 1);
    expect(log.leftAside).toMatchObject([{ name: 'CJ (°C)', why: /cold end/ }]);
  });

  it('asks for the thermocouple, and for the cold end', () => {
    expect(() => readLog(file)).toThrow(/mV.*option thermocouple/s);
    const bare = lines(
      'Time (s),TC1 (mV)',
      rows(6, (i) => `${i},3.1`),
    );
    expect(() => readLog(bare, { thermocouple: { type: 'K' } })).toThrow(/cold end.*referenceC/s);
  });

  it('marks what no thermocouple of the type gives', () => {
    const log = readLog(lines('Time (s),TC1 (mV)', '0,3.1', '1,3.2', '2,80', '3,3.2'), {
      thermocouple: { type: 'K', referenceC: 0 },
    });
    expect(log.channels[0]!.faults).toMatchObject([{ row: 4, kind: 'over range', value: '80' }]);
  });
});

describe('blocks that restart their header', () => {
  it('are read as one log, columns found by name', () => {
    const log = readLog(
      lines(
        ...['Mast foot', 'Time (s),TC1 (°C),TC2 (°C)', '0,22,23', '1,22.5,23.5', ''],
        ...['Mast foot', 'Time (s),TC2 (°C),TC1 (°C)', '2,24,23', '3,24.5,23.5'],
      ),
    );
    expect(temps(log, 0)).toEqual([22, 22.5, 23, 23.5]);
    expect(temps(log, 1)).toEqual([23, 23.5, 24, 24.5]);
    expect(log.rows).toEqual({ read: 4, kept: 4, flagged: 0, rejected: 0 });
    expect(noteWith(log, /header starts over 1 time/)).toBeTypeOf('string');
    expect(noteWith(log, /From row 7 on the columns stand otherwise/)).toBeTypeOf('string');
  });

  it('one sample to a block, each with its own date, are placed by their start times', () => {
    const block = (i: number) => [
      ...['Date\t2031/05/06', `Time\t18:30:${String(10 + 2 * i).padStart(2, '0')}.50000000000000000000`],
      ...['Samples\t1\t1', '***', 'X_Value\tTemp_0 (°C)\tComment', `0.000000\t${20 + i}.5\t`],
    ];
    const log = readLog(lines(...[0, 1, 2, 3].map(block)));
    expect(times(log)).toEqual([0, 2, 4, 6]);
    expect(temps(log)).toEqual([20.5, 21.5, 22.5, 23.5]);
    expect(log.startedAt).toBe('2031-05-06T18:30:10.500');
  });

  it('a channel that a block lacks has no fault there', () => {
    const log = readLog(
      lines(...['Time (s),TC1 (°C),TC2 (°C)', '0,22,23', '1,22,23', 'Time (s),TC1 (°C)', '2,22', '3,22']),
    );
    expect(log.channels.map(({ history }) => history.timeS.length)).toEqual([4, 2]);
    expect(log.channels.flatMap(({ faults }) => faults)).toEqual([]);
    expect(log.rows.kept).toBe(4);
  });

  it('passes comments over and counts a marker line as a row it cannot use', () => {
    const log = readLog(lines('Time (s),TC1 (°C)', '0,22', '# arc on', '1,22', 'arc off,', '2,22', '3,22'));
    expect(log.rows).toEqual({ read: 5, kept: 4, flagged: 0, rejected: 1 });
    expect(log.rowFaults).toMatchObject([{ row: 5, kind: 'clock', column: 'Time (s)', value: 'arc off,' }]);
    expect(noteWith(log, /1 comment line/)).toBeTypeOf('string');
  });
});
