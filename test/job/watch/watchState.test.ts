import { describe, expect, it } from 'vitest';
import { holdAt, probeState, spend, watchState } from '../../../lib/job';

const place = {
  name: 'TC1',
  word: 'kept' as const,
  blind: [],
  usedShare: 0.1,
  usedAtMost: 0.3,
  left: [
    { tempC: 100, holdS: 3600 },
    { tempC: 200, holdS: 400 },
    { tempC: 300, holdS: 4 },
  ],
  limitC: 226.67,
};
const judgement = (over: object = {}, spent = new Map<string, number>()) => ({
  soFar: { places: [{ ...place, ...over }], notJudged: [] },
  spent,
});
const at = (tempC?: number, over: object = {}, spent?: Map<string, number>) =>
  probeState({ name: 'TC1', tempC }, judgement(over, spent))!;

describe('time left at a heat', () => {
  it('lies between what was asked, in proportion, and is none beyond the hottest', () => {
    expect(holdAt(place, 20)).toBe(3600);
    expect(holdAt(place, 250)).toBeCloseTo(40, 6); // geometric mean of 400 and 4
    expect(holdAt(place, 301)).toBe(0);
  });

  it('runs out as time goes by at that heat', () => {
    const one = judgement();
    const now = { atS: 0, intervalS: 1, probes: [{ name: 'TC1', tempC: 250 }] };
    for (let s = 0; s < 39; s++) spend(one, now, 1);
    expect(probeState({ name: 'TC1', tempC: 200 }, one)!.leftS).toBeCloseTo(400 / 40, 6);
    spend(one, now, 2);
    expect(probeState({ name: 'TC1', tempC: 200 }, one)).toMatchObject({ leftS: 0, level: 'stop' });
  });
});

describe('what a probe is said', () => {
  it('is stop at the limit, without time left, when lost, and without a reading', () => {
    expect(at(150).level).toBe('fine');
    expect(at(215).level).toBe('near');
    expect(at(226.67).level).toBe('stop');
    expect(at(301, { limitC: undefined }).level).toBe('stop');
    expect(at(50, { word: 'lost' }).level).toBe('stop');
    expect(at(undefined).level).toBe('stop');
  });

  it('is never go on where nothing clears it', () => {
    expect(at(150, { blind: ['a gap'] })).toMatchObject({
      level: 'near',
      say: 'Heat may be hidden here: measure before it is used.',
    });
    expect(probeState({ name: 'TC1', tempC: 150 }, undefined)!.level).toBe('unknown');
  });
});

describe('the line to be seen from the bench', () => {
  const now = { atS: 9, intervalS: 1, probes: [{ name: 'TC1', tempC: 150 }] };
  const state = (silentS: number, reading = now) =>
    watchState('log.csv', reading, judgement(), { silentS, notes: [] });

  it('is that of the worst probe', () => {
    expect(state(0).headline).toBe('Go on');
    expect(state(0, { ...now, probes: [{ name: 'TC1', tempC: 250 }] }).headline).toBe('STOP: TC1');
  });

  it('says when the logger fell silent, by its own pace', () => {
    expect(state(3.5)).toMatchObject({ level: 'stop', headline: 'STOP: no new reading for 3.5 s' });
    expect(state(3.5, { ...now, intervalS: 5 }).headline).toBe('Go on');
  });

  it('says that it waits', () => {
    const waits = watchState('log.csv', 'This log has no rows', undefined, { silentS: 1, notes: [] });
    expect(waits).toMatchObject({ level: 'unknown', headline: 'Waiting for readings of log.csv' });
    expect(waits.notes).toEqual(['This log has no rows']);
  });
});
