import { describe, expect, it } from 'vitest';
import { exposureOf } from '../../lib/decision';
import { readLog } from '../../lib/log';
import { strengthAfter } from '../../lib/strength';
import { AIR_C, type Course, cool, csv, pass, USUAL } from './logs';

const cooling =
  (fromC: number, tauS: number, startS = 0) =>
  (t: number): number =>
    AIR_C + (fromC - AIR_C) * Math.exp(-(t - startS) / tauS);
const from =
  (startS: number, course: (t: number) => number): Course =>
  (t) =>
    t < startS ? cool() : course(t);
const absentUntil =
  (startS: number, course: (t: number) => number): Course =>
  (t) =>
    t < startS ? '' : course(t);
const stuck =
  (fromS: number, toS: number, at: string, course: Course): Course =>
  (t) =>
    t > fromS && t < toS ? at : course(t);
/** Readings held between scans, a row every second. */
const heldFor =
  (scanS: number, course: (t: number) => number): Course =>
  (t) =>
    (course(scanS * Math.floor(t / scanS)) + 0.1 * (Math.floor(t / scanS) % 3)).toFixed(1);
const rows = (file: string): string => file.split('\n').slice(1).join('\n');
/** A reading of the metal at 0.1 K with a little noise, or with so many digits less. */
const quiet =
  (digits: number, sdK: number, course: (t: number) => number): Course =>
  (t) => {
    const u = (k: number): number => {
      const x = Math.sin(t * 12.9898 + k * 37.7) * 43758.5453;
      return x - Math.floor(x);
    };
    const normal = Math.sqrt(-2 * Math.log(u(1) + 1e-9)) * Math.cos(2 * Math.PI * u(2));
    return (course(t) + sdK * normal).toFixed(digits);
  };

/** Files whose every reading could be true, with the channel that hides something and what is said of it. */
const HIDING: readonly (readonly [what: string, file: string, channel: string, says: RegExp])[] = [
  [
    'a start 8 K above the room that falls as a part does that was hot a quarter of an hour before',
    csv({ TC1: cooling(30, 300) }, { toS: 1500 }),
    'TC1',
    /log starts at 30 °C .*falls: what the metal saw before is not recorded/,
  ],
  [
    'the same beside a cool probe',
    csv({ TC1: cooling(30, 300), TC2: cool }, { toS: 1500 }),
    'TC1',
    /log starts at 30 °C .*falls/,
  ],
  [
    'a probe plugged in late, on metal that is still warm, beside a cool one',
    csv({ TC1: cool, TC2: absentUntil(600, cooling(32, 300, 600)) }, { toS: 1500 }),
    'TC2',
    /probe starts at 32 °C .*falls/,
  ],
  [
    'a jump from cool to 120 °C between two readings, as where files were put together',
    csv({ TC1: from(300, cooling(120, 120, 300)) }, { toS: 900 }),
    'TC1',
    /jumps from 23 °C .*to 120 °C .*within 1 s, 5 min into the log, and stays up: .*Rows are missing/,
  ],
  [
    'the same to 60 °C',
    csv({ TC1: from(300, cooling(60, 120, 300)) }, { toS: 900 }),
    'TC1',
    /jumps from 23 °C .*to 60 °C .*stays up/,
  ],
  [
    'rows lost where every probe jumps',
    csv({ TC1: from(300, cooling(120, 120, 300)), TC2: from(300, cooling(80, 150, 300)) }, { toS: 900 }),
    'TC2',
    /jumps from .*stays up/,
  ],
  [
    'a probe put back on beside a hot neighbour',
    csv({ TC1: (t) => (t < 200 ? AIR_C : pass(60, 230, 300)(t)), TC2: pass(60, 180, 300) }, { toS: 1500 }),
    'TC1',
    /jumps from 22 °C .*the probe was put on hot metal: what the metal saw before/,
  ],
  [
    'the same, warming up over seconds',
    csv(
      {
        TC1: (t) =>
          t < 200 ? AIR_C : AIR_C + (pass(60, 230, 300)(t) - AIR_C) * (1 - Math.exp(-(t - 200) / 3)),
        TC2: pass(60, 180, 300),
      },
      { toS: 1500 },
    ),
    'TC1',
    /jumps from 22 °C .*stays up/,
  ],
  [
    'a unit that changes in mid-file',
    csv({ TC1: (t) => (t < 300 ? cool() : 32 + 1.8 * cool()) }, { toS: 900 }),
    'TC1',
    /jumps from .*stays up/,
  ],
  [
    'a probe that loses half its grip in the heat, beside one that holds',
    csv(
      {
        TC1: (t) => AIR_C + (t < 70 ? 1 : 0.4) * (pass(60, 240, 200)(t) - AIR_C),
        TC2: pass(60, 240, 200),
      },
      { toS: 1500 },
    ),
    'TC1',
    /drops from 130 °C .*to 70 °C .*goes on from there: .*let go of the metal in part/,
  ],
  [
    'a probe that loses its grip over forty seconds',
    csv(
      {
        TC1: (t) => AIR_C + (pass(60, 240, 400)(t) - AIR_C) * (t < 90 ? 1 : Math.max(0, 1 - (t - 90) / 40)),
      },
      { toS: 900 },
    ),
    'TC1',
    /to that of the air within \d+ s, .*let go/,
  ],
  [
    'an end at 46 °C on the way up beside metal at 340 °C',
    csv({ TC1: (t) => AIR_C + Math.max(0, 0.3 * (t - 300)), TC2: pass(300, 400, 300) }, { toS: 380 }),
    'TC1',
    /ends at 46 °C .*still rising/,
  ],
  [
    'a channel renamed in mid-file, beside a cool one',
    csv({ TC1: cool, TC2: cool }, { toS: 300 }) + csv({ TC1: cool, TC9: cool }, { fromS: 301, toS: 900 }),
    'TC2',
    /no trusted reading for 10 min from 5 min/,
  ],
  [
    'a channel that hangs for less than a minute while cool',
    csv({ TC1: stuck(300, 350, '22.4', cool) }, { toS: 900 }),
    'TC1',
    /stands at exactly 22\.4 °C .*frozen/,
  ],
  [
    'one that hangs over the top of a pass',
    csv({ TC1: stuck(70, 120, '142.0', pass(60, 230, 100)) }, { toS: 900 }),
    'TC1',
    /stands at exactly 142\.0 °C .*frozen/,
  ],
  [
    'a gap of five minutes that somebody filled with a straight line',
    csv({ TC1: (t) => (t > 390 && t < 690 ? (22 + (t - 390) / 400).toFixed(1) : cool()) }, { toS: 1200 }),
    'TC1',
    /stands at exactly .*frozen/,
  ],
  [
    'scans every 12 s, a row every second, in the heat',
    csv({ TC1: heldFor(12, pass(60, 150, 200)) }, { toS: 900 }),
    'TC1',
    /the reading changes only every 12 s|stays there|stays up/,
  ],
  [
    'readings cut out while the arc is on',
    csv({ TC1: (t) => (t > 60 && t < 100 ? '' : pass(60, 300, 40)(t)) }, { toS: 900 }),
    'TC1',
    /no trusted reading for 40 s from 60 s/,
  ],
  [
    'a clock that leaps ten minutes ahead while cool',
    csv({ TC1: cool }, { toS: 300 }) + rows(csv({ TC1: cool }, { fromS: 900, toS: 1500 })),
    'TC1',
    /no trusted reading for 10 min from 5 min/,
  ],
];

/** Files that look odd and hide nothing worth a word. */
const WHOLE: readonly (readonly [what: string, file: string])[] = [
  [
    'a shop that warms through the morning',
    csv({ TC1: (t) => 18 + (5 * t) / 7200 }, { toS: 7200, everyS: 5 }),
  ],
  ['a shop that cools in the evening', csv({ TC1: (t) => 26 - (4 * t) / 7200 }, { toS: 7200, everyS: 5 })],
  ['a part carried in from the sun', csv({ TC1: cooling(30, 1800) }, { toS: 5400, everyS: 2 })],
  ['a hand on the probe as the log starts', csv({ TC1: cooling(27, 30) }, { toS: 900 })],
  [
    'a hand on the probe for six seconds',
    csv({ TC1: (t) => (t > 300 && t < 306 ? 29 : cool()) }, { toS: 900 }),
  ],
  ['a door that opens', csv({ TC1: (t) => AIR_C - 3 * Math.exp(-(((t - 500) / 60) ** 2)) }, { toS: 900 })],
  [
    'a few tacks',
    csv({ TC1: (t) => Math.max(...[60, 130, 220, 300].map((s) => pass(s, 46)(t))) }, { toS: 900 }),
  ],
  [
    'a tack so near that it heats at 60 K/s and is gone',
    csv(
      { TC1: (t) => (t < 60 ? AIR_C : t < 61 ? AIR_C + 60 * (t - 60) : cooling(82, 15, 61)(t)) },
      { toS: 900 },
    ),
  ],
  ['a slow torch to 110 °C, read every 2 s', csv({ TC1: pass(60, 110, 200) }, { toS: 900, everyS: 2 })],
  [
    'an end at 46 °C on the way up beside metal at 130 °C, hotter than which it cannot get',
    csv({ TC1: (t) => AIR_C + Math.max(0, 0.3 * (t - 300)), TC2: pass(300, 140, 300) }, { toS: 380 }),
  ],
  ['a small part that cools within a minute and a half', csv({ TC1: pass(60, 140, 25) }, { toS: 900 })],
  ['a mild weld read every 4 s', csv({ TC1: pass(60, 140, 300) }, { toS: 1500, everyS: 4 })],
  ['grinding', csv({ TC1: (t) => AIR_C + 13 * Math.exp(-(((t - 300) / 120) ** 2)) }, { toS: 900 })],
  [
    'a dropout of three seconds on two probes at once, while cool',
    csv(
      {
        TC1: (t) => (t > 300 && t < 303 ? '' : cool()),
        TC2: (t) => (t > 300 && t < 303 ? '' : cool()),
      },
      { toS: 600 },
    ),
  ],
  [
    'a probe plugged in late, on cool metal, beside a cool one',
    csv({ TC1: absentUntil(8, cool), TC2: cool }, { toS: 900 }),
  ],
  [
    'a quiet channel that rests on one digit for a minute',
    csv({ TC1: quiet(1, 0.02, (t) => 22 + 0.5 * Math.sin(t / 400)) }, { toS: 3600 }),
  ],
  [
    'whole degrees among noise',
    csv({ TC1: quiet(0, 0.3, (t) => 22.2 + 0.4 * Math.sin(t / 300)) }, { toS: 3600 }),
  ],
  ['a mild weld to whole degrees', csv({ TC1: quiet(0, 0.15, pass(60, 150)) }, { toS: 900 })],
];

const seen = (file: string, channel: string) =>
  exposureOf(readLog(Buffer.from(file), { name: 'mast-foot.csv' }), channel, USUAL);

describe('files whose every reading could be true', () => {
  it.each(HIDING.map(([what, file, channel, says]) => ({ what, file, channel, says })))(
    'blind, and says why: $what',
    ({ file, channel, says }) => {
      expect(
        seen(file, channel)
          .blind.map(({ because }) => because)
          .join(' '),
      ).toMatch(says);
    },
  );

  it.each(WHOLE.map(([what, file]) => ({ what, file })))('whole, and kept: $what', ({ file }) => {
    const exposure = seen(file, 'TC1');
    expect(exposure.blind).toEqual([]);
    expect(
      strengthAfter(exposure, { alloy: USUAL.alloy, temper: USUAL.temper }, { draws: 100, endOnly: true })
        .word,
    ).toBe('kept');
  });
});
