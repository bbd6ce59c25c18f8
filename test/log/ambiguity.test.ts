import { describe, expect, it } from 'vitest';
import { readLog, type ThermalLog } from '../../lib/log';
import { TemperbookError } from '../../lib/quantity';
import { lines, rows } from './write';

/**
 * Small files that can be read in more ways than one, made from a known trace. Each is held when it is read as
 * it was made, when the way it was made is among its open readings, when the readings that cannot be known are
 * faults, or when it is refused with a remedy. Anything else is a silent wrong reading.
 */
interface Case {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** What was measured at each row of the file, °C, by channel; and when, s from the first row. */
  readonly tempC: readonly ((i: number) => number)[];
  readonly timeS: (i: number) => number;
  readonly held: 'read' | 'open' | 'refused' | 'faults';
  /** Option the open reading names, or words of the refusal. */
  readonly by?: string | RegExp;
}

/** Within the last printed digit of any file here (tenths of °F at the coarsest) and the spread of a stamp. */
const WITHIN_C = 0.51;
const WITHIN_S = 1e-3;

/** Invented weld cycle: room, up in four rows, slow fall; `i` counts rows. */
const weld =
  (roomC = 22, riseC = 180, startRow = 10) =>
  (i: number) =>
    i < startRow
      ? roomC
      : roomC + riseC * Math.min(1, (i - startRow) / 4) * Math.exp(-Math.max(0, i - startRow - 4) / 60);
const F = (tempC: number) => tempC * 1.8 + 32;
const two = (n: number) => String(n).padStart(2, '0');
const hms = (s: number) => `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
const COUNT = 150;
const file = (head: string | readonly string[], row: (i: number) => string, count = COUNT) =>
  lines(head, rows(count, row));
const second = (i: number) => i;
const thousands = (n: number) => n.toFixed(0).replace(/\B(?=(\d{3})+$)/g, ',');

const furnaceF = (i: number) => 940 + 90 * Math.sin(i / 20);
const CASES: readonly Case[] = [
  {
    name: '"1,004" as thousands beside 998 and 999',
    bytes: file('Time (s);TC1 (°F)', (i) => `${i};${thousands(furnaceF(i))}`),
    tempC: [(i) => (Math.round(furnaceF(i)) - 32) / 1.8],
    timeS: second,
    held: 'read',
  },
  {
    name: '"1,500" s as thousands in the clock',
    bytes: file('Time (s);TC1 (°C)', (i) => `${thousands(i * 30)};${weld()(i).toFixed(0)}`),
    tempC: [weld()],
    timeS: (i) => 30 * i,
    held: 'read',
  },
  {
    name: '"1.004" as thousands with a point',
    bytes: file('Time (s);TC1 (°F)', (i) => `${i};${thousands(furnaceF(i)).replace(',', '.')}`),
    tempC: [(i) => (Math.round(furnaceF(i)) - 32) / 1.8],
    timeS: second,
    held: 'read',
  },
  {
    name: 'three places after a decimal comma',
    bytes: file('Time (s);TC1 (°C)', (i) => `${i};${weld()(i).toFixed(3).replace('.', ',')}`),
    tempC: [weld()],
    timeS: second,
    held: 'read',
  },
  ...[40, 60, 80, 110].map(
    (startC): Case => ({
      name: `no unit, preheated to ${startC} °C`,
      bytes: file('Time (s),TC1', (i) => `${i},${weld(startC)(i).toFixed(1)}`),
      tempC: [weld(startC)],
      timeS: second,
      held: startC === 40 || startC === 110 ? (startC === 40 ? 'open' : 'refused') : 'open',
      by: startC === 110 ? /option unit/ : 'unit',
    }),
  ),
  {
    name: 'no unit, °F from a shop at 72 °F',
    bytes: file('Time (s),TC1', (i) => `${i},${F(weld()(i)).toFixed(1)}`),
    tempC: [weld()],
    timeS: second,
    held: 'read',
  },
  {
    name: 'no unit, a shop at 3 °C',
    bytes: file('Time (s),TC1', (i) => `${i},${weld(3)(i).toFixed(1)}`),
    tempC: [weld(3)],
    timeS: second,
    held: 'read',
  },
  {
    name: 'a unit column that says °F',
    bytes: file('Time (s),TC1,Unit', (i) => `${i},${F(weld(60)(i)).toFixed(1)},F`),
    tempC: [weld(60)],
    timeS: second,
    held: 'read',
  },
  {
    name: 'a unit column that changes',
    bytes: file('Time (s),TC1,Unit', (i) =>
      i < 70 ? `${i},${weld()(i).toFixed(1)},C` : `${i},${F(weld()(i)).toFixed(1)},F`,
    ),
    tempC: [weld()],
    timeS: second,
    held: 'refused',
    by: /unit.*changes/i,
  },
  {
    name: 'a unit column that contradicts the header',
    bytes: file('Time (s),TC1 (°C),Unit', (i) => `${i},${F(weld(60)(i)).toFixed(1)},F`),
    tempC: [weld(60)],
    timeS: second,
    held: 'open',
    by: 'unit',
  },
  {
    name: 'a unit that switches in mid-file',
    bytes: file('Time (s),TC1 (°C),TC2 (°C)', (i) => {
      const u = i < 70 ? (x: number) => x : F;
      return `${i},${u(weld()(i)).toFixed(1)},${u(weld(22, 90)(i)).toFixed(1)}`;
    }),
    tempC: [weld(), weld(22, 90)],
    timeS: second,
    held: 'refused',
    by: /unit/i,
  },
  {
    name: 'a header of °F over °C',
    bytes: file('Time (s),TC1 (°F)', (i) => `${i},${weld()(i).toFixed(1)}`),
    tempC: [weld()],
    timeS: second,
    held: 'open',
    by: 'unit',
  },
  {
    name: 'a header of °C over °F',
    bytes: file('Time (s),TC1 (°C)', (i) => `${i},${F(weld()(i)).toFixed(1)}`),
    tempC: [weld()],
    timeS: second,
    held: 'open',
    by: 'unit',
  },
  {
    name: 'a preamble that contradicts the column',
    bytes: file(['Units: Fahrenheit', 'Time (s),TC1 (°C)'], (i) => `${i},${F(weld(60)(i)).toFixed(1)}`),
    tempC: [weld(60)],
    timeS: second,
    held: 'open',
    by: 'unit',
  },
  {
    name: 'raw tenths without a unit',
    bytes: file('Time (s),TC1', (i) => `${i},${(weld()(i) * 10).toFixed(0)}`),
    tempC: [weld()],
    timeS: second,
    held: 'read',
  },
  {
    name: 'raw tenths under °C',
    bytes: file('Time (s),TC1 (°C)', (i) => `${i},${(weld(22, 40)(i) * 10).toFixed(0)}`),
    tempC: [weld(22, 40)],
    timeS: second,
    held: 'open',
    by: 'unit',
  },
  {
    name: 'rises over ambient, named so',
    bytes: file('Time (s),TC1 rise (°C)', (i) => `${i},${(weld()(i) - 22).toFixed(1)}`),
    tempC: [weld()],
    timeS: second,
    held: 'refused',
    by: /riseOverC/,
  },
  {
    name: 'rises over ambient, not named so',
    bytes: file('Time (s),TC1 (°C)', (i) => `${i},${(weld(25, 36)(i) - 25).toFixed(1)}`),
    tempC: [weld(25, 36)],
    timeS: second,
    held: 'open',
    by: 'riseOverC',
  },
  {
    name: 'mm:ss',
    bytes: file('Time,TC1 (°C)', (i) => `${two(Math.floor(i / 60))}:${two(i % 60)},${weld()(i).toFixed(1)}`),
    tempC: [weld()],
    timeS: second,
    held: 'open',
    by: 'clock.format',
  },
  {
    name: 'h:mm',
    bytes: file('Time,TC1 (°C)', (i) => `${Math.floor(i / 60)}:${two(i % 60)},${weld()(i).toFixed(1)}`),
    tempC: [weld()],
    timeS: (i) => 60 * i,
    held: 'open',
    by: 'clock.format',
  },
  {
    name: 'h:mm that says 14:05',
    bytes: file('Time,TC1 (°C)', (i) => `${14 + Math.floor(i / 60)}:${two(i % 60)},${weld()(i).toFixed(1)}`),
    tempC: [weld()],
    timeS: (i) => 60 * i,
    held: 'read',
  },
  {
    name: 'mm:ss under a header that gives the interval',
    bytes: file(
      ['Sample interval: 1 s', 'Time,TC1 (°C)'],
      (i) => `${two(Math.floor(i / 60))}:${two(i % 60)},${weld()(i).toFixed(1)}`,
    ),
    tempC: [weld()],
    timeS: second,
    held: 'read',
  },
  {
    name: 'HHMMSS',
    bytes: file(
      'Time,TC1 (°C)',
      (i) => `${hms(9 * 3600 + 30 + i).replace(/:/g, '')},${weld()(i).toFixed(1)}`,
    ),
    tempC: [weld()],
    timeS: second,
    held: 'read',
  },
  {
    name: '20250314093015',
    bytes: file(
      'Time,TC1 (°C)',
      (i) => `20250314${hms(9 * 3600 + 30 + i).replace(/:/g, '')},${weld()(i).toFixed(1)}`,
    ),
    tempC: [weld()],
    timeS: second,
    held: 'read',
  },
  ...(
    [
      ['s', 1],
      ['min', 60],
      ['h', 3600],
    ] as const
  ).map(
    ([unit, perUnit]): Case => ({
      name: `whole ${unit} under a bare "Time"`,
      bytes: file('Time,TC1 (°C)', (i) => `${i},${weld()(i).toFixed(1)}`),
      tempC: [weld()],
      timeS: (i) => perUnit * i,
      held: 'open',
      by: 'clock.format',
    }),
  ),
  {
    name: 'milliseconds under a bare "Time"',
    bytes: file('Time,TC1 (°C)', (i) => `${i * 1000},${weld()(i).toFixed(1)}`),
    tempC: [weld()],
    timeS: second,
    held: 'open',
    by: 'clock.format',
  },
  {
    name: 'minutes under a bare "Time" with an interval in the header',
    bytes: file(['Interval 1 min', 'Time,TC1 (°C)'], (i) => `${i},${weld()(i).toFixed(1)}`),
    tempC: [weld()],
    timeS: (i) => 60 * i,
    held: 'read',
  },
  {
    name: 'scan numbers and no clock',
    bytes: file('Scan,TC1 (°C)', (i) => `${i + 1},${weld()(i).toFixed(1)}`),
    tempC: [weld()],
    timeS: second,
    held: 'refused',
    by: /intervalS/,
  },
  {
    name: 'a twelve-hour clock without AM and PM',
    bytes: file('Time,TC1 (°C)', (i) => {
      const at = 12 * 3600 + 58 * 60 + i;
      return `${hms(at >= 13 * 3600 ? at - 12 * 3600 : at)},${weld()(i).toFixed(1)}`;
    }),
    tempC: [weld()],
    timeS: second,
    held: 'read',
  },
  {
    name: 'columns that shift while the delimiter stays',
    bytes: file('Time (s),TC1 (°C),TC2 (°C),TC3 (°C)', (i) => {
      const t = [weld()(i), weld(22, 120)(i), weld(22, 60)(i)].map((x) => x.toFixed(1));
      return `${i},${(i < 70 ? t : [t[1], t[2], t[0]]).join(',')}`;
    }),
    tempC: [weld(), weld(22, 120), weld(22, 60)],
    timeS: second,
    held: 'faults',
  },
  {
    name: 'two inputs swapped in mid-file',
    bytes: file('Time (s),TC1 (°C),TC2 (°C)', (i) => {
      const t = [weld()(i), weld(22, 60)(i)].map((x) => x.toFixed(1));
      return `${i},${(i < 70 ? t : t.reverse()).join(',')}`;
    }),
    tempC: [weld(), weld(22, 60)],
    timeS: second,
    held: 'faults',
  },
  {
    name: 'rows in no order',
    bytes: file('Time,TC1 (°C)', (i) => {
      const at = (i * 67) % COUNT;
      return `2031-05-06 ${hms(36_000 + at)},${weld()(at).toFixed(1)}`;
    }),
    tempC: [weld()],
    timeS: second,
    held: 'refused',
    by: /order/,
  },
  {
    name: 'rows newest first',
    bytes: file('Time (s),TC1 (°C)', (i) => `${COUNT - 1 - i},${weld()(COUNT - 1 - i).toFixed(1)}`),
    tempC: [weld()],
    timeS: second,
    held: 'read',
  },
  {
    name: 'the hour that spring takes away',
    bytes: file('Time,TC1 (°C)', (i) => {
      const at = 2 * 3600 - 60 + i;
      return `2031-03-30 ${hms(at < 2 * 3600 ? at : at + 3600)},${weld()(i).toFixed(1)}`;
    }),
    tempC: [weld()],
    timeS: second,
    held: 'read',
  },
  {
    name: 'UTC beside local time over the end of summer time',
    bytes: file('UTC,Local,TC1 (°C)', (i) => {
      const at = 3600 - 60 + i;
      return `2031-10-26 ${hms(at)},2031-10-26 ${hms(at < 3600 ? at + 7200 : at + 3600)},${weld()(i).toFixed(1)}`;
    }),
    tempC: [weld()],
    timeS: second,
    held: 'read',
  },
  {
    name: 'columns of two rates under one stamp',
    bytes: file(
      'Time (s),TC1 (°C),TC2 (°C)',
      (i) => `${i},${weld()(i).toFixed(1)},${i % 10 ? '' : weld(22, 60)(i).toFixed(1)}`,
    ),
    tempC: [weld(), weld(22, 60)],
    timeS: second,
    held: 'read',
  },
  {
    name: 'a long file of words',
    bytes: file('Time (s),Channel,Value (°C)', (i) => {
      const at = Math.floor(i / 2);
      return `${at},${i % 2 ? 'TC2' : 'TC1'},${weld(22, i % 2 ? 60 : 180)(at).toFixed(1)}`;
    }),
    tempC: [180, 60].map((rise) => (i) => weld(22, rise)(Math.floor(i / 2))),
    timeS: (i) => Math.floor(i / 2),
    held: 'read',
  },
  {
    name: 'a long file of channel numbers',
    bytes: file('Time (s),Channel,Value (°C)', (i) => {
      const at = Math.floor(i / 3);
      return `${at},${(i % 3) + 1},${weld(22, 60 * ((i % 3) + 1))(at).toFixed(1)}`;
    }),
    tempC: [60, 120, 180].map((rise) => (i) => weld(22, rise)(Math.floor(i / 3))),
    timeS: (i) => Math.floor(i / 3),
    held: 'read',
  },
  {
    name: 'a long file in blocks',
    bytes: file(
      'Time (s),Channel,Value (°C)',
      (i) => `${i % 75},${i < 75 ? 'TC1' : 'TC2'},${weld(22, i < 75 ? 180 : 60)(i % 75).toFixed(1)}`,
    ),
    tempC: [weld()],
    timeS: second,
    held: 'refused',
    by: /blocks/,
  },
  {
    name: 'names that come round and are not said to be channels',
    bytes: file('Time (s),Relay,TC1 (°C)', (i) => `${i},${i % 2 ? 'on' : 'off'},${weld()(i).toFixed(1)}`),
    tempC: [weld()],
    timeS: second,
    held: 'refused',
    by: /called "Channel"/,
  },
];

/** Is every trusted reading of the log what was measured, at the time at which it was? */
function isTrue(log: ThermalLog, { tempC, timeS, bytes }: Case): boolean {
  const firstRow =
    Buffer.from(bytes)
      .toString()
      .split('\n')
      .findIndex((line) => /^\d/.test(line)) + 1;
  const isReversed = log.notes.some((note) => /newest first/.test(note));
  return tempC.every((truth, k) => {
    const channel = log.channels[k];
    if (!channel || channel.history.timeS.length === 0) return false;
    const { history, rows: lineOf } = channel;
    const place = (n: number) => (isReversed ? COUNT - 1 - (lineOf[n]! - firstRow) : lineOf[n]! - firstRow);
    const zeroS = history.timeS[0]! - timeS(place(0));
    return history.tempC.every(
      (value, n) =>
        Math.abs(value - truth(place(n))) <= WITHIN_C &&
        Math.abs(history.timeS[n]! - zeroS - timeS(place(n))) <= WITHIN_S,
    );
  });
}

describe('a file that can be read in more ways than one', () => {
  it.each(CASES.map((one) => [one.name, one] as const))('%s', (_, one) => {
    const { bytes, held, by } = one;
    if (held === 'refused') {
      expect(() => readLog(bytes)).toThrow(TemperbookError);
      expect(() => readLog(bytes)).toThrow(by as RegExp);
      return;
    }
    const log = readLog(bytes);
    const left = log.channels.reduce((n, { faults }) => n + faults.length, 0);
    if (held === 'read' || held === 'faults') {
      expect(isTrue(log, one)).toBe(true);
      expect(left > 0).toBe(held === 'faults');
      return;
    }
    expect(log.openReadings.map(({ option }) => option)).toContain(by);
    const ways = log.openReadings.flatMap(({ other }) => other);
    const isAmong = ways.some(({ options }) => isTrue(readLog(bytes, options), one));
    expect(isTrue(log, one) || isAmong).toBe(true);
    // Said, it is open no more.
    for (const { taken, option } of log.openReadings)
      expect(readLog(bytes, taken.options).openReadings.map((open) => open.option)).not.toContain(option);
    expect(log.notes.some((note) => note.includes(`Option ${by} settles it`))).toBe(true);
  });
});

it('a channel that ends at a second header is told of', () => {
  const log = readLog(
    lines(
      'Time (s),TC1 (°C),TC2 (°C)',
      rows(40, (i) => `${i},${weld()(i).toFixed(1)},${weld(22, 60)(i).toFixed(1)}`),
      'Time (s),TC1 (°C)',
      rows(40, (i) => `${40 + i},${weld()(40 + i).toFixed(1)}`),
    ),
  );
  expect(log.notes).toContain(
    'Warning: from row 42 on the file has no column "TC2 (°C)"; nothing is known of it from there on.',
  );
  expect(log.channels[1]!.history.timeS.at(-1)).toBe(39);
});
