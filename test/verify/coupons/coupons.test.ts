import { describe, expect, it } from 'vitest';
import { judge } from '../../../lib/decision';
import { isothermal } from '../../../lib/history';
import { membersHash, weldCycle } from '../../../lib/kinetics';
import { effectiveNumber, normalQuantile, weightedQuantiles } from '../../../lib/statistics';
import { drawMetals, MOST_DRAWS, strengthAfter } from '../../../lib/strength';
import {
  type Coupon,
  couponLag,
  couponWeights,
  dipExposure,
  lotCard,
  lotCardText,
  lotOfCard,
  suggestCoupon,
} from '../../../lib/verify';
import { inFull } from '../../setup/extent';

const METAL = { alloy: '6061', temper: 'T6' } as const;
const TRUTHS = inFull ? 10 : 3;
const DIP = { tempC: 260, timeS: 600, into: 'salt', thicknessMm: 3 } as const;
const coupon = (more: Partial<Coupon> = {}): Coupon => ({
  name: 'C1',
  heat: DIP,
  kind: 'yield',
  before: 276,
  after: 230,
  ...more,
});
const weigh = (...coupons: Coupon[]) => couponWeights('lot 7', METAL, coupons);
const plain = weigh(coupon());
const job = weldCycle({ peakC: 285, nearPeakS: 5 });
// Lots weigh the same draws of the job, which are run once.
const unweighed = strengthAfter(job, METAL, { draws: MOST_DRAWS, endOnly: true });
const weighed = (lot: ReturnType<typeof weigh>) =>
  strengthAfter(job, { ...METAL, lots: [lot] }, { draws: MOST_DRAWS, endOnly: true, goOn: unweighed });
const widthOf = ({ yieldKeptFraction: { low, high } }: typeof unweighed): number => high - low;

describe('couponLag', () => {
  it('is ρ c d/(2 h), both faces wet', () => {
    // 2.6e6 J/(m³ K) × 3 mm over 2 × 1000 W/(m² K); Incropera and DeWitt, lumped capacity, eq. 5.7.
    expect(couponLag({ into: 'salt', thicknessMm: 3 }).value).toBeCloseTo((2.6e6 * 0.003) / 2000, 12);
  });

  it('lets a dip come up as the closed form does, and refuses one that the lag swallows', () => {
    const { history } = dipExposure(DIP);
    const lagS = couponLag(DIP).value;
    const at = [...history.timeS].indexOf(lagS);
    expect(history.tempC[at]).toBeCloseTo(260 - 240 / Math.E, 9);
    expect(() => dipExposure({ ...DIP, timeS: 5 })).toThrow(/lag swallows.*Log a probe on the coupon/s);
  });
});

describe('couponWeights', () => {
  it('updates as a normal with a normal reading does', () => {
    // Exactly logged, so that only metal and bar are in doubt: the share kept of the members is nearly normal here.
    const heat = {
      timeS: [0, 1, 1801, 1802],
      tempC: [20, 204, 204, 20],
      attachment: 'welded wires',
    } as const;
    const u = 3;
    const kept = strengthAfter(isothermal(204, 1800), METAL, { draws: MOST_DRAWS, endOnly: true }).draws
      .yieldKept;
    const [low, middle, high] = weightedQuantiles(kept, [0.05, 0.5, 0.95]) as [number, number, number];
    const sigma = (high - low) / (2 * normalQuantile(0.95));
    const after = 276 * (middle - sigma);
    const { weights } = weigh(coupon({ heat, after, standardUncertainty: u }));
    const [, updated] = weightedQuantiles(kept, [0.05, 0.5, 0.95], weights) as [number, number, number];
    // Closed form: precision-weighted mean of prior and reading.
    const precision = 1 / sigma ** 2 + (276 / u) ** 2;
    const expected = (middle / sigma ** 2 + (after / 276) * (276 / u) ** 2) / precision;
    // The prior is skewed and the log has its wire's doubt: a quarter of the prior's spread.
    expect(Math.abs(updated - expected)).toBeLessThan(sigma / 4);
    expect(updated).toBeLessThan(middle - sigma / 4);
  });

  it('narrows the band when it agrees with the median', () => {
    const [predicted] = plain.predictions;
    const agreeing = weigh(coupon({ after: predicted!.expected[1] }));
    expect(widthOf(weighed(agreeing))).toBeLessThan(0.9 * widthOf(unweighed));
    expect(agreeing.effectiveMembers).toBeGreaterThan(100);
    expect(agreeing.because.join()).not.toContain('contradicts');
  });

  it('does not mind the order, and coupons one by one weigh as all together', () => {
    const b = coupon({ name: 'C2', heat: { ...DIP, tempC: 232, timeS: 1800 }, after: 235 });
    const together = weigh(coupon(), b).weights;
    const turned = weigh(b, coupon()).weights;
    const product = weigh(b).weights.map((w, i) => w * plain.weights[i]!);
    const most = product.reduce((x, y) => Math.max(x, y));
    for (let i = 0; i < MOST_DRAWS; i++) {
      expect(turned[i]).toBeCloseTo(together[i]!, 12);
      expect(product[i]! / most).toBeCloseTo(together[i]!, 10);
    }
  });

  it('moves the job the way the coupon went', () => {
    const { expected } = plain.predictions[0]!;
    const nominal = (after: number): number => weighed(weigh(coupon({ after }))).yieldKeptFraction.nominal;
    expect(nominal(expected[0] + 5)).toBeLessThan(nominal(expected[2] - 5));
  });

  it('says when a coupon contradicts the metal, and when hardly any member fits', () => {
    const wrong = weigh(coupon({ after: 90 }));
    expect(wrong.because.join(' ')).toMatch(/C1 contradicts what is known of this metal: 90 MPa read/);
    const muted = strengthAfter(job, { ...METAL, lots: [wrong] });
    if (effectiveNumber(wrong.weights) < 100)
      expect(muted.because.join(' ')).toMatch(/they cannot weigh the answer, which is without them/);
    expect(muted.chanceKept).toBeGreaterThanOrEqual(0);
  });

  it.each([
    [{ after: 780 }, /tensile reading.*20.*600/s],
    [{ kind: 'shore' }, /read in a way there is not/],
    [{ before: 120, after: 100 }, /120 MPa before the heat is not 6061-T6/],
    [{ heat: { ...DIP, tempK: 500 } }, /Did you mean "tempC"/],
    [{ heat: { timeS: [0, 10], tempC: [20, 300] } }, /does not hold all its heat/],
  ])('refuses %j', (wrong, message) => {
    expect(() => weigh(coupon(wrong as unknown as Partial<Coupon>))).toThrow(message);
  });
});

describe('lots in a verdict', () => {
  it('say the same at every door', () => {
    const lots = [plain];
    const verdict = judge(job, { ...METAL, attachment: 'welded wires', lots });
    const { exposure } = verdict.channels[0]!;
    const alone = strengthAfter(exposure, { ...METAL, lots });
    // Both ask for as many draws as the chance needs: 0.02 is what the rules of the draws allow.
    expect(Math.abs(alone.chanceKept! - verdict.chanceKept!)).toBeLessThan(0.02);
    expect(verdict.readings!.because.join()).toMatch(
      /Weighed by what coupons or chart say of lot 7: \d+ of \d+/,
    );
  });

  it('weigh together with readings after the heat', () => {
    const lots = [plain];
    const readings = [{ channel: 'history', kind: 'yield', value: 235 } as const];
    const both = judge(job, { ...METAL, attachment: 'welded wires', lots, readings });
    const only = judge(job, { ...METAL, attachment: 'welded wires', lots });
    // A bar of 85 % of a typical start.
    const nominal = ({ channels: [one] }: typeof both) => one!.yieldKeptFraction.nominal;
    expect(nominal(both)).toBeLessThan(nominal(only));
    expect(both.readings!.because.join()).toMatch(
      /Weighed by what coupons or chart .*A tensile test is the yield itself/,
    );
  });
});

describe('lotCard', () => {
  const card = lotCard({ name: 'lot 7', ...METAL, coupons: [coupon()] });

  it('comes back from its file as the same lot', () => {
    expect(lotOfCard(JSON.parse(lotCardText(card))).weights).toEqual(plain.weights);
    expect(card.membersHash).toBe(membersHash());
  });

  it('refuses other members, a card that is none, and weights of other members', () => {
    expect(() => lotOfCard({ ...card, membersHash: '0123' })).toThrow(
      /other plausible metals.*again from its coupons/s,
    );
    expect(() => lotOfCard({ ...card, coupons: [{ name: 'C1' }] })).toThrow(/the key "heat"/);
    const stale = { ...plain, membersHash: '0123' };
    expect(() => strengthAfter(job, { ...METAL, lots: [stale] })).toThrow(
      /weighed with other plausible metals/,
    );
  });
});

describe('suggestCoupon', () => {
  it('ranks dips by what they leave open, and what it promises is about what such coupons give', () => {
    const { draws } = strengthAfter(job, METAL, { draws: 400, endOnly: true });
    const suggestions = suggestCoupon(draws, { ...METAL, kind: 'yield', before: 276 });
    const [best] = suggestions;
    const worst = suggestions[suggestions.length - 1]!;
    expect(best!.sdAfter).toBeLessThan(0.8 * best!.sdBefore);
    // Half a minute at 205 °C does hardly anything to any member: it tells nothing of this job.
    expect(worst.sdAfter).toBeGreaterThan(best!.sdAfter);
    // Some members as the truth, each coupon read without error: the spread left, on average.
    const metals = drawMetals(METAL, 400);
    const run = strengthAfter(dipExposure(best!.dip), METAL, { draws: 400, endOnly: true }).draws.yieldKept;
    const spread = Array.from({ length: TRUTHS }, (_, k) => {
      const { weights } = weigh(coupon({ heat: best!.dip, after: 276 * run[40 + 37 * k]! }));
      const few = weights.slice(0, metals.metals.length);
      const total = few.reduce((a, b) => a + b, 0);
      const mean = draws.yieldKept.reduce((sum, x, i) => sum + few[i]! * x, 0) / total;
      return draws.yieldKept.reduce((sum, x, i) => sum + few[i]! * (x - mean) ** 2, 0) / total;
    });
    const left = Math.sqrt(spread.reduce((a, b) => a + b, 0) / spread.length);
    // Few truths tell a spread to about a third, and bath and lag widen it.
    expect(left).toBeGreaterThan(best!.sdAfter / 1.6);
    expect(left).toBeLessThan(best!.sdAfter * 1.6);
  });
});
