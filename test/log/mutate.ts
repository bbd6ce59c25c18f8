/** Random whole numbers below n, the same for the same seed (a linear congruential generator). */
export type Random = (n: number) => number;

export function randomFrom(seed: number): Random {
  let state = (seed * 2654435761 + 1) % 4294967296;
  return (n) => {
    state = (state * 1664525 + 1013904223) % 4294967296;
    return Math.floor((state / 4294967296) * n);
  };
}

/** How a log is written. */
export interface Dialect {
  readonly name: string;
  readonly head: readonly string[];
  readonly delimiter: string;
  readonly decimal: '.' | ',';
  readonly isQuoted: boolean;
  /** What a number of the file is in °C. */
  readonly toC: (value: number) => number;
  readonly fromC: (tempC: number) => number;
  readonly time: (i: number) => string;
  /** Seconds of a time as written, from any zero; NaN when it is written otherwise. */
  readonly seconds: (text: string) => number;
}

const two = (n: number) => String(n).padStart(2, '0');
const clock = (i: number) =>
  `${two(9 + Math.floor(i / 3600))}:${two(Math.floor(i / 60) % 60)}:${two(i % 60)}`;
const ofClock = (text: string) => {
  const match = /^(\d\d):(\d\d):(\d\d)$/.exec(text);
  return match ? Number(match[1]) * 3600 + Number(match[2]) * 60 + Number(match[3]) : Number.NaN;
};
const same = (x: number) => x;
const plain = (text: string) => (/^\d+\.\d$/.test(text) ? Number(text) : Number.NaN);

export const DIALECTS: readonly Dialect[] = [
  {
    name: 'commas, seconds',
    head: ['Device: A', 'Time (s),TC1 (°C),TC2 (°C)'],
    ...{ delimiter: ',', decimal: '.', isQuoted: false, toC: same, fromC: same },
    time: (i) => i.toFixed(1),
    seconds: plain,
  },
  {
    name: 'semicolons, decimal commas, °F, dates',
    head: ['Datum;TC1 [°F];TC2 [°F]'],
    ...{ delimiter: ';', decimal: ',', isQuoted: false },
    toC: (value) => (value - 32) / 1.8,
    fromC: (tempC) => tempC * 1.8 + 32,
    time: (i) => `16.05.2031 ${clock(i)}`,
    seconds: (text) => (text.startsWith('16.05.2031 ') ? ofClock(text.slice(11)) : Number.NaN),
  },
  {
    name: 'tabs, times of day, kelvin',
    head: ['Time\tTC1 (K)\tTC2 (K)'],
    ...{ delimiter: '\t', decimal: '.', isQuoted: false },
    toC: (value) => value - 273.15,
    fromC: (tempC) => tempC + 273.15,
    time: clock,
    seconds: ofClock,
  },
  {
    name: 'blanks',
    head: ['s C C', 'time TC1 TC2'],
    ...{ delimiter: ' ', decimal: '.', isQuoted: false, toC: same, fromC: same },
    time: (i) => i.toFixed(1),
    seconds: plain,
  },
  {
    name: 'quotes, ISO stamps',
    head: ['"Stamp","TC1 (°C)","TC2 (°C)"'],
    ...{ delimiter: ',', decimal: '.', isQuoted: true, toC: same, fromC: same },
    time: (i) => `2031-05-16T${clock(i)}`,
    seconds: (text) => (text.startsWith('2031-05-16T') ? ofClock(text.slice(11)) : Number.NaN),
  },
];

export const COUNT = 60;

/** A whole log: an invented weld cycle on two probes. */
export function wholeLog({ head, delimiter, decimal, isQuoted, fromC, time }: Dialect): string[] {
  const tempC = (i: number, riseC: number) =>
    i < 10 ? 22 : 22 + riseC * Math.min(1, (i - 10) / 8) * Math.exp(-Math.max(0, i - 18) / 60);
  const written = (value: number) => fromC(value).toFixed(2).replace('.', decimal);
  const rows = Array.from({ length: COUNT }, (_, i) =>
    [time(i), written(tempC(i, 180)), written(tempC(i, 90))]
      .map((field) => (isQuoted ? `"${field}"` : field))
      .join(delimiter),
  );
  return [...head, ...rows];
}

const TOKENS = [
  'OPEN',
  'NaN',
  '9999',
  '-',
  '#N/A',
  '',
  '*****',
  '1e99',
  '-273.15',
  '32767',
  'OL',
  '0x1F',
  '∞',
];

/** Ways in which logs go wrong, each on the lines of a whole one. */
export const MUTATORS: Readonly<
  Record<string, (lines: string[], random: Random, dialect: Dialect) => string[]>
> = {
  'a line lost': (l, r, d) => without(l, row(l, r, d), 1),
  'a line twice': (l, r, d) => insert(l, row(l, r, d), [l[row(l, r, d)]!]),
  'two lines changed over': (l, r, d) => {
    const i = Math.min(row(l, r, d), l.length - 2);
    return [...l.slice(0, i), l[i + 1]!, l[i]!, ...l.slice(i + 2)];
  },
  'the end cut off': (l, r, d) => l.slice(0, row(l, r, d) + 1),
  'a line cut off': (l, r, d) => change(l, row(l, r, d), (line) => line.slice(0, r(line.length + 1))),
  'two lines run together': (l, r, d) => {
    const i = Math.min(row(l, r, d), l.length - 2);
    return [...l.slice(0, i), l[i]! + l[i + 1]!, ...l.slice(i + 2)];
  },
  'words between': (l, r, d) => insert(l, row(l, r, d), ['*** operator went for a smoke ***']),
  'a blank line': (l, r, d) => insert(l, row(l, r, d), ['']),
  'a comment': (l, r, d) => insert(l, row(l, r, d), ['# door opened']),
  'the header again': (l, r, d) => insert(l, row(l, r, d), d.head),
  'a word for no reading': (l, r, d) => field(l, row(l, r, d), d, 2, () => TOKENS[r(TOKENS.length)]!),
  'words for no reading': (l, r, d) => {
    const from = row(l, r, d);
    const word = TOKENS[r(TOKENS.length)]!;
    return l.map((line, i) => (i >= from && i < from + 15 ? fieldOf(line, d, 2, () => word) : line));
  },
  'a sign turned': (l, r, d) => field(l, row(l, r, d), d, 2, (x) => `-${x}`),
  'a digit doubled': (l, r, d) => field(l, row(l, r, d), d, 2, (x) => x.replace(/\d/, '$&$&')),
  'a decimal mark lost': (l, r, d) => field(l, row(l, r, d), d, 2, (x) => x.replace(/[.,]/, '')),
  'a unit glued on': (l, r, d) => field(l, row(l, r, d), d, 2, (x) => `${x} °C`),
  'a field too many': (l, r, d) => change(l, row(l, r, d), (line) => `${line}${d.delimiter}7`),
  'a field lost': (l, r, d) =>
    change(l, row(l, r, d), (line) => line.split(d.delimiter).slice(0, -1).join(d.delimiter)),
  'an open quote': (l, r, d) => change(l, row(l, r, d), (line) => `"${line}`),
  'zero bytes': (l, r, d) => change(l, row(l, r, d), (line) => `${line}\0\0\0`),
  'a mark of the byte order': (l, r, d) => change(l, row(l, r, d), (line) => `\ufeff${line}`),
  'blanks around': (l, r, d) =>
    change(l, row(l, r, d), (line) => (d.delimiter === '\t' ? line : `  ${line} `)),
  'a time lost': (l, r, d) => field(l, row(l, r, d), d, 0, () => ''),
  'a time far ahead': (l, r, d) => field(l, row(l, r, d), d, 0, () => d.time(9000 + r(9000))),
  'a stretch lost': (l, r, d) => without(l, row(l, r, d), 1 + r(20)),
  'a stretch twice': (l, r, d) => {
    const i = row(l, r, d);
    return insert(l, i, l.slice(i, i + 1 + r(10)));
  },
  'a byte changed': (l, r) =>
    change(l, r(l.length), (line) => {
      const at = r(line.length + 1);
      return line.slice(0, at) + String.fromCharCode(32 + r(95)) + line.slice(at + 1);
    }),
};

const row = (lines: readonly string[], random: Random, { head }: Dialect) =>
  Math.min(head.length + random(COUNT), lines.length - 1);
const without = (lines: readonly string[], at: number, count: number) => [
  ...lines.slice(0, at),
  ...lines.slice(at + count),
];
const insert = (lines: readonly string[], at: number, more: readonly string[]) => [
  ...lines.slice(0, at),
  ...more,
  ...lines.slice(at),
];
const change = (lines: readonly string[], at: number, to: (line: string) => string) =>
  lines.map((line, i) => (i === at ? to(line) : line));

function fieldOf(
  line: string,
  { delimiter, isQuoted }: Dialect,
  k: number,
  to: (field: string) => string,
): string {
  const fields = line.split(delimiter);
  if (fields[k] === undefined) return line;
  const bare = isQuoted ? fields[k].replace(/^"|"$/g, '') : fields[k];
  fields[k] = isQuoted ? `"${to(bare)}"` : to(bare);
  return fields.join(delimiter);
}
const field = (lines: readonly string[], at: number, d: Dialect, k: number, to: (field: string) => string) =>
  change(lines, at, (line) => fieldOf(line, d, k, to));
