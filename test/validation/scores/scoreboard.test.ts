import { describe, expect, it } from 'vitest';
import { evidenceTable, rowPrediction } from '../../../lib/kinetics';
import {
  alloyOf,
  boardScores,
  coverageByLot,
  measuredWords,
  practiceWords,
  rangeOf,
  sampleOf,
  scoreboard,
} from '../../../lib/validation';
import { clockOfScore } from '../../../lib/validation/scores/clockOfScore';
import { inFull } from '../../setup/extent';

const words = measuredWords();

describe('words over every measured row, judged as a well fixed probe', () => {
  it('are never wrong', () => {
    expect(words.filter(({ wrong }) => wrong).map(({ row }) => row.id)).toEqual([]);
  });

  // The rule of a tenth is a habit: the words must hold for parts that can live with less or with more.
  it.each(inFull ? [0.05, 0.2, 0.3] : [0.05])('nor for an allowance of %d', (allowance) => {
    expect(measuredWords(allowance).filter(({ wrong }) => wrong)).toEqual([]);
  });

  // A list that is empty because nothing is ever said would be no merit: two thirds of what is known get a sure word.
  it('are sure where they can be', () => {
    const known = words.filter(({ truth }) => truth !== null);
    const sure = known.filter(({ word }) => word !== 'uncertain');
    expect(known.length).toBeGreaterThan(40);
    expect(sure.length / known.length).toBeGreaterThan(2 / 3);
  });

  it('leave out nothing but practice, ultimate strength, strength in MPa and alloys without a card', () => {
    const ids = new Set(words.map(({ row }) => row.id));
    const left = evidenceTable().filter(
      ({ id, known, property, unit }) =>
        !ids.has(id) && known !== 'practice' && property === 'yield' && unit === 'fraction',
    );
    expect([...new Set(left.flatMap(({ alloys }) => alloys))].sort()).toEqual(['6005A', '6013']);
  });

  it('the rule of 440 °F is shown and no measurement', () => {
    expect(practiceWords().map(({ row }) => row.lot)).toEqual(['shop rule', 'shop rule']);
  });
});

describe('the scoreboard', () => {
  const scores = boardScores(200);
  const both = scores.filter(({ model }) => model === 'both families');

  it.each([
    ['all', () => 'all'],
    ['sample', sampleOf],
    ['range', rangeOf],
    ['alloy', alloyOf],
  ])('coverage by lot is not contradicted at 5 %%: by %s', (_, groupOf) => {
    for (const line of scoreboard(both, groupOf)) {
      expect(line.chanceOfMisses, line.group).toBeGreaterThan(0.05);
      // The same rows, counted once more.
      expect(line.chanceOfMisses).toBe(
        coverageByLot(both.filter(({ row }) => groupOf(row) === line.group)).chance,
      );
    }
  });

  it('interval score: at most half of what was frozen, on all rows and on those held out', () => {
    const [all] = scoreboard(both, () => 'all');
    expect(all!.intervalScore!).toBeLessThanOrEqual(all!.frozenScore! / 2);
    const heldOut = scoreboard(both, sampleOf).find(({ group }) => group === 'held out')!;
    expect(heldOut.intervalScore!).toBeLessThanOrEqual(heldOut.frozenScore! / 2);
  });

  it('holds every row of strength kept once for each model that answers it', () => {
    const ids = both.map(({ row }) => row.id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(scoreboard(both, sampleOf).reduce((sum, { rows }) => sum + rows, 0)).toBe(ids.length);
  });
});

describe('coverage by lot', () => {
  const rows = (lot: string, insides: readonly boolean[]) =>
    insides.map((inside) => ({ row: { ...evidenceTable()[0]!, lot }, inside }));

  // Binomial by hand: one lot missed of one, twice 0.1; two of two, twice 0.01; none of one, twice 0.9 and at most 1.
  it('counts lots, not rows', () => {
    expect(coverageByLot(rows('a', [false, false, false])).chance).toBeCloseTo(0.2, 12);
    expect(coverageByLot([...rows('a', [false]), ...rows('b', [false])]).chance).toBeCloseTo(0.02, 12);
    expect(coverageByLot(rows('a', [true, true])).chance).toBe(1);
  });

  // Half a lot missed of two: one or more of two, 1 − 0.81; none, 0.81; twice the less.
  it('rounds a broken share against the band', () => {
    const { chance, missedLots } = coverageByLot([...rows('a', [true, false]), ...rows('b', [true])]);
    expect(missedLots).toBe(0.5);
    expect(chance).toBeCloseTo(0.38, 12);
  });
});

describe('the factor in time', () => {
  const row = evidenceTable().find(({ id }) => id === '6061-handbook-yield-232.2C-0.5h')!;

  // What the median says of twice the time is measured: the models need twice the time. The grid of stretches has steps of
  // 1.78, between which the median bends; an eighth of a step.
  it('finds a clock that is twice too slow', () => {
    const exposure = [{ tempC: 232.2, timeS: 3600 }];
    const value = rowPrediction({ ...row, exposure }, { count: 40 })!.median;
    const factor = clockOfScore({ ...row, measured: { ...row.measured, value } })!;
    expect(Math.abs(Math.log(factor / 2))).toBeLessThan(Math.log(1.78) / 8);
  });

  it('has nothing to say of a side', () => {
    expect(clockOfScore({ ...row, measured: { ...row.measured, kind: 'below' } })).toBeNull();
  });
});
