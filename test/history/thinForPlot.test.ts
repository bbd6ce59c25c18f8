import { describe, expect, it } from 'vitest';
import { thermalHistory, thinForPlot } from '../../lib/history';
import { fc } from '../setup/fc';
import { anyHistory } from './histories';

describe('thinForPlot', () => {
  it('keeps a one-sample peak and a one-sample dip out of a million', () => {
    const n = 1_000_000;
    const tempC = new Float64Array(n).map((_, i) => 200 + Math.sin(i / 1e4));
    tempC[123_457] = 612;
    tempC[765_432] = -5;
    const thin = thinForPlot(
      thermalHistory(
        new Float64Array(n).map((_, i) => i / 10),
        tempC,
      ),
      2000,
    );
    expect(thin.timeS.length).toBeLessThanOrEqual(2000);
    expect(thin.tempC[thin.timeS.indexOf(12_345.7)]).toBe(612);
    expect(thin.tempC[thin.timeS.indexOf(76_543.2)]).toBe(-5);
  });

  it('keeps own samples only, in order, with extremes, ends and gaps', () => {
    fc.assert(
      fc.property(anyHistory, fc.integer({ min: 4, max: 45 }), (history, maxPoints) => {
        const thin = thinForPlot(history, maxPoints);
        const gaps = [...(history.gapAfter ?? [])];
        expect(thin.timeS.length).toBeLessThanOrEqual(
          Math.min(history.timeS.length, Math.max(maxPoints, 4 * (gaps.length + 1) + 2)),
        );
        expect(Math.max(...thin.tempC)).toBe(Math.max(...history.tempC));
        expect(Math.min(...thin.tempC)).toBe(Math.min(...history.tempC));
        thin.timeS.forEach((t, i) => {
          expect(thin.tempC[i]).toBe(history.tempC[history.timeS.indexOf(t)]);
          if (i > 0) expect(t).toBeGreaterThan(thin.timeS[i - 1]!);
        });
        // Every gap still lies between the same two samples.
        const thinGaps = [...(thin.gapAfter ?? [])];
        expect(thinGaps.map((g) => thin.timeS[g])).toEqual(gaps.map((g) => history.timeS[g]));
        expect(thinGaps.map((g) => thin.timeS[g + 1])).toEqual(gaps.map((g) => history.timeS[g + 1]));
      }),
    );
  });
});
