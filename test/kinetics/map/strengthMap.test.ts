import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { peak, timeAbove } from '../../../lib/exposure';
import { isothermal } from '../../../lib/history';
import {
  allowedTimes,
  combinedSoftening,
  type KeptMap,
  NEAR_PEAK_K,
  practicesFor,
  precipitateModel,
  strengthMap,
  weldCycle,
  withLowerLine,
} from '../../../lib/kinetics';

describe('weldCycle', () => {
  it('reaches its peak and stays within 20 °C of it for as long as it says', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 120, max: 600, noNaN: true }),
        fc.double({ min: 0.05, max: 7200, noNaN: true }),
        (peakC, nearPeakS) => {
          const cycle = weldCycle({ peakC, nearPeakS });
          expect(peak(cycle).tempC).toBe(peakC);
          // Cooling runs straight between steps of up to 13 K, a little above the exponential.
          const near = timeAbove(cycle, peakC - NEAR_PEAK_K);
          expect(near / nearPeakS).toBeGreaterThan(0.999);
          expect(near / nearPeakS).toBeLessThan(1.02);
        },
      ),
    );
  });

  it('heats four times as fast as it begins to cool: 51 K/s and τ = 29.8 s for 2 s at 400 °C', () => {
    const { timeS, tempC } = weldCycle({ peakC: 400, nearPeakS: 2 });
    expect(380 / timeS[1]!).toBeCloseTo(51.1, 1);
    expect((4 * (tempC[1]! - tempC[2]!)) / (timeS[2]! - timeS[1]!) / (380 / timeS[1]!)).toBeCloseTo(1, 1);
    const last = timeS.length - 1;
    expect((timeS[last]! - timeS[1]!) / Math.log(380 / 80)).toBeCloseTo(29.75, 2);
  });
});

describe('strengthMap', () => {
  it('says of a soak what the softening model says of it', () => {
    const map = strengthMap({ alloy: 'A356.0', temper: 'T6', rows: 8, columns: 5, timeS: [1, 1e5] });
    for (const [i, j] of [
      [0, 4],
      [2, 3],
      [5, 1],
      [7, 2],
    ] as const) {
      const alone = combinedSoftening(isothermal(map.tempC[i]!, map.timeS[j]!), 'A356.0', 'T6');
      // Sums of a soak in one piece and in several differ in the last digits only.
      expect(map.keptFraction[i]![j]).toBeCloseTo(alone.yieldKeptFraction.nominal, 9);
      expect(map.keptLow![i]![j]).toBeCloseTo(alone.yieldKeptFraction.low, 9);
      expect(map.keptHigh![i]![j]).toBeCloseTo(alone.yieldKeptFraction.high, 9);
    }
  });

  it('says of a weld-like cycle what the softening model says of it', () => {
    const map = strengthMap({ alloy: '6061', temper: 'T6', kind: 'weld-like', rows: 3, columns: 3 });
    const alone = combinedSoftening(
      weldCycle({ peakC: map.tempC[2]!, nearPeakS: map.timeS[1]! }),
      '6061',
      'T6',
    );
    expect(map.keptFraction[2]![1]).toBeCloseTo(alone.yieldKeptFraction.nominal, 12);
    expect(map.kind).toBe('weld-like');
  });

  it.each(['6061', '6063', '6082'])(
    '%s-T6 only loses: less with every second and every degree below dissolution',
    (alloy) => {
      const { keptFraction, tempC } = strengthMap({
        alloy,
        temper: 'T6',
        tempC: [150, 300],
        rows: 12,
        columns: 12,
      });
      for (let i = 0; i < tempC.length; i++)
        for (let j = 1; j < 12; j++) {
          expect(keptFraction[i]![j]).toBeLessThanOrEqual(keptFraction[i]![j - 1]!);
          if (i > 0) expect(keptFraction[i]![j]).toBeLessThanOrEqual(keptFraction[i - 1]![j]!);
        }
    },
  );

  it('has no answer where the metal melts', () => {
    const { keptFraction, tempC } = strengthMap({
      alloy: 'A356.0',
      temper: 'T6',
      tempC: [500, 600],
      rows: 11,
    });
    // The card: incipient melting at 555 °C.
    for (const [i, row] of keptFraction.entries()) expect(row[0] === null).toBe(tempC[i]! >= 555);
  });

  it('takes the precipitate model as its engine, which has no band', () => {
    const map = strengthMap({
      alloy: '6061',
      temper: 'T6',
      model: precipitateModel('6061'),
      tempC: [200, 300],
      timeS: [60, 36_000],
      rows: 3,
      columns: 4,
    });
    expect(map.model).toBe('precipitate size classes');
    expect(map.keptLow).toBeUndefined();
    expect(map.keptFraction[2]![3]!).toBeLessThan(0.5);
  });

  it.each([
    [{ tempC: [300, 200] as const }, /span of temperature/],
    [{ timeS: [0, 10] as const }, /lowest time/],
    [{ kind: 'weld-like' as const, tempC: [100, 200] as const }, /lowest temperature/],
    [{ rows: 1 }, /number of rows/],
    [{ temper: 'T99' }, /temper/],
  ])('refuses %j', (wrong, message) => {
    expect(() => strengthMap({ alloy: '6061', temper: 'T6', ...wrong })).toThrow(message);
  });
});

describe('allowedTimes', () => {
  const map = strengthMap({ alloy: '6061', temper: 'T6', tempC: [180, 400], rows: 12, columns: 200 });
  const times = allowedTimes(map, 0.1);

  it('gives the time after which the model keeps exactly what is needed', () => {
    const { tempC, nominalS, sureS } = times[3]!;
    const kept = (s: number) => combinedSoftening(isothermal(tempC, s), '6061', 'T6').yieldKeptFraction;
    // A step of the map is 8 % in time, the curve bends little over it.
    expect(kept(nominalS!).nominal).toBeCloseTo(0.9, 3);
    expect(kept(sureS!).low).toBeCloseTo(0.9, 3);
  });

  it('falls with temperature, and what is sure is never longer than what is likely', () => {
    for (let i = 1; i < times.length; i++) expect(times[i]!.nominalS!).toBeLessThan(times[i - 1]!.nominalS!);
    for (const { nominalS, sureS } of times) expect(sureS!).toBeLessThanOrEqual(nominalS!);
  });

  it('is 0 where the first second is too long and null where the map ends too early', () => {
    const short = strengthMap({ alloy: '6061', temper: 'T6', tempC: [150, 550], timeS: [30, 60], rows: 2 });
    expect(allowedTimes(short, 0.1).map(({ nominalS }) => nominalS)).toEqual([null, 0]);
  });
});

describe('practicesFor', () => {
  it('takes the ageing of the tempers from the card, those of one temperature as one mark', () => {
    const { points, limits } = practicesFor('A356.0');
    const t7 = points.find(({ label }) => label.includes('T7,') || label.endsWith('T7'))!;
    // ASM practice: T51 and T7 7 to 9 h at 440 °F.
    expect(t7.label).toContain('T51');
    expect(t7.tempC).toBe(227);
    expect(t7.timeS).toEqual([7 * 3600, 9 * 3600]);
    expect(limits.some(({ limitC }) => Math.abs(limitC - 226.67) < 0.1)).toBe(true);
  });

  it('knows the reheat limits of 6061 only for 6061', () => {
    expect(practicesFor('6061').lines[0]!.points.map(({ timeS }) => timeS)).toEqual([5400, 1800, 900, 300]);
    expect(practicesFor('6082').lines).toEqual([]);
  });
});

describe('withLowerLine', () => {
  const row = (kept: number) => [kept, kept, kept];
  const map = (tempC: readonly number[], timeS: readonly number[], kept: readonly number[]): KeptMap => ({
    alloy: 'a',
    temper: 'T6',
    kind: 'soak',
    model: 'm',
    tempC: Float64Array.from(tempC),
    timeS: Float64Array.from(timeS),
    keptFraction: kept.map(row),
  });
  const base = {
    ...map([100, 150, 200, 250], [1, 10, 100], [1, 1, 1, 1]),
    keptLow: [0.9, 0.9, 0.9, 0.9].map(row),
  };

  it('reaches down to the other map, by straight lines between its rows, and is silent beyond it', () => {
    const lower = withLowerLine(base, map([100, 200], [1, 10, 100], [1, 0.6]));
    // Half way between 1 and 0.6 is 0.8; at 250 °C the other map has no answer.
    expect(lower.keptLow!.map((kept) => kept[1])).toEqual([0.9, 0.8, 0.6, 0.9]);
    expect(lower.keptFraction).toBe(base.keptFraction);
  });

  it('leaves a place where the other has no answer as it is', () => {
    const melting = {
      ...map([100, 250], [1, 100], [0.5]),
      keptFraction: [
        [0.5, 0.5],
        [null, null],
      ],
    };
    expect(withLowerLine(base, melting).keptLow).toEqual(base.keptLow);
  });
});

describe('a kind of heat', () => {
  it('is one of two', () => {
    // @ts-expect-error plain JavaScript lets this pass
    expect(() => strengthMap({ alloy: '6061', temper: 'T6', kind: 'weld' })).toThrow(/soak or weld-like/);
  });
});
