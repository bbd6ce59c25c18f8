import { describe, expect, it } from 'vitest';
import { clockKnots } from '../../../lib/heatflow/surface/clockKnots';
import { type PhaseClock, placeOfTime, timeAtPlace } from '../../../lib/heatflow/surface/phaseClock';
import { tempAt } from '../../../lib/history';

/** A wait of nothing, an arc of 20 s, and so long a wait. */
const clock = (arcS: number, waitS: number): PhaseClock => ({
  boundsS: [0, 0, arcS, arcS + waitS],
  longestS: [1e-3, 30, 600],
});
/** A peak so long after the arc went out. */
const peaked = (arcS: number, waitS: number, peakS: number) => {
  const timeS = Float64Array.from({ length: 4001 }, (_, i) => (i / 4000) * (arcS + waitS));
  const tempC = timeS.map((t) => 20 + 280 * Math.exp(-(((t - arcS - peakS) / 12) ** 2)));
  return { clock: clock(arcS, waitS), history: { timeS, tempC } };
};

describe('the clock of phases', () => {
  it('has the same place so long after the arc went out, however long the wait', () => {
    for (const [arcS, waitS] of [
      [20, 600],
      [25, 90],
    ] as const) {
      const own = clock(arcS, waitS);
      expect(timeAtPlace(own, 2 + Math.log(5) / Math.log(61))).toBeCloseTo(arcS + 40, 9);
      for (const t of [1, arcS / 2, arcS + 3, arcS + 70])
        expect(timeAtPlace(own, placeOfTime(own, t))).toBeCloseTo(t, 9);
      expect(timeAtPlace(own, 3)).toBeCloseTo(arcS + waitS, 9);
    }
  });
});

describe('clockKnots', () => {
  it('follow every history given within 0.3 K, which the knots of one alone do not', () => {
    const both = [peaked(20, 600, 5), peaked(25, 500, 40)];
    const missed = (knots: readonly number[], { clock: own, history }: (typeof both)[0]) => {
      const timeS = Float64Array.from(knots, (place) => timeAtPlace(own, place));
      const told = { timeS, tempC: timeS.map((t) => tempAt(history, t)) };
      let worst = 0;
      for (const [i, t] of history.timeS.entries())
        if (history.tempC[i]! > 140) worst = Math.max(worst, Math.abs(tempAt(told, t) - history.tempC[i]!));
      return worst;
    };
    const knots = clockKnots(both);
    // Between two places looked at, at most 2 s apart here, the peak bends by another 280/12² · 2²/4 K at most.
    for (const one of both) expect(missed(knots, one)).toBeLessThan(0.3 + 2);
    expect(missed(clockKnots([both[0]!]), both[1]!)).toBeGreaterThan(5);
    expect(knots.length).toBeLessThan(250);
  });
});
