import { describe, expect, it } from 'vitest';
import { type Course, cool, csv, judged, pass } from './logs';

/** Nothing from 400 s on, while the rows go on for 500 s. */
const lost =
  (course: Course, word: string): Course =>
  (t) =>
    t < 400 ? course(t) : word;
const mild = pass(60, 150);
const whole = csv({ TC1: mild, TC2: cool }, { toS: 900 });
const fromRow400 = (change: (line: string) => string): string =>
  whole
    .split('\n')
    .map((line, i) => (i > 400 && line !== '' ? change(line) : line))
    .join('\n');
const insert = (line: string): string => whole.replace('\n400,', `\n${line}\n400,`);

describe('a file that goes on after the last reading', () => {
  it.each([
    ['a lone probe that opens', csv({ TC1: lost(mild, 'OPEN') }, { toS: 900 })],
    ['a lone probe with empty fields', csv({ TC1: lost(mild, '') }, { toS: 900 })],
    [
      'two probes that open together',
      csv({ TC1: lost(mild, 'OPEN'), TC2: lost(cool, 'OPEN') }, { toS: 900 }),
    ],
    ['rows that are a field short', fromRow400((line) => line.slice(0, line.lastIndexOf(',')))],
    ['rows whose time cannot be read', fromRow400((line) => line.replace(/^\d+/, '--'))],
    ['a second header without the channels', insert('time (s),Probe A (°C),Probe B (°C)')],
  ])('clears nothing: %s', (_, file) => {
    const verdict = judged(file);
    expect(verdict.verdict).toBe('uncertain');
    expect(verdict.chanceKept).toBeNull();
    const told = [verdict.sentence, ...verdict.channels.map(({ sentence }) => sentence)].join(' ');
    expect(told).toMatch(/no trusted reading for 8\.3 min from 6\.7 min into the log/);
  });

  it.each([
    [
      'words and sums under the readings',
      `${whole}\nMaximum,150.0\nMinimum,22\n${'End of the log.\n'.repeat(20)}`,
    ],
    ['a last line half written', `${whole}901,22`],
    ['a probe whose last reading is missing', `${whole}901,22.4,\n`],
    [
      'a probe read every tenth row',
      csv({ TC1: mild, TC2: (t) => (t % 10 === 0 ? cool() : '') }, { toS: 907 }),
    ],
  ])('that hides nothing is kept: %s', (_, file) => expect(judged(file).verdict).toBe('kept'));
});
