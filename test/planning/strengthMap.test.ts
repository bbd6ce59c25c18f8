import { describe, expect, it } from 'vitest';
import { isothermal } from '../../lib/history';
import { weldCycle } from '../../lib/kinetics';
import { allowedTimes, strengthMap } from '../../lib/planning';
import { strengthAfter } from '../../lib/strength';

const of = (alloy: string) => ({ alloy, temper: 'T6' });

describe('strengthMap', () => {
  it('says of a soak what strengthAfter says of it', () => {
    const map = strengthMap({ ...of('A356.0'), rows: 8, columns: 5, timeS: [1, 1e5] });
    for (const [i, j] of [
      [0, 4],
      [2, 3],
      [5, 1],
      [7, 2],
    ] as const) {
      const alone = strengthAfter(isothermal(map.tempC[i]!, map.timeS[j]!), of('A356.0'), { draws: 400 });
      // A soak in one piece and in several: ageing takes steps of its own, good to about 1e-3 of the yield each way.
      expect(Math.abs(map.keptFraction[i]![j]! - alone.yieldKeptFraction.nominal)).toBeLessThan(2e-3);
      expect(Math.abs(map.keptLow[i]![j]! - alone.yieldKeptFraction.low)).toBeLessThan(2e-3);
      expect(Math.abs(map.keptHigh[i]![j]! - alone.yieldKeptFraction.high)).toBeLessThan(2e-3);
    }
  });

  it('says of a weld-like cycle what strengthAfter says of it', () => {
    const map = strengthMap({ ...of('6061'), kind: 'weld-like', rows: 3, columns: 3 });
    const cycle = weldCycle({ peakC: map.tempC[2]!, nearPeakS: map.timeS[1]! });
    const alone = strengthAfter(cycle, of('6061'), { draws: 100 });
    expect(map.keptFraction[2]![1]).toBeCloseTo(alone.yieldKeptFraction.nominal, 12);
    expect(map.kind).toBe('weld-like');
  });

  it.each(['6061', '6063', '6082'])(
    '%s-T6 loses with every second and every degree below dissolution',
    (alloy) => {
      const { keptFraction, tempC } = strengthMap({ ...of(alloy), tempC: [150, 300], rows: 12, columns: 12 });
      for (let i = 0; i < tempC.length; i++)
        for (let j = 1; j < 12; j++) {
          expect(keptFraction[i]![j]).toBeLessThanOrEqual(keptFraction[i]![j - 1]!);
          if (i > 0) expect(keptFraction[i]![j]).toBeLessThanOrEqual(keptFraction[i - 1]![j]!);
        }
    },
  );

  it('has no answer where the metal melts', () => {
    const { keptFraction, tempC } = strengthMap({ ...of('A356.0'), tempC: [500, 600], rows: 11 });
    // The card: incipient melting at 555 °C.
    for (const [i, row] of keptFraction.entries()) expect(row[0] === null).toBe(tempC[i]! >= 555);
  });

  it.each([
    [{ tempC: [300, 200] as const }, /span of temperature/],
    [{ timeS: [0, 10] as const }, /lowest time/],
    [{ kind: 'weld-like' as const, tempC: [100, 200] as const }, /lowest temperature/],
    [{ rows: 1 }, /number of rows/],
    [{ temper: 'T99' }, /temper/],
    [{ row: 3 }, /Did you mean "rows"/],
  ])('refuses %j', (wrong, message) => {
    expect(() => strengthMap({ ...of('6061'), ...wrong })).toThrow(message);
  });

  it('knows two kinds of heat', () => {
    // @ts-expect-error plain JavaScript lets this pass
    expect(() => strengthMap({ ...of('6061'), kind: 'weld' })).toThrow(/soak or weld-like/);
  });
});

describe('allowedTimes', () => {
  const map = strengthMap({ ...of('6061'), tempC: [180, 400], rows: 7, columns: 200 });
  const times = allowedTimes(map, 0.1);

  it('gives the time after which exactly what is needed is kept, by the median and by the 5 % line', () => {
    const { tempC, nominalS, sureS } = times[2]!;
    const kept = (s: number) =>
      strengthAfter(isothermal(tempC, s), of('6061'), { draws: 400, endOnly: true }).yieldKeptFraction;
    // A step of the map is 8 % in time, the curve bends little over it.
    expect(kept(nominalS!).nominal).toBeCloseTo(0.9, 3);
    expect(kept(sureS!).low).toBeCloseTo(0.9, 3);
  });

  it('falls with temperature, and what is sure is never longer than what is likely', () => {
    for (let i = 1; i < times.length; i++)
      if (times[i - 1]!.nominalS! > 0) expect(times[i]!.nominalS!).toBeLessThan(times[i - 1]!.nominalS!);
    for (const { nominalS, sureS } of times) expect(sureS!).toBeLessThanOrEqual(nominalS!);
  });

  it('is 0 where the first second is too long and null where the map ends too early', () => {
    const short = strengthMap({ ...of('6061'), tempC: [150, 550], timeS: [30, 60], rows: 2 });
    expect(allowedTimes(short, 0.1).map(({ nominalS }) => nominalS)).toEqual([null, 0]);
  });
});
