import { describe, expect, it } from 'vitest';
import { thermalHistory } from '../../../lib/history';
import { precipitateModel } from '../../../lib/kinetics';
import { rateAt } from '../../../lib/kinetics/metals/arrhenius';
import { curveLeft, delayedLeft } from '../../../lib/kinetics/metals/softening';
import {
  anchoredConstants,
  anchoredParameters,
  anchorResiduals,
} from '../../../lib/validation/fits/fitPrecipitateToAnchors';

/**
 * The family `delayed` stands in for the size-class model, which is a thousand times too slow for hundreds of members.
 * With the constants below (least squares on this very grid) it repeats the loss of 6061-T6 of the calibrated set.
 * 300 °C and above include dissolution in that model; here it is inside the curve.
 */
const softening = { timeS: Math.exp(13.138), atC: 200, energyJPerMol: 152_480 };
const delay = { timeS: 174.3, atC: 260, energyJPerMol: 169_790 };
const [POWER, FLOOR] = [0.4923, 0.2519];

const TIMES = [1, 10, 60, 300, 1800, 36_000];
/** Worst difference of the fit, rounded up: what the stand-in costs. */
const COST = 0.014;

/** The same after the refit to the handbook rows and the weld-like anchors: no delay is left. */
const ANCHORED = {
  softening: { timeS: Math.exp(14.74), atC: 200, energyJPerMol: 181_860 },
  power: 0.4475,
  floor: 0.2559,
};
const ANCHORED_COST = 0.022;

describe('the delayed curve against the size-class model', () => {
  const model = precipitateModel('6061', { parameters: 'calibrated' });
  const start = model.start('T6');

  it.each([204, 232, 260, 288, 316, 350, 371])('6061-T6 from 1 s to 10 h at %d °C', (tempC) => {
    const { yieldKeptFraction } = model.advance(
      start,
      thermalHistory([0, ...TIMES], [tempC, ...TIMES.map(() => tempC)]),
    );
    TIMES.forEach((timeS, i) => {
      const left = delayedLeft(timeS * rateAt(softening, tempC), POWER, timeS * rateAt(delay, tempC));
      expect(Math.abs(FLOOR + (1 - FLOOR) * left - yieldKeptFraction[i + 1]!)).toBeLessThan(COST);
    });
  });

  const anchored = precipitateModel('6061', { parameters: anchoredParameters() });
  const anchoredStart = anchored.start('T6');

  it.each([204, 232, 260, 288, 316, 350, 371])(
    'refitted to the anchors, at %d °C: the curve alone',
    (tempC) => {
      const { yieldKeptFraction } = anchored.advance(
        anchoredStart,
        thermalHistory([0, ...TIMES], [tempC, ...TIMES.map(() => tempC)]),
      );
      const { softening: clock, power, floor } = ANCHORED;
      TIMES.forEach((timeS, i) => {
        const left = curveLeft(timeS * rateAt(clock, tempC), power);
        expect(Math.abs(floor + (1 - floor) * left - yieldKeptFraction[i + 1]!)).toBeLessThan(ANCHORED_COST);
      });
    },
  );

  // The anchors (6005A-T6, weld cycles of 300 and 350 °C: softening is notable) are missed by 2.5 and 2.4 standard errors
  // with the constants calibrated on ageing (sum of squares of all rows 152), by 1.4 and 0.9 after the refit (25).
  it('the refit meets the anchors that the calibrated constants miss', () => {
    const worst = Math.max(...anchorResiduals(anchoredConstants).map(Math.abs));
    expect(worst).toBeLessThan(3);
    expect(anchorResiduals(anchoredConstants).reduce((sum, r) => sum + r * r, 0)).toBeLessThan(45);
  });
});
