import { describe, expect, it } from 'vitest';
import { loadAlloy } from '../../lib/alloy';
import { judge } from '../../lib/decision';
import { isothermal, thermalHistory } from '../../lib/history';
import { readLog } from '../../lib/log';

const bake = isothermal(100, 600);

describe('every temper has an answer, or its channel is left out by name', () => {
  it.each(['356.0', 'A356.0', '6061', '6063', '6082'])('%s: each of the card, and W', (alloy) => {
    for (const temper of [...Object.keys(loadAlloy(alloy).tempers), 'W', ' w ']) {
      const verdict = judge(bake, { alloy, temper, attachment: 'welded wires' });
      expect(verdict.channels[0]!.yieldKeptFraction.nominal).toBeGreaterThan(0.5);
    }
  });

  const log = readLog(
    new TextEncoder().encode(
      [
        'time s,block C,tube C',
        ...Array.from({ length: 60 }, (_, i) => `${i},20,${20 + (i > 5 ? 5 : 0)}`),
      ].join('\n'),
    ),
  );
  const names = log.channels.map(({ name }) => name);

  it('a temper the alloy does not have leaves out that channel alone', () => {
    const { channels, notJudged, sentence } = judge(log, {
      alloy: 'A356.0',
      temper: 'T6',
      byChannel: { [names[1]!]: { alloy: '6061', temper: 'T9' } },
    });
    expect(channels.map(({ name }) => name)).toEqual([names[0]]);
    expect(notJudged).toHaveLength(1);
    expect(notJudged[0]!.name).toBe(names[1]);
    expect(notJudged[0]!.because).toMatch(/6061 has no temper of this name.*"T9".*T6/s);
    expect(sentence).toContain(names[1]);
  });

  it('a yield the temper cannot have likewise: softened metal measured after the weld', () => {
    const { channels, notJudged } = judge(log, {
      alloy: 'A356.0',
      temper: 'T6',
      byChannel: { [names[1]!]: { alloy: '6061', measuredYieldMPa: 120 } },
    });
    expect(channels).toHaveLength(1);
    expect(notJudged[0]!.because).toMatch(
      /120 MPa before the heat is not 6061-T6.*measured before the heat/s,
    );
  });

  it('with nothing else to judge they are errors', () => {
    expect(() => judge(bake, { alloy: 'A356.0', temper: 'T9' })).toThrow(/no temper of this name/);
    expect(() => judge(bake, { alloy: 'A356.0', temper: 'T6', measuredYieldMPa: 90 })).toThrow(
      /is not A356.0-T6/,
    );
    expect(() => judge(bake, { alloy: 'A356.0', temper: 'W', measuredYieldMPa: 240 })).toThrow(
      /is not A356.0-W/,
    );
  });

  it('one number cannot be the yield before and after', () => {
    expect(() =>
      judge(bake, {
        alloy: 'A356.0',
        temper: 'T6',
        measuredYieldMPa: 171,
        readings: [{ channel: 'history', kind: 'yield', value: 171 }],
      }),
    ).toThrow(/same yield is given before and after/);
  });
});

/** One pass: heated in 5 s, cooled exponentially. */
const pass = (peakC: number, constantS: number) => {
  const times = Array.from({ length: 40 }, (_, k) => (k * 5 * constantS) / 39);
  return thermalHistory(
    [0, ...times.map((t) => 5 + t)],
    [20, ...times.map((t) => 20 + (peakC - 20) * Math.exp(-t / constantS))],
  );
};

describe('no wrong word at the ends', () => {
  it.each([400, 425, 450, 480])('a casting that passed %d °C for seconds is never kept', (peakC) => {
    for (const alloy of ['356.0', 'A356.0'])
      for (const temper of ['T6', 'T7'])
        expect(judge(pass(peakC, 20), { alloy, temper, attachment: 'welded wires' }).verdict).not.toBe(
          'kept',
        );
  });

  it.each([150, 175, 195])('one that stayed at %d °C for minutes is never lost', (tempC) => {
    for (const temper of ['T6', 'T7', 'T51', 'T4', 'F'])
      expect(
        judge(isothermal(tempC, 300), { alloy: 'A356.0', temper, attachment: 'welded wires' }).verdict,
      ).not.toBe('lost');
  });
});
