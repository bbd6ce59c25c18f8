import { describe, expect, it } from 'vitest';
import { exposureOf, type JudgeOptions } from '../../lib/decision';
import type { Exposure, ShiftDoubt } from '../../lib/exposure';
import { readLog } from '../../lib/log';
import { strengthAfter } from '../../lib/strength';
import { type Course, cool, csv, judged, pass, USUAL } from './logs';

const METAL = { alloy: 'A356.0', temper: 'T6' };

const lostBetween =
  (fromS: number, toS: number, course: Course): Course =>
  (t) =>
    t > fromS && t < toS ? '' : course(t);
const joinRows = (first: string, second: string): string => first + second.split('\n').slice(1).join('\n');
/** A probe that loses its grip over nine seconds. */
const fading =
  (fromS: number, course: (t: number) => number): Course =>
  (t) => {
    const grip = t < fromS ? 1 : Math.max(0, 1 - (t - fromS) / 9);
    return 22 + (course(t) - 22) * grip;
  };

/** Files that hid heat, each with what the verdict must say of it. */
const HIDING: readonly (readonly [what: string, file: string, says: RegExp, more?: Partial<JudgeOptions>])[] =
  [
    [
      'a start at 149 °C that falls',
      csv({ TC1: (t) => 22 + 127 * Math.exp(-t / 300) }, { toS: 1500 }),
      /starts at 149 °C .*falls: what the metal saw before is not recorded/,
    ],
    [
      'an end at 250 °C, flat',
      csv({ TC1: (t) => Math.min(250, 22 + 2 * t) }, { toS: 600 }),
      /ends at 250 °C .*does not fall/,
    ],
    ['an end that rises', csv({ TC1: (t) => 22 + 0.3 * t }, { toS: 600 }), /still rising/],
    [
      'a slow oven still rising',
      csv({ TC1: (t) => 22 + 0.02 * t }, { toS: 7200, everyS: 10 }),
      /still rising/,
      { isOven: true },
    ],
    [
      'a weld lost in a gap of five minutes',
      csv({ TC1: lostBetween(390, 690, pass(400, 400, 40)) }, { toS: 1200 }),
      /no trusted reading for 5 min from 6\.5 min/,
    ],
    [
      'a neighbour alive for two seconds of seven minutes',
      csv(
        { TC1: lostBetween(390, 810, cool), TC2: (t) => (t >= 500 && t <= 502 ? cool() : '') },
        { toS: 1200 },
      ),
      /TC1.*measure there/,
    ],
    [
      'a probe that fades to the air in nine seconds',
      csv({ TC1: fading(70, pass(60, 150, 400)) }, { toS: 900 }),
      /to that of the air within \d+ s, .*let go/,
    ],
    [
      'the same beside a probe that holds',
      csv({ TC2: pass(61, 140, 120), TC1: fading(70, pass(60, 150, 400)) }, { toS: 900 }),
      /TC1.*measure there/,
    ],
    [
      'a spike of 420 °C logged once a minute',
      csv({ TC1: (t) => (t > 605 && t < 615 ? 420 : cool()) }, { toS: 1800, everyS: 60 }),
      /readings are up to 60 s apart/,
    ],
    [
      'an interval that changes to a minute',
      joinRows(
        csv({ TC1: pass(30, 140) }, { toS: 300 }),
        csv({ TC1: pass(30, 140) }, { fromS: 360, toS: 1500, everyS: 60 }),
      ),
      /From 5 min into the log, readings are up to 60 s apart/,
    ],
    [
      'two files pasted together',
      csv({ TC1: cool }, { toS: 600 }) + csv({ TC1: cool }, { toS: 600 }),
      /starts anew 10 min into the log, after a time that nothing tells/,
    ],
    [
      'a module that saturates at 200 °C',
      csv({ TC1: (t) => Math.min(200, pass(60, 330)(t)).toFixed(1) }, { toS: 900 }),
      /the range of the module ends there/,
    ],
    [
      'a module that saturates at 200 °C, among noise',
      csv({ TC1: (t) => Math.min(200, pass(60, 330)(t) + 0.2 * Math.sin(7 * t)).toFixed(1) }, { toS: 900 }),
      /no trusted reading|the range of the module ends there/,
    ],
    [
      'a module that ends at 210 °C, ten readings a second and noise in its last digits',
      csv({ TC1: (t) => Math.min(210, pass(60, 330)(t)) }, { toS: 400, everyS: 0.1 }),
      /the range of the module ends there/,
    ],
    [
      'a dead probe',
      csv({ TC1: pass(60, 150), TC2: () => '0.0' }, { toS: 900 }),
      /Nothing is known of the metal at TC2: measure there/,
    ],
    [
      'a column without any reading',
      csv({ TC1: cool, TC2: () => '' }, { toS: 900 }),
      /Nothing is known of the metal at TC2/,
    ],
    [
      'a channel frozen while cool, alone',
      csv({ TC1: (t) => (t < 100 ? cool() : '22.7') }, { toS: 900 }),
      /stands at exactly 22\.7 °C .*frozen/,
    ],
    [
      'a channel frozen in the heat',
      csv({ TC1: pass(60, 150), TC2: (t) => (t < 70 ? pass(60, 150)(t) : '141.7') }, { toS: 900 }),
      /TC2.*measure there/,
    ],
    [
      'a reversed probe, alone',
      csv({ TC1: (t) => 44 - pass(60, 90)(t) }, { toS: 900 }),
      /wires may be swapped/,
    ],
    [
      'a reversed probe beside a good one',
      csv({ TC1: pass(60, 90), TC2: (t) => 44 - pass(60, 90)(t) }, { toS: 900 }),
      /Nothing is known of the metal at TC2/,
    ],
    [
      'a probe whose wires are swapped in mid-file',
      csv({ TC1: (t) => (t < 300 ? pass(30, 120)(t) : 44 - pass(400, 90)(t)) }, { toS: 900 }),
      /wires may be swapped/,
    ],
    [
      'the same beside a good one',
      csv({ TC2: pass(400, 120), TC1: (t) => (t < 300 ? cool() : 44 - pass(400, 90)(t)) }, { toS: 900 }),
      /TC1.*measure there/,
    ],
    [
      'two neighbours swapped in mid-file',
      csv(
        {
          TC1: (t) => (t < 100 ? pass(60, 260, 200) : pass(60, 120, 200))(t),
          TC2: (t) => (t < 100 ? pass(60, 120, 200) : pass(60, 260, 200))(t),
        },
        { toS: 900 },
      ),
      /TC1.*measure there/,
    ],
    [
      'a probe that goes with the air',
      csv(
        {
          TC1: pass(60, 150),
          Air: (t) => 22 + 3 * Math.sin(t / 100),
          TC2: (t) => 22 + 3 * Math.sin(t / 100),
        },
        { toS: 900 },
      ),
      /goes with the air while the part is hot/,
    ],
    [
      'infrared on bare metal, by the file’s words',
      csv({ TC1: cool }, { toS: 600, words: 'Sensor: infrared pyrometer' }),
      /infrared instrument: bare aluminium/,
    ],
    [
      'infrared on bare metal, as said',
      csv({ TC1: cool }, { toS: 600 }),
      /infrared instrument: bare aluminium/,
      { instrument: 'infrared on bare metal' },
    ],
    [
      'a start at 38 °C that falls, far below what softens',
      csv({ TC1: (t) => 22 + 16 * Math.exp(-t / 300) }, { toS: 1500 }),
      /starts at 38 °C .*falls: what the metal saw before is not recorded/,
    ],
    [
      'an end as the arc starts, at 46 °C',
      csv({ TC1: pass(898, 380) }, { toS: 900 }),
      /ends at 46 °C .*still rising/,
    ],
    [
      'an end at 60 °C on a slow way up',
      csv({ TC1: (t) => 22 + Math.max(0, 0.05 * (t - 140)) }, { toS: 900 }),
      /ends at 60 °C .*still rising/,
    ],
    [
      'a probe that is not in the second half of the file, beside a cool one',
      csv({ TC1: cool, TC2: cool }, { toS: 300 }) + csv({ TC2: cool }, { fromS: 301, toS: 900 }),
      /TC1.*measure there/,
    ],
    [
      'a mean of a minute, by the column’s name',
      csv({ 'TC1 60s avg': (t) => (pass(300, 380, 20)(t) + 59 * cool()) / 60 }, { toS: 900 }),
      /mean of 60 s|mean of 1 min/,
    ],
    [
      'a mean of 60 samples, by the file’s words',
      csv({ TC1: cool }, { toS: 900, words: 'Moving average: 60 samples' }),
      /mean of 60 s|mean of 1 min/,
    ],
    [
      'a slow filter, by the file’s words',
      csv({ TC1: cool }, { toS: 900, words: 'Input filter: time constant 60 s' }),
      /mean of 60 s|mean of 1 min/,
    ],
    [
      'the lowest reading of each interval',
      csv({ 'TC1 min': cool }, { toS: 900, everyS: 10 }),
      /holds the lowest reading of each interval/,
    ],
    [
      'readings held by the file’s own status column',
      csv({ TC1: cool, Status: (t) => (t > 300 && t < 460 ? 'HOLD' : 'OK') }, { toS: 900 }).replace(
        'Status (°C)',
        'Status',
      ),
      /no trusted reading for 2\.7 min from 5 min/,
    ],
    [
      'readings that a column of 0 and 1 calls not valid',
      csv({ TC1: cool, V: (t) => (t > 300 && t < 460 ? '0' : '1') }, { toS: 900 }).replace(
        'V (°C)',
        'TC1 valid',
      ),
      /no trusted reading for 2\.7 min from 5 min/,
    ],
    [
      'a fixture, by its name',
      csv({ Fixture: cool, TC1: cool }, { toS: 900 }),
      /Nothing is known of the metal at Fixture|Fixture/,
    ],
    [
      'a fall of 40 K to the air in a second, as when the file is cut or the probe let go',
      csv({ TC1: (t) => (t < 300 ? pass(60, 150, 200)(t) : cool()) }, { toS: 900 }),
      /to that of the air within \d+ s, .*let go/,
    ],
    [
      'inputs scanned every half minute, a row every second',
      csv({ TC1: (t) => (22.4 + 0.1 * ((Math.floor(t / 30) * 7) % 5)).toFixed(1) }, { toS: 900 }),
      /the reading changes only every 30 s/,
    ],
    [
      'a module that ends at 99.9 °C, with a cold end that moves',
      csv({ TC1: (t) => Math.min(99.9, pass(300, 380, 20)(t)) }, { toS: 900 }),
      /the range of the module ends there/,
    ],
    [
      'a file whose unit is not said',
      csv({ TC1: () => 50 }, { toS: 600 }).replaceAll(' (°C)', ''),
      /read as °F, but may be meant as °C: say which/,
    ],
  ];

/** Files that hide nothing worth a word. */
const WHOLE: readonly (readonly [what: string, file: string, more?: Partial<JudgeOptions>])[] = [
  ['a cool, whole log', csv({ TC1: cool }, { toS: 1200 })],
  [
    'a warm bath that the probe follows within half a minute',
    csv(
      {
        TC1: (t) =>
          22 + (t < 50 ? 0 : 70 * (1 - Math.exp((50 - t) / 10))) * (t < 350 ? 1 : Math.exp((350 - t) / 200)),
      },
      { toS: 1500, everyS: 0.5 },
    ),
  ],
  ['a mild weld with its cooling', csv({ TC1: pass(60, 150) }, { toS: 900 })],
  ['a dropout of three seconds in a cool job', csv({ TC1: lostBetween(300, 303, cool) }, { toS: 600 })],
  [
    'five minutes lost while a neighbour stayed cool all along',
    csv({ TC1: lostBetween(390, 690, cool), TC2: cool }, { toS: 1200 }),
  ],
  ['an end at 110 °C that falls', csv({ TC1: pass(60, 160, 120) }, { toS: 170 })],
  [
    'an oven’s log, once a minute',
    csv({ TC1: (t) => 22 + 60 * Math.exp(-(((t - 1800) / 600) ** 2)) }, { toS: 5400, everyS: 60 }),
    { isOven: true },
  ],
  [
    'an input without a probe, as said',
    csv({ TC1: cool, TC2: () => '' }, { toS: 600 }),
    { byChannel: { TC2: { role: 'unused' } } },
  ],
  [
    'infrared on a painted spot',
    csv({ TC1: cool }, { toS: 600, words: 'Sensor: infrared pyrometer' }),
    { instrument: 'infrared on a painted spot' },
  ],
  ['a warm shop that comes and goes', csv({ TC1: (t) => 31 + 0.5 * Math.sin(t / 200) }, { toS: 1200 })],
  [
    'two mild welds that two probes feel',
    csv({ TC1: pass(60, 120, 80), TC2: pass(65, 95, 90) }, { toS: 1200 }),
  ],
  [
    'a probe far off that still warms while the hottest cools',
    csv({ TC1: pass(60, 150, 200), TC2: (t) => 22 + 25 * (1 - Math.exp(-t / 600)) }, { toS: 700 }),
  ],
  [
    'a file whose status column finds nothing wrong',
    csv({ TC1: cool, Status: () => 'OK' }, { toS: 900 }).replace('Status (°C)', 'Status'),
  ],
  [
    'the lowest beside the highest',
    csv({ 'TC1 min': cool, 'TC1 max': () => cool() + 0.3 }, { toS: 900, everyS: 5 }),
  ],
  ['a filter against the mains', csv({ TC1: cool }, { toS: 900, words: 'Input filter: 50 Hz' })],
  [
    'a quiet log to whole degrees, cooling slowly',
    csv({ TC1: (t) => String(Math.round(22 + 7 * Math.exp(-t / 900))) }, { toS: 1800 }),
  ],
  [
    'a part beside a probe of the air',
    csv({ TC1: cool, 'Shop air': (t) => 22 + 3 * Math.sin(t / 100) }, { toS: 900 }),
  ],
];

describe('heat that a file hides, from its bytes to the word', () => {
  it.each(HIDING.map(([what, file, says, more]) => ({ what, file, says, more })))(
    '$what is never cleared, and the verdict says why',
    ({ file, says, more }) => {
      const verdict = judged(file, more);
      expect(verdict.verdict).not.toBe('kept');
      expect(verdict.chanceKept).toBeNull();
      const told = [
        verdict.sentence,
        ...verdict.channels.filter((c) => c.verdict !== 'kept').map((c) => `${c.name}: ${c.sentence}`),
      ].join(' ');
      expect(told).toMatch(says);
    },
  );

  it.each(WHOLE.map(([what, file, more]) => ({ what, file, more })))('$what is kept', ({ file, more }) => {
    const verdict = judged(file, more);
    expect(verdict.sentence).toMatch(/temper held wherever a probe looked/);
    expect(verdict.verdict).toBe('kept');
    expect(verdict.chanceKept).toBeGreaterThan(0.95);
  });

  it('a pass nearer than any before, in a gap of 90 s that the neighbour only feels afterwards, stays a doubt', () => {
    const hidden = lostBetween(400, 490, (t) => Math.max(pass(60, 150)(t), pass(405, 330, 30)(t)));
    const neighbour: Course = (t) => Math.max(pass(60, 110)(t), pass(485, 70)(t));
    const { verdict, channels } = judged(csv({ TC1: hidden, TC2: neighbour }, { toS: 1200 }));
    expect(verdict).toBe('uncertain');
    expect(channels[0]!.peakC.high).toBeGreaterThan(330);
  });

  it('what a blind record does show may still be lost', () => {
    const verdict = judged(csv({ TC1: (t) => Math.min(420, 22 + 4 * t) }, { toS: 3600 }));
    expect(verdict).toMatchObject({ verdict: 'lost', chanceKept: null });
    expect(verdict.channels[0]!.sentence).toMatch(/does not even hold all the heat/);
  });

  it('means over an interval hide more of a peak than readings', () => {
    const course = pass(60, 300, 60);
    const of = (name: string) =>
      exposureOf(
        readLog(Buffer.from(csv({ [name]: course }, { toS: 900, everyS: 3 })), { name: 'mast-foot.csv' }),
        name,
        USUAL,
      );
    const [readings, means] = [of('TC1'), of('TC1 mean')];
    const hottest = ({ history, doubts }: Exposure) => {
      const between = doubts.find(({ kind }) => kind === 'between readings') as ShiftDoubt;
      return Math.max(...history.tempC.map((temp, i) => temp + between.shiftK[i]!));
    };
    expect(hottest(means)).toBeGreaterThan(hottest(readings));
    const low = (exposure: Exposure) =>
      strengthAfter(exposure, METAL, { draws: 400, endOnly: true }).yieldKeptFraction.low;
    expect(low(means)).toBeLessThan(low(readings));
    expect(means.because.join(' ')).toMatch(/mean of its interval/);
  });

  it('refuses a log and options that name two wires, and takes the wire the file names', () => {
    const file = csv({ TC1: cool }, { toS: 600, words: 'Thermocouple type: J' });
    expect(() => judged(file, { thermocouple: { standard: 'IEC 60584-1', class: 2, type: 'K' } })).toThrow(
      /another wire.*"Thermocouple type: J" in the file, type K in the option/s,
    );
    expect(judged(file).assumptions.find(({ name }) => name === 'Thermocouple wire')!.value).toMatch(
      /type J/,
    );
  });

  it('says of a probe of the air that it is not judged', () => {
    const { notJudged, channels } = judged(csv({ TC1: cool, 'Shop air': cool }, { toS: 600 }));
    expect(channels.map(({ name }) => name)).toEqual(['TC1']);
    expect(notJudged).toEqual([
      { name: 'Shop air', isOnPart: false, because: 'It reads the air, not the part.' },
    ]);
  });

  it.each(['TCAmb', 'TC air', 'T_room', 'Internal temp', 'CJ'])(
    'does not clear a part by a log of nothing but "%s"',
    (name) => {
      expect(() => judged(csv({ [name]: cool }, { toS: 600 }))).toThrow(/no channel that can be judged/);
    },
  );

  it('carries the other readings of a file in the verdict', () => {
    const file = csv({ TC1: () => 50 }, { toS: 600 }).replaceAll(' (°C)', '');
    expect(judged(file).openReadings.map(({ of, option }) => [of, option])).toEqual([['unit', 'unit']]);
  });

  it('asks for the fixing nobody stated, and says what stating it would change', () => {
    const file = csv({ TC1: pass(60, 270, 60) }, { toS: 900 });
    const untold = judged(file, { attachment: undefined });
    expect(untold.fixingNotStated).toEqual(['TC1']);
    expect(untold.verdict).toBe('uncertain');
    expect(untold.channels[0]!.sentence).toMatch(/Nobody said how this probe is fixed.*the chance would be/);
    expect(judged(file).fixingNotStated).toEqual([]);
  });
});
