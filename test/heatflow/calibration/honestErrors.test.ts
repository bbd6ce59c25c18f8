import { describe, expect, it } from 'vitest';
import { calibrateToLog, type HeatModel } from '../../../lib/heatflow';
import { thermalHistory } from '../../../lib/history';
import { seededRandom } from '../../../lib/statistics';

/** A rise within seconds and a slow decay stand in for any forward model, at no cost. */
type Names = 'efficiency' | 'decayS';
const truth = { efficiency: 0.62, decayS: 150 };
const parameters = {
  efficiency: { start: 0.5, low: 0.3, high: 0.9 },
  decayS: { start: 200, low: 50, high: 500 },
};
const timeS = Float64Array.from({ length: 1200 }, (_, i) => i);
const riseK = (t: number, decayS: number) => (t < 0 ? 0 : 500 * (Math.exp(-t / decayS) - Math.exp(-t / 8)));
const model: HeatModel<Names> = ({ efficiency, decayS }) => [
  thermalHistory(
    timeS,
    timeS.map((t) => 22 + efficiency * riseK(t - 60, decayS)),
  ),
];
const [unread] = model(truth, []);

/** The log of `truth`, with white noise and with drift that lasts `lastsS`: first-order autoregressive. */
function logOf(seed: number, whiteC: number, driftC: number, lastsS: number) {
  const random = seededRandom(seed);
  const kept = Math.exp(-1 / lastsS);
  let drift = random.normal();
  const tempC = unread!.tempC.map((temp) => {
    const read = temp + whiteC * random.normal() + driftC * drift;
    drift = kept * drift + Math.sqrt(1 - kept * kept) * random.normal();
    return read;
  });
  return thermalHistory(timeS, tempC);
}

const FITS = 60;

// Mean square of error over standard error: 1 when standard errors are honest, within three times √(2/60). Noise that
// lasts T s is estimated from about 3 T lags, a variance known within √(2 (6 T + 1)/1200): T = 15 gives 0.39, and one
// over such a variance is 1 + 0.39² on average, so the upper end is 1.15 times as far.
const [low, high] = [1 - 3 * Math.sqrt(2 / FITS), 1 + 3 * Math.sqrt(2 / FITS)];

describe('standard errors of a calibration', () => {
  it.each([
    { noise: 'white noise', white: 1, drift: 0, lastsS: 1, high },
    { noise: 'noise that lasts', white: 0, drift: 1, lastsS: 15, high: 1.15 * high },
    { noise: 'white noise on a slow drift', white: 1, drift: 0.7, lastsS: 15, high: 1.15 * high },
  ])('say how far off the fit is: $noise', ({ white, drift, lastsS, high }) => {
    const squares = { efficiency: 0, decayS: 0 };
    for (let seed = 0; seed < FITS; seed++) {
      const channel = { name: 'TC1', history: logOf(seed, white, drift, lastsS) };
      const { values, standardErrors } = calibrateToLog([channel], model, { parameters });
      for (const name of ['efficiency', 'decayS'] as const)
        squares[name] += ((values[name].nominal - truth[name]) / standardErrors[name]) ** 2;
    }
    for (const sum of Object.values(squares)) {
      expect(sum / FITS).toBeGreaterThan(low);
      expect(sum / FITS).toBeLessThan(high);
    }
  });
});
