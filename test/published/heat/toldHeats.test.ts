import { quantile } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { loadAlloy } from '../../../lib/alloy';
import { judgeHeats } from '../../../lib/decision';
import { isothermal } from '../../../lib/history';
import { strengthAfter } from '../../../lib/strength';

/** Metal in an oven that is what it says: the tables speak of metal temperatures. */
const place = (words: string, alloy: string) => judgeHeats(words, { alloy, oven: '±5F' }).places[0]!;

/**
 * 6061-T6 extrusions in air ovens, a student project on elevated temperature and mechanical properties (measured): below the
 * specified minimum yield only after 16 h at 390 °F and 4 h at 425 °F, never within the test at 350 °F.
 */
describe('6061-T6 told as heats, against extrusions tested after 350, 390 and 425 °F', () => {
  const minimum = loadAlloy('6061').tempers.T6!.minimumYieldMPa!.value;
  const nominal = (words: string) => place(words, '6061-T6').yieldMPa.nominal;
  // The yield of their start is not known here, the card's typical one stands for it: within 5 % of the minimum.
  it.each([
    ['390F 16h', 1.05],
    ['425F 4h', 1],
  ])('%s is about down to the minimum', (words, most) => expect(nominal(words)).toBeLessThan(most * minimum));
  it.each(['350F 16h', '390F 4h', '425F 1h'])('%s is not', (words) =>
    expect(nominal(words)).toBeGreaterThan(minimum),
  );
});

/** ASM Handbook vol. 4 (1991), ageing of castings, from memory: T6 154 °C, T7 227 °C for 8 h, T71 246 °C for 3 h. */
describe('schedules told as heats on freshly quenched A356 make the tempers of the card', () => {
  it.each([
    ['440F 8h', 'T7'],
    ['475F 3h', 'T71'],
  ])('%s is %s', (words, temper) => {
    const { yieldMPa } = place(words, 'A356-W');
    const printed = loadAlloy('A356.0').tempers[temper]!.yieldMPa.value;
    expect(yieldMPa.low).toBeLessThanOrEqual(printed);
    expect(yieldMPa.high).toBeGreaterThanOrEqual(printed);
  });
  it('and over-age a T6: T7 by name is a loss against T6', () => {
    const told = judgeHeats('440F 8h', { alloy: 'A356-T6', oven: '±5F' });
    const { T6, T7 } = loadAlloy('A356.0').tempers;
    expect(told.word).not.toBe('kept');
    expect(told.places[0]!.yieldMPa.low).toBeLessThan(T7!.yieldMPa.value);
    expect(told.places[0]!.yieldMPa.nominal).toBeLessThan(T6!.yieldMPa.value);
  });
});

/**
 * T51 and T5 age what the mould or the press left: 356.0 T51 227 °C or 204 °C for 7 to 9 h, 6063 T5 182 °C for 3 h or 204 °C for
 * 1 h (ASM Handbook vol. 4, 1991, from memory; data/schedules). The press quenches less sharply than a bath, so metal freshly
 * quenched stands for it at best.
 */
describe('ageing without a solution treatment, told as heats', () => {
  it.each([
    ['227C 8h', '356-F', 'T51'],
    ['204C 8h', '356-F', 'T51'],
    ['182C 3h', '6063-W', 'T5'],
    ['204C 1h', '6063-W', 'T5'],
  ])('%s of %s is %s', (words, from, temper) => {
    const printed = loadAlloy(from.slice(0, -2)).tempers[temper]!.yieldMPa.value;
    const { low, high } = place(words, from).yieldMPa;
    expect(low).toBeLessThanOrEqual(printed);
    expect(high).toBeGreaterThanOrEqual(printed);
  });

  it.each(['T5', 'T51', 'T7', 'T71'])('%s is a start of its own, of its own yield', (temper) => {
    const { low, value, high } = loadAlloy('356.0').tempers[temper]!.yieldMPa;
    const { startYieldMPa } = strengthAfter(isothermal(20, 1), { alloy: '356.0', temper }).draws;
    const [at5, at50, at95] = [0.05, 0.5, 0.95].map((q) => quantile([...startYieldMPa], q));
    // The card's band is 5 to 95 %.
    expect(at50! / value).toBeCloseTo(1, 1);
    expect(at5).toBeGreaterThan(low * 0.93);
    expect(at95).toBeLessThan(high * 1.07);
  });

  it('leaves little to gain in T51, T7 and T71 where their own ageing is gone through again', () => {
    for (const [words, alloy] of [
      ['227C 8h', '356-T51'],
      ['227C 8h', '356-T7'],
      ['246C 3h', '356-T71'],
    ] as const) {
      const { nominal, high } = place(words, alloy).yieldKeptFraction;
      // Five in a hundred is what `judge` calls as good as unchanged.
      expect(nominal).toBeLessThan(1.05);
      expect(high).toBeLessThan(1.1);
    }
  });
});

/** Cure schedules of powder coatings, at metal temperature: 10 min at 200 °C, 15–20 min at 190 °C, 20 min at 400 °F (coating trade press). */
describe('one cure by the book', () => {
  it.each(['200C 10min at metal', '190C 20min at metal', '400F 20min at metal'])(
    '%s keeps the temper of casting and tube in a surveyed oven',
    (words) => {
      for (const alloy of ['A356-T6', '6061-T6'])
        expect(judgeHeats(words, { alloy, oven: 'class 2', wallMm: 6, fan: true }).word).toBe('kept');
    },
  );
});
