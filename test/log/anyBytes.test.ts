import { describe, expect, it } from 'vitest';
import { type ReadOptions, readLog } from '../../lib/log';
import { TemperbookError } from '../../lib/quantity';
import { fc } from '../setup/fc';
import { checkPromises } from './promises';
import { lines, rows, weldC } from './write';

/** Reads and checks; only the kit's own error may come out. Returns what happened. */
function attempt(bytes: Uint8Array, options?: ReadOptions): 'log' | 'error' {
  try {
    checkPromises(readLog(bytes, options));
    return 'log';
  } catch (error) {
    if (!(error instanceof TemperbookError)) throw error;
    expect(error.message).not.toMatch(/undefined|\[object/);
    return 'error';
  }
}

const VALID: readonly Uint8Array[] = [
  lines(
    'Time (s),TC1 (°C),TC2 (°C)',
    rows(40, (i) => `${i / 2},${weldC(i / 2).toFixed(1)},${weldC(i / 2, 90).toFixed(1)}`),
  ),
  lines(
    'Datum;Zeit;TC1 [°F];Strom [A]',
    rows(
      40,
      (i) =>
        `06.05.2031;23:59:${String(20 + i).padStart(2, '0')},5;${(70 + i).toFixed(1).replace('.', ',')};120`,
    ),
  ),
  lines(
    's C C',
    'time TC1 TC2',
    rows(40, (i) => `${i} ${20 + i} OPEN`),
  ),
  lines(
    '"Stamp","CH1"',
    rows(40, (i) => `"2031-05-06T18:00:${String(i).padStart(2, '0')}Z","${22 + i}.5"`),
  ),
  lines(...rows(8, (i) => `Start 2031-05-06 18:00:0${i}\nTime\tTC1 (°C)\n0.0\t2${i}.5`)),
  Buffer.from(
    `\ufeff${Buffer.from(
      lines(
        'Time (s),TC1 (°C)',
        rows(30, (i) => `${i},${20 + i}`),
      ),
    )}`,
    'utf16le',
  ),
];

const runs = { numRuns: 400 };

describe('whatever bytes come', () => {
  it('noise is an error or a log that keeps its promises', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 600 }), (bytes) => void attempt(bytes)),
      runs,
    );
  });

  it('so are texts made of what logs are made of', () => {
    const piece = fc.constantFrom(
      ...[
        '0',
        '1',
        '22.5',
        '-',
        ',',
        ';',
        '\t',
        ' ',
        '\n',
        '\r\n',
        '\r',
        '"',
        '.',
        ':',
        '/',
        '12:00:01',
        '2031-05-06',
        '06/05/2031',
        'Time',
        'TC1 (°C)',
      ],
      ...[
        's',
        '°F',
        'OPEN',
        'NaN',
        '9.9E37',
        '32767',
        '1e999',
        '\0',
        '\ufeff',
        '#',
        'AM',
        '-273.15',
        '1,234.5',
        '99999999999999999999',
        '1767225600',
        '%',
        '°',
        '€',
      ],
    );
    const text = fc.array(piece, { maxLength: 300 }).map((pieces) => Buffer.from(pieces.join('')));
    fc.assert(
      fc.property(text, (bytes) => void attempt(bytes)),
      { numRuns: 800 },
    );
  });

  it('so are tables of such fields', () => {
    const field = fc.constantFrom(
      '0',
      '1',
      '2',
      '3',
      '4.5',
      '22',
      '23.5',
      '300',
      '',
      'OPEN',
      'x',
      '12:00:00',
      '11:59:59',
      '2031-05-06 10:00:00',
      '05/06/2031',
      '1767225600',
      '9999',
      '"5"',
      '-',
      '1,5',
    );
    const table = fc
      .tuple(
        fc.constantFrom(',', ';', '\t', ' '),
        fc.array(fc.array(field, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 40 }),
      )
      .map(([delimiter, cells]) => Buffer.from(cells.map((row) => row.join(delimiter)).join('\n')));
    const options = fc.constantFrom<ReadOptions>(
      {},
      { unit: '°C' },
      { intervalS: 1, unit: '°F' },
      { unit: 'K', delimiter: ',' },
    );
    fc.assert(
      fc.property(table, options, (bytes, chosen) => void attempt(bytes, chosen)),
      { numRuns: 700 },
    );
  });

  it('so are good logs with bytes changed, cut out and doubled, and most of them are still read', () => {
    const change = fc.record({
      at: fc.nat(),
      byte: fc.nat(255),
      what: fc.constantFrom('set', 'cut', 'double', 'insert'),
    });
    let read = 0;
    let tried = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...VALID),
        fc.array(change, { minLength: 1, maxLength: 12 }),
        (valid, changes) => {
          let bytes = Buffer.from(valid);
          for (const { at, byte, what } of changes) {
            const i = at % Math.max(1, bytes.length);
            if (what === 'set') bytes[i] = byte;
            else if (what === 'insert')
              bytes = Buffer.concat([bytes.subarray(0, i), Buffer.from([byte]), bytes.subarray(i)]);
            else if (what === 'cut')
              bytes = Buffer.concat([bytes.subarray(0, i), bytes.subarray(i + (byte % 40))]);
            else bytes = Buffer.concat([bytes.subarray(0, i + (byte % 80)), bytes.subarray(i)]);
          }
          tried++;
          if (attempt(bytes) === 'log') read++;
        },
      ),
      { numRuns: 300 },
    );
    expect(read / tried).toBeGreaterThan(0.5);
  });

  it.each(VALID.map((bytes, i) => [i, bytes] as const))('good log %i can be cut anywhere', (_, bytes) => {
    for (let end = 0; end < bytes.length; end += 7) attempt(bytes.subarray(0, end));
    expect(attempt(bytes)).toBe('log');
  });
});

describe('time grows in step with the file', () => {
  const big = (text: string, n: number) => Buffer.from(text.repeat(n));
  it.each<readonly [string, Uint8Array]>([
    ['one endless line of numbers', big('1,', 500_000)],
    ['one endless word', big('x', 1_000_000)],
    ['an endless number', Buffer.concat([lines('Time (s),TC1 (°C)', '0,20', '1,21'), big('9', 1_000_000)])],
    [
      'quotes that never close',
      Buffer.concat([lines('Time (s),TC1 (°C)', '0,20', '1,21'), big('"1,2\n', 200_000)]),
    ],
    ['nothing but delimiters', big(',;\t ', 250_000)],
    ['nothing but line ends', big('\r\n', 500_000)],
    ['a header without end', big('Operator,none\n', 70_000)],
    ['a names row again and again', big('Time (s),TC1 (°C)\n0,20\n', 10_000)],
    [
      'names rows that differ each time',
      Buffer.from(rows(5_000, (i) => `Time (s),TC1 (°C),X${i}\n${i},20,3\n`).join('')),
    ],
    [
      'a fault in every field',
      Buffer.concat([
        lines('Time (s),TC1 (°C)'),
        Buffer.from(rows(60_000, (i) => `${i},${['OPEN', 'NaN', '', '9999'][i % 4]}\n`).join('')),
      ]),
    ],
    [
      'a spike at every other row',
      Buffer.concat([
        lines('Time (s),TC1 (°C)'),
        Buffer.from(rows(30_000, (i) => `${i},${i % 2 ? 20 : 900}\n`).join('')),
      ]),
    ],
    [
      'restarts without end',
      Buffer.concat([
        lines('Time (s),TC1 (°C)'),
        Buffer.from(rows(100_000, (i) => `${i % 5},20\n`).join('')),
      ]),
    ],
    ['zero bytes', Buffer.alloc(1_000_000)],
    [
      'a thousand columns',
      Buffer.from(
        `${rows(900, (i) => `T${i} (°C)`).join()}\n${rows(200, (r) => rows(900, (c) => (c ? ['20', 'OPEN', 'NaN'][(r + c) % 3]! : String(r))).join()).join('\n')}`,
      ),
    ],
  ])('%s', (_, bytes) => {
    const start = performance.now();
    attempt(bytes);
    // A quadratic step would take minutes on a megabyte; this is no measure of speed.
    expect(performance.now() - start).toBeLessThan(15_000);
  });
});
