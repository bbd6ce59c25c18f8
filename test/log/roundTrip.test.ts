import { describe, expect, it } from 'vitest';
import { readLog } from '../../lib/log';
import { FAULT_KINDS } from '../../lib/log/faults/faultCodes';
import { fc } from '../setup/fc';

/** A random log, written down in a random way. */
interface Written {
  readonly stepS: number;
  readonly temps: readonly (readonly number[])[];
  readonly delimiter: ',' | ';' | '\t' | ' ';
  readonly decimal: '.' | ',';
  readonly unit: '°C' | '°F' | 'K';
  readonly unitIn: 'name' | 'row under' | 'row over' | 'fields';
  readonly clock:
    | 's'
    | 'ms'
    | 'min'
    | 'h:m:s'
    | 'iso'
    | 'iso T'
    | 'day first'
    | 'month first'
    | 'am/pm'
    | 'two columns'
    | 'epoch s'
    | 'epoch ms';
  readonly headerLines: number;
  readonly lineEnd: '\n' | '\r\n' | '\r';
  readonly encoding: 'utf8' | 'utf8 mark' | 'utf16le' | 'utf16be' | 'latin1';
  readonly quoted: boolean;
  readonly lastLineEnds: boolean;
}

/** 2031-05-13 23:58:30, so that logs pass midnight; the 13th tells the order of day and month. */
const START_MS = Date.UTC(2031, 4, 13, 23, 58, 30);
const DIGITS = 3;
const two = (n: number) => String(n).padStart(2, '0');

const written: fc.Arbitrary<Written> = fc
  .record({
    stepS: fc.constantFrom(0.1, 0.25, 0.5, 1, 2, 10),
    channels: fc.integer({ min: 1, max: 4 }),
    walk: fc.array(fc.integer({ min: -4000, max: 6000 }), { minLength: 5, maxLength: 60 }),
    delimiter: fc.constantFrom<Written['delimiter']>(',', ';', '\t', ' '),
    decimal: fc.constantFrom<Written['decimal']>('.', ','),
    unit: fc.constantFrom<Written['unit']>('°C', '°F', 'K'),
    unitIn: fc.constantFrom<Written['unitIn']>('name', 'row under', 'row over', 'fields'),
    clock: fc.constantFrom<Written['clock']>(
      's',
      'ms',
      'min',
      'h:m:s',
      'iso',
      'iso T',
      'day first',
      'month first',
      'am/pm',
      'two columns',
      'epoch s',
      'epoch ms',
    ),
    headerLines: fc.nat(40),
    lineEnd: fc.constantFrom<Written['lineEnd']>('\n', '\r\n', '\r'),
    encoding: fc.constantFrom<Written['encoding']>('utf8', 'utf8 mark', 'utf16le', 'utf16be', 'latin1'),
    quoted: fc.boolean(),
    lastLineEnds: fc.boolean(),
  })
  .map(({ channels, walk, ...rest }) => {
    // Steps of a few degrees, none of which is a spike; thousandths, so that what is written is exact.
    let last = 22_000;
    const temps = walk.map((step) => {
      last = Math.max(15_000, last + step);
      return Array.from({ length: channels }, (_, k) => (last + k * 137) / 1000);
    });
    const isComma = rest.delimiter === ',' && rest.decimal === ',';
    const isBlank = rest.delimiter === ' ';
    return {
      ...rest,
      temps,
      // Commas can only do both jobs when fields are quoted; blanks cannot stand inside unquoted fields.
      quoted: rest.quoted || isComma,
      unitIn: isBlank && rest.unitIn === 'fields' ? ('name' as const) : rest.unitIn,
    };
  });

function writeClock(w: Written, i: number): string[] {
  const t = i * w.stepS;
  const ms = Math.round(t * 1000);
  const at = new Date(START_MS + ms).toISOString();
  const fraction = w.stepS < 1 ? at.slice(19, 23).replace('.', w.decimal) : '';
  const time = at.slice(11, 19) + fraction;
  const [year, month, day] = at.slice(0, 10).split('-') as [string, string, string];
  const hour = Number(at.slice(11, 13));
  switch (w.clock) {
    case 's':
      return [t.toFixed(2).replace('.', w.decimal)];
    case 'ms':
      return [String(ms)];
    case 'min':
      return [(t / 60).toFixed(6).replace('.', w.decimal)];
    case 'h:m:s':
      return [time];
    case 'iso':
      return w.delimiter === ' ' ? [`${year}-${month}-${day}`, time] : [`${year}-${month}-${day} ${time}`];
    case 'iso T':
      return [`${year}-${month}-${day}T${time}`];
    case 'day first':
      return w.delimiter === ' ' ? [`${day}/${month}/${year}`, time] : [`${day}/${month}/${year} ${time}`];
    case 'month first':
      return w.delimiter === ' ' ? [`${month}/${day}/${year}`, time] : [`${month}/${day}/${year} ${time}`];
    case 'am/pm':
      return [
        `${two(hour % 12 === 0 ? 12 : hour % 12)}:${at.slice(14, 19)}${fraction}${w.delimiter === ' ' ? '' : ' '}${hour < 12 ? 'AM' : 'PM'}`,
      ];
    case 'two columns':
      return [`${day}.${month}.${year}`, time];
    case 'epoch s':
      return [((START_MS + ms) / 1000).toFixed(3).replace('.', w.decimal)];
    case 'epoch ms':
      return [String(START_MS + ms)];
  }
}

const inUnit = (tempC: number, unit: Written['unit']) =>
  unit === '°F' ? tempC * 1.8 + 32 : unit === 'K' ? tempC + 273.15 : tempC;

function write(w: Written): Buffer {
  const quote = (field: string) => (w.quoted ? `"${field}"` : field);
  const join = (fields: readonly string[]) => fields.map(quote).join(w.delimiter);
  const clockUnit = ({ s: 's', ms: 'ms', min: 'min' } as Record<string, string>)[w.clock] ?? '';
  const first = writeClock(w, 0);
  const clockNames =
    first.length === 2
      ? ['Date', 'Time']
      : [w.unitIn !== 'fields' || clockUnit === '' ? 'Time' : `Time_${clockUnit}`];
  const unit = w.encoding === 'latin1' || w.delimiter !== ' ' ? w.unit : w.unit;
  const space = w.delimiter === ' ' ? '' : ' ';
  const names = w.temps[0]!.map((_, k) =>
    w.unitIn === 'name' ? `TC${k + 1}${space}(${unit})` : `TC${k + 1}`,
  );
  const clockNamed = w.unitIn === 'name' && clockUnit !== '' ? [`Time${space}(${clockUnit})`] : clockNames;
  const nameRow = join([...clockNamed, ...names]);
  const unitRow = join([...first.map(() => (clockUnit === '' ? '-' : clockUnit)), ...names.map(() => unit)]);
  const header = Array.from({ length: w.headerLines }, (_, i) => `Setting ${i}: value ${i}`);
  const rows = w.temps.map((temps, i) =>
    join([
      ...writeClock(w, i),
      ...temps.map((tempC) => {
        const number = inUnit(tempC, w.unit).toFixed(DIGITS).replace('.', w.decimal);
        return w.unitIn === 'fields' ? `${number} ${w.unit}` : number;
      }),
    ]),
  );
  const lines = [
    ...header,
    ...(w.unitIn === 'row over' ? [unitRow] : []),
    nameRow,
    ...(w.unitIn === 'row under' ? [unitRow] : []),
    ...rows,
  ];
  const text = lines.join(w.lineEnd) + (w.lastLineEnds ? w.lineEnd : '');
  if (w.encoding === 'latin1') return Buffer.from(text, 'latin1');
  if (w.encoding === 'utf8') return Buffer.from(text);
  if (w.encoding === 'utf8 mark') return Buffer.from(`\ufeff${text}`);
  const wide = Buffer.from(`\ufeff${text}`, 'utf16le');
  return w.encoding === 'utf16be' ? wide.swap16() : wide;
}

describe('what is written in any way', () => {
  it('is read back within its print rounding', () => {
    fc.assert(
      fc.property(written, (w) => {
        const log = readLog(write(w));
        expect(log.channels.map(({ name }) => name)).toEqual(w.temps[0]!.map((_, k) => `TC${k + 1}`));
        expect(log.rows).toEqual({ read: w.temps.length, kept: w.temps.length, flagged: 0, rejected: 0 });
        // Half of the last printed digit, in K; for the clock half a printed millionth of a minute.
        const half = (0.5 * 10 ** -DIGITS) / (w.unit === '°F' ? 1.8 : 1) + 1e-9;
        log.channels.forEach(({ history, sourceUnit }, k) => {
          expect(sourceUnit).toBe(w.unit);
          history.tempC.forEach((tempC, i) => {
            if (Math.abs(tempC - w.temps[i]![k]!) > half)
              throw new Error(`row ${i}: ${tempC} for ${w.temps[i]![k]}`);
            if (Math.abs(history.timeS[i]! - i * w.stepS) > 31e-6)
              throw new Error(`row ${i}: at ${history.timeS[i]} s`);
          });
        });
      }),
      { numRuns: 400 },
    );
  });

  it('is read the same digit by digit and as strings', () => {
    fc.assert(
      fc.property(written, (w) => {
        const direct = readLog(
          write({ ...w, quoted: false, decimal: w.delimiter === ',' ? '.' : w.decimal }),
        );
        const quoted = readLog(write({ ...w, quoted: true, decimal: w.delimiter === ',' ? '.' : w.decimal }));
        expect(quoted.channels).toEqual(direct.channels);
        expect(quoted.startedAt).toBe(direct.startedAt);
      }),
      { numRuns: 200 },
    );
  });
});

describe('numbers', () => {
  it('are the nearest doubles to what is written, as the language itself reads them', () => {
    const number = fc
      .tuple(
        fc.constantFrom('', '-', '+'),
        fc.bigInt({ min: 0n, max: 10n ** 19n }),
        fc.nat(18),
        fc.constantFrom('', '', '', 'E-3', 'e+2'),
      )
      .map(([sign, digits, places, exponent]) => {
        const text = String(digits).padStart(places + 1, '0');
        const point = places === 0 ? text : `${text.slice(0, -places)}.${text.slice(-places)}`;
        return `${sign}${point}${exponent}`;
      })
      .filter((text) => Math.abs(Number(text)) < 9e8);
    fc.assert(
      fc.property(fc.array(number, { minLength: 3, maxLength: 20 }), (numbers) => {
        const text = `Time (s),TC1 (°C)\n${numbers.map((n, i) => `${i},${n}\n`).join('')}`;
        const log = readLog(Buffer.from(text), {
          limits: { lowC: -1e9, highC: 1e9, maxRateCPerS: Number.POSITIVE_INFINITY },
          sentinels: [],
          accept: FAULT_KINDS,
        });
        const read = new Map(
          [...log.channels[0]!.rows].map((row, i) => [row - 2, log.channels[0]!.history.tempC[i]!]),
        );
        numbers.forEach((n, i) => {
          // Zeros before the first other number, and what no metal can be, are rightly missing.
          if (read.has(i)) expect(read.get(i)! + 0).toBe(Number(n) + 0);
          else expect(Number(n) === 0 || Number(n) <= -273.15).toBe(true);
        });
      }),
      { numRuns: 300 },
    );
  });
});
