import { describe, expect, it } from 'vitest';
import { isothermal, thermalHistory } from '../../lib/history';
import { coverFromNeighbours } from '../../lib/strength/coverFromNeighbours';

describe('coverFromNeighbours', () => {
  const whole = thermalHistory([0, 50, 100], [20, 200, 40]);

  it('changes nothing where everything was recorded', () => {
    expect(coverFromNeighbours(whole, [], [0, 100])).toEqual({ history: whole, assumedS: 0, unknownS: 0 });
  });

  it('takes the hottest other reading after the probe stopped', () => {
    const { history, assumedS, unknownS } = coverFromNeighbours(
      thermalHistory([0, 10], [20, 30]),
      [whole, isothermal(100, 100)],
      [0, 100],
    );
    expect(assumedS).toBe(90);
    expect(unknownS).toBe(0);
    expect(Math.max(...history.tempC)).toBe(200);
    // After 90 s the other probe, at 100 °C, is the hotter one.
    expect(history.tempC[history.tempC.length - 1]).toBe(100);
  });

  it('holds the hotter end of a gap when no other probe was hotter', () => {
    const { history } = coverFromNeighbours(
      thermalHistory([0, 10, 60, 70], [20, 180, 90, 80], [1]),
      [isothermal(50, 70)],
      [0, 70],
    );
    expect(history.gapAfter).toBeUndefined();
    expect(history.tempC.filter((t) => t === 180).length).toBeGreaterThan(1);
  });

  it('says what nobody knows', () => {
    expect(coverFromNeighbours(whole, [], [0, 250]).unknownS).toBe(150);
  });
});
