import { describe, expect, it } from 'vitest';
import {
  asExposure,
  type Exposure,
  editExposure,
  exactly,
  onOneClock,
  placeInRange,
  type RunsDoubt,
} from '../../lib/exposure';
import { thermalHistory } from '../../lib/history';
import { strengthAfter } from '../../lib/strength';

const history = thermalHistory([0, 10, 20, 600], [20, 250, 20, 20]);
/** The same heat, half and twice as slow. */
const runsS = [0.5, 2].map((slow) => history.timeS.map((t) => slow * t));
const paced: Exposure = {
  ...exactly(history),
  doubts: [{ kind: 'heat flow', of: 'pace', runsK: runsS.map(() => new Float64Array(4)), runsS }],
};
const metal = { alloy: '6061', temper: 'T6' };

describe('ways with times of their own', () => {
  it('are run at their own times: each draw keeps what its way alone would', () => {
    const draws = 40;
    const { yieldKept } = strengthAfter(paced, metal, { draws, endOnly: true }).draws;
    const alone = runsS.map(
      (timeS) => strengthAfter({ ...history, timeS }, metal, { draws, endOnly: true }).draws.yieldKept,
    );
    for (let i = 0; i < draws; i++) {
      const way = placeInRange(paced.doubts[0]!, i) < 0.5 ? 0 : 1;
      expect(yieldKept[i]).toBeCloseTo(alone[way]![i]!, 12);
    }
  });

  it('are told at the times of the history where one clock is needed', () => {
    const [doubt] = onOneClock(paced).doubts;
    expect(doubt).not.toHaveProperty('runsS');
    const slow = (doubt as RunsDoubt).runsK[1]!;
    // Twice as slow the way is half up the flank at 10 s, 135 °C, and at its 250 °C at 20 s.
    expect(slow[1]).toBeCloseTo(135 - 250, 9);
    expect(slow[2]).toBeCloseTo(250 - 20, 9);
    expect(editExposure(paced, (h) => h).doubts[0]).not.toHaveProperty('runsS');
  });

  it('go forward, and only one doubt of a history has them', () => {
    const back = {
      ...paced,
      doubts: [{ ...paced.doubts[0]!, runsS: [history.timeS, history.timeS.map((t) => -t)] }],
    };
    expect(() => asExposure(back as Exposure)).toThrow();
    expect(() => asExposure({ ...paced, doubts: [...paced.doubts, ...paced.doubts] })).toThrow(
      /times of their own/,
    );
  });
});
