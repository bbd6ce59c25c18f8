import { describe, expect, it } from 'vitest';
import { readLog } from '../../lib/log';
import { fc } from '../setup/fc';

/** A block warming and cooling at 2 Hz, with whatever the second probe makes of it. */
const log = (second: (i: number, trueC: number) => string): string =>
  [
    'Time (s),TC1 (°C),TC2 (°C)',
    ...Array.from({ length: 400 }, (_, i) => {
      const trueC = 20 + 180 * Math.exp(-(((i - 200) / 80) ** 2));
      return `${i / 2},${trueC.toFixed(1)},${second(i, trueC)}`;
    }),
  ].join('\n');
const channel = (text: string) => readLog(Buffer.from(text)).channels.find(({ name }) => name === 'TC2')!;

describe('a junction that comes off', () => {
  const chatter = (i: number): number => 20 + ((i * 7919) % 631);

  it('marks chatter that has no value to come back to', () => {
    const tc2 = channel(log((i, t) => (i < 250 ? t : chatter(i)).toFixed(1)));
    expect(Math.max(...tc2.history.tempC)).toBeLessThan(201);
    expect(tc2.history.timeS[tc2.history.timeS.length - 1]).toBeLessThanOrEqual(126);
    expect(tc2.faults.map(({ kind }) => kind)).toContain('loose junction');
  });

  it('does not believe the odd reading between open-circuit words', () => {
    const tc2 = channel(
      log((i, t) => (i < 250 ? t.toFixed(1) : i % 7 === 3 ? chatter(i).toFixed(1) : 'OPEN')),
    );
    expect(Math.max(...tc2.history.tempC)).toBeLessThan(201);
    expect(tc2.history.timeS.length).toBe(250);
  });

  it('leaves single spikes of arc starts to be spikes', () => {
    const tc2 = channel(log((i, t) => (i % 60 === 30 ? t + 150 : t).toFixed(1)));
    expect(new Set(tc2.faults.map(({ kind }) => kind))).toEqual(new Set(['spike']));
  });

  it('leaves a weld cycle alone however steep its rise', () => {
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 250 }), fc.integer({ min: 2, max: 30 }), (riseK, halfLifeS) => {
        const text = log((i) => {
          const since = (i % 130) / 2;
          return (30 + (since < 1 ? riseK * since : riseK * 0.5 ** ((since - 1) / halfLifeS))).toFixed(1);
        });
        expect(channel(text).faults.filter(({ kind }) => kind === 'loose junction')).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});
