import { describe, expect, it } from 'vitest';
import { checkChart, temperMade } from '../../../lib/heattreat';
import { weightedQuantiles } from '../../../lib/statistics';
import { drawMetals, MOST_DRAWS } from '../../../lib/strength';
import { chartFinding, chartLot, lotCard, lotOfCard } from '../../../lib/verify';
import { type Corner, programme, SOUND, soundLog } from '../../heattreat/invent';

const T6 = { alloy: 'A356.0', temper: 'T6' } as const;
const charts = new Map<number, ReturnType<typeof aged>>();
const chart = (hours: number) => {
  const known = charts.get(hours) ?? aged(hours);
  charts.set(hours, known);
  return known;
};
const aged = (hours: number) => {
  const corners = SOUND.map(([h, c], k): Corner => [k === 9 ? 41 + hours : k === 10 ? 43 + hours : h, c]);
  const log = soundLog({ 'Load 1': programme(corners), 'Load 2': programme(corners) }, { toH: 60 });
  const check = checkChart(log, 'A356.0 T6 sand casting');
  const made = temperMade(check);
  return { check, made, found: chartFinding(check, made) };
};
const starts = Float64Array.from(drawMetals(T6, MOST_DRAWS).metals, ({ startYieldMPa }) => startYieldMPa);
const bandOf = (weights?: Float64Array) =>
  weightedQuantiles(starts, [0.05, 0.5, 0.95], weights) as [number, number, number];

describe('chartLot', () => {
  it('makes members of the start weigh as the normal that the chart makes of the card’s', () => {
    const { made, found } = chart(4);
    const { weights } = chartLot('lot 7', T6, found);
    const [low, middle, high] = bandOf(weights);
    const [allLow, , allHigh] = bandOf();
    // Aged as set: about the card's own yield, and never wider than it.
    expect(Math.abs(middle / made.bySchedule.asSet.nominal - 1)).toBeLessThan(0.03);
    expect(high - low).toBeLessThan(allHigh - allLow);
  });

  it('goes down with an hour of ageing instead of four', () => {
    const [, short] = bandOf(chartLot('lot 8', T6, chart(1).found).weights);
    const [, usual] = bandOf(chartLot('lot 7', T6, chart(4).found).weights);
    expect(short).toBeLessThan(usual - 3);
  });

  it('weighs as much in a card as by itself, and with coupons by both', () => {
    const { found } = chart(1);
    const alone = lotOfCard(lotCard({ name: 'lot 8', ...T6, chart: found, coupons: [] }));
    expect(alone.weights).toEqual(chartLot('lot 8', T6, found).weights);
    expect(alone.countsChart).toBe(true);
    const coupon = {
      name: 'C1',
      heat: { tempC: 250, timeS: 600, into: 'salt', thicknessMm: 4 },
      kind: 'yield',
      before: 208,
      after: 183,
    } as const;
    const byCoupon = lotOfCard(lotCard({ name: 'lot 8', ...T6, coupons: [coupon] }));
    const both = lotOfCard(lotCard({ name: 'lot 8', ...T6, chart: found, coupons: [coupon] }));
    expect(both.weights).toEqual(byCoupon.weights.map((weight, i) => weight * alone.weights[i]!));
    expect(both.effectiveMembers).toBeLessThan(byCoupon.effectiveMembers);
    expect(() => lotCard({ name: 'lot 8', ...T6, coupons: [] })).toThrow(/neither coupons nor a chart/);
  });

  it('says nothing of a chart that cannot tell', () => {
    const { check, made } = chart(4);
    const blind = { ...made, sensors: made.sensors.map((one) => ({ ...one, word: 'cannot tell' as const })) };
    expect(() => chartFinding(check, blind)).toThrow(/does not tell how this lot was aged/);
  });
});
