import { describe, expect, it } from 'vitest';
import { findTemper, loadAlloy } from '../../../lib/alloy';
import { listSchedules, scheduledHistory } from '../../../lib/heattreat';
import { ageingCurve, precipitateModel } from '../../../lib/kinetics';

/**
 * Every schedule that begins with a solution treatment, through both models, against the typical yield of its temper
 * (Aluminum Association and handbook values, each with its band and source on the alloy card). Schedules: ASM Handbook
 * vol. 4, ASTM B917 and B918 practice, per row in data/schedules. Some of these tempers are also rows of the fits, so
 * this holds cards, schedules and models together; it is no blind test.
 */
const WAIT_H = 24;
/** Corners outside the band of the temper, each with why. Half-way through the times both models are inside. */
const MISSES: Readonly<Record<string, string>> = {
  '356.0 T6 permanent mould casting, ageing curve, least heat':
    '2 h at 148 °C: the ageing curve leaves out clusters and reads low in the first hours below 160 °C',
  '356.0 T7 sand casting, ageing curve, least heat':
    'three to five hours at 204 °C is the model’s peak of 356, where T7 should lie past it',
  '356.0 T7 sand casting, ageing curve, as set': 'the same: 208 MPa, the band ends at 207',
  '356.0 T7 sand casting, precipitate model, least heat': 'the same',
  '356.0 T71 sand casting, ageing curve, least heat': '3 h at 240 °C: 167 MPa, the band ends at 165',
  '356.0 T71 sand casting, precipitate model, least heat': 'the same, 173 MPa',
  '356.0 T71 sand casting, precipitate model, as set': 'the same, 166 MPa',
  '356.0 T71 permanent mould casting, ageing curve, least heat': 'the same schedule at its least heat',
  '356.0 T71 permanent mould casting, precipitate model, least heat': 'the same',
  '6061 T6 sheet and plate, ageing curve, least heat':
    '18 h at 154 °C, 228 MPa: the ageing curve leaves out clusters and reads low below 160 °C',
  '6061 T4 any form, ageing curve, least heat': 'natural ageing is outside of the ageing curve, by its doc',
  '6061 T4 any form, ageing curve, as set': 'the same',
  '6061 T4 any form, ageing curve, most heat': 'the same',
  '6082 T6 bar, two steps, precipitate model, as set':
    'a two-step laboratory cycle on bar: 249 MPa, the band begins at 250',
  '6082 T6 bar, two steps, precipitate model, most heat': 'the same, 244 MPa',
  'A356.0 T6 sand casting, ageing curve, least heat': '3 h at 148 °C: reads low in the first hours, as above',
  'A356.0 T6 casting, as quoted from ASTM B917, ageing curve, least heat': 'the same',
  'A356.0 T61 permanent mould casting, ageing curve, least heat':
    '6 h at 148 °C, 179 MPa: the band begins at 180',
};

const last = (values: Float64Array) => values[values.length - 1]!;
const rows = listSchedules()
  .filter(({ startsFrom, alloy }) => startsFrom === 'any' && !/357/.test(alloy))
  .flatMap((schedule) => {
    const card = loadAlloy(schedule.alloy);
    const { low, high } = findTemper(card, schedule.temper).entry.yieldMPa;
    return (['least heat', 'as set', 'most heat'] as const).flatMap((corner) => {
      const history = scheduledHistory(schedule, {
        corner,
        fromQuench: true,
        waitH: schedule.wait?.leastH ?? WAIT_H,
      });
      return [ageingCurve(card), precipitateModel(card, { parameters: 'calibrated' })].map((model) => {
        const { yieldMPa } = model.advance(model.start({ solutionTreated: true }) as never, history);
        const mpa = last(yieldMPa);
        const name = `${schedule.name}, ${model.name === 'ageing curve' ? 'ageing curve' : 'precipitate model'}, ${corner}`;
        return { name, mpa, inside: mpa >= low && mpa <= high };
      });
    });
  });

describe('schedules make the typical yield of their temper', () => {
  it.each(rows)('$name', ({ name, inside }) => {
    expect(inside).toBe(!Object.hasOwn(MISSES, name));
  });

  it('names no miss that is none', () => {
    const names = rows.map(({ name }) => name);
    expect(Object.keys(MISSES).filter((name) => !names.includes(name))).toEqual([]);
  });
});
