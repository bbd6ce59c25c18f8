import { describe, expect, it } from 'vitest';
import { exposureShare, findPasses } from '../../lib/exposure';
import { isothermal, join, scheduleHistory, thermalHistory } from '../../lib/history';
import { TemperbookError } from '../../lib/quantity';
import { seededRandom } from '../../lib/statistics';
import { fc } from '../setup/fc';
import { inventedWeld } from './traces';

describe('findPasses', () => {
  it('finds passes that start before the part has cooled, whatever the waits, the interval and the noise', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 45, max: 900 }), { minLength: 1, maxLength: 6 }),
        fc.constantFrom(0.1, 0.5, 1),
        fc.constantFrom(0, 0.3, 1),
        fc.nat(1000),
        (waitsS, intervalS, sigmaK, seed) => {
          const weld = inventedWeld({ waitsS, intervalS, sigmaK, seed });
          const passes = findPasses(weld.history);
          expect(passes.length).toBe(waitsS.length);
          passes.forEach((pass, k) => {
            // The arc's bell, 4 s wide, is 2 % up at arc start and still 0.1 % up 2.5 s before it.
            expect(Math.abs(pass.startS - weld.arcStartsS[k]!)).toBeLessThan(3 + intervalS);
            expect(Math.abs(pass.interpassC - weld.interpassC[k]!)).toBeLessThan(0.02 * 260 + 4 * sigmaK + 1);
            expect(Math.abs(pass.peakS - weld.arcStartsS[k]! - 8.5)).toBeLessThan(1.5 + intervalS);
          });
        },
      ),
      { numRuns: 60 },
    );
  });

  it('gives times, rates and temperatures of one clean pass', () => {
    const trace = thermalHistory([0, 60, 70, 170, 300], [20, 20, 420, 120, 20]);
    expect(findPasses(trace)).toEqual([
      {
        number: 1,
        startS: 60,
        peakS: 70,
        endS: 300,
        peakC: 420,
        interpassC: 20,
        heatingRateKPerS: 40,
        coolingRateKPerS: 3,
      },
    ]);
  });

  it('takes a soak with controller ripple for one heating', () => {
    const random = seededRandom(3);
    const timeS = Float64Array.from({ length: 4000 }, (_, i) => i * 10);
    const tempC = timeS.map(
      (t) => Math.min(20 + t / 20, 227 + 3 * Math.sin(t / 300)) + 0.3 * random.normal(),
    );
    const passes = findPasses(thermalHistory(timeS, tempC));
    expect(passes.length).toBe(1);
    expect(passes[0]!.startS).toBeLessThan(60);
    expect(passes[0]!.peakC).toBeGreaterThan(229);
  });

  it('tells a held preheat from the pass that follows it', () => {
    const trace = scheduleHistory([
      { tempC: 20, holdS: 300 },
      { tempC: 120, holdS: 600, rateKPerS: 0.5 },
      { tempC: 400, holdS: 0, rateKPerS: 30 },
      { tempC: 60, holdS: 0, rateKPerS: 2 },
    ]);
    const fine = thermalHistory(
      Float64Array.from({ length: 1270 }, (_, i) => i),
      Float64Array.from({ length: 1270 }, (_, i) => at(trace, i)),
    );
    expect(findPasses(fine).map(({ interpassC, startS }) => [interpassC, startS])).toEqual([[120, 1100]]);
  });

  it('does not list a pass whose heating was not recorded, and lists one that was cut off', () => {
    const cooling = thermalHistory([0, 100, 200], [400, 200, 100]);
    expect(findPasses(cooling)).toEqual([]);
    const cutOff = findPasses(join([cooling, thermalHistory([0, 10], [100, 300])]));
    expect(cutOff.map(({ peakC, endS }) => [peakC, endS])).toEqual([[300, 210]]);
    expect(cutOff[0]!.coolingRateKPerS).toBe(0);
  });

  it('finds nothing in a part that is left alone', () => {
    expect(findPasses(isothermal(20, 3600))).toEqual([]);
    expect(findPasses(thermalHistory([0], [20]))).toEqual([]);
  });

  it('takes another least rise, and refuses a silly one', () => {
    const ripple = thermalHistory([0, 10, 20, 30, 40], [20, 30, 20, 30, 20]);
    expect(findPasses(ripple)).toEqual([]);
    expect(findPasses(ripple, { minRiseK: 5 }).length).toBe(2);
    expect(() => findPasses(ripple, { minRiseK: 0 })).toThrow(TemperbookError);
  });

  /** Passes `everyS` apart: each rises by `riseK` in 10 s, and what it gave falls with a time constant. */
  const humps = (count: number, everyS: number, riseK: number, tauS: number) => {
    const random = seededRandom(7);
    const timeS = Float64Array.from({ length: 60 + count * everyS + 300 }, (_, i) => i);
    const tempC = timeS.map((t) => {
      let sum = 22;
      for (let k = 0; k < count; k++) {
        const since = t - 60 - k * everyS;
        if (since > 0) sum += since < 10 ? (riseK * since) / 10 : riseK * Math.exp(-(since - 10) / tauS);
      }
      return sum + 0.3 * random.normal();
    });
    return thermalHistory(timeS, tempC);
  };

  it.each([
    { count: 9, everyS: 60, riseK: 60, tauS: 60 },
    { count: 9, everyS: 60, riseK: 60, tauS: 200 },
    { count: 9, everyS: 30, riseK: 30, tauS: 120 },
    { count: 9, everyS: 40, riseK: 100, tauS: 200 },
    { count: 20, everyS: 30, riseK: 60, tauS: 60 },
  ])('counts passes that run into one another: $count every $everyS s', ({ count, everyS, riseK, tauS }) => {
    const passes = findPasses(humps(count, everyS, riseK, tauS));
    expect(passes).toHaveLength(count);
    passes.forEach(({ startS, peakS }, k) => {
      expect(Math.abs(startS - 60 - k * everyS)).toBeLessThanOrEqual(3);
      expect(Math.abs(peakS - 70 - k * everyS)).toBeLessThanOrEqual(3);
    });
  });

  it('counts slow humps logged every ten seconds', () => {
    const timeS = Float64Array.from({ length: 900 }, (_, i) => 10 * i);
    const hump = (t: number, k: number) => 40 * Math.exp(-(((t - 500 - 900 * k) / 180) ** 2));
    const tempC = timeS.map((t) =>
      Array.from({ length: 9 }, (_, k) => hump(t, k)).reduce((a, b) => a + b, 22),
    );
    expect(findPasses(thermalHistory(timeS, tempC))).toHaveLength(9);
  });

  it('looks for no rate across a gap', () => {
    const trace = thermalHistory([0, 10, 20, 30, 130], [20, 30, 300, 310, 20], [1]);
    expect(findPasses(trace)[0]!.heatingRateKPerS).toBeCloseTo(1, 9);
  });
});

describe('exposureShare', () => {
  const clock = { activationEnergyJPerMol: 130_000, referenceC: 177 };

  it('divides the whole over the passes and the rest', () => {
    const { history } = inventedWeld({ waitsS: [200, 200, 900], intervalS: 0.5, sigmaK: 0.3, seed: 1 });
    const share = exposureShare(history, findPasses(history), clock);
    expect(share.perPass.length).toBe(3);
    expect(share.perPass.reduce((a, b) => a + b, 0) + share.outside).toBeCloseTo(1, 9);
    // The part is hotter at each pass, so each weighs more than the one before.
    expect(share.perPass[1]).toBeGreaterThan(share.perPass[0]!);
    expect(share.perPass[2]).toBeGreaterThan(share.perPass[1]!);
    expect(share.outside).toBeLessThan(1e-6);
  });

  it('does not depend on the reference temperature', () => {
    const { history } = inventedWeld({ waitsS: [100, 400], intervalS: 0.5, sigmaK: 0, seed: 1 });
    const passes = findPasses(history);
    const at227 = exposureShare(history, passes, { ...clock, referenceC: 227 });
    exposureShare(history, passes, clock).perPass.forEach((share, k) => {
      expect(share).toBeCloseTo(at227.perPass[k]!, 12);
    });
  });

  it('is all zero where there is no exposure', () => {
    expect(exposureShare(thermalHistory([0], [20]), [], clock)).toEqual({ perPass: [], outside: 0 });
  });
});

/** Temperature of a piecewise straight trace at a whole second. */
function at({ timeS, tempC }: { timeS: Float64Array; tempC: Float64Array }, t: number): number {
  const i = Math.max(
    1,
    timeS.findIndex((x) => x >= t),
  );
  const share = (t - timeS[i - 1]!) / (timeS[i]! - timeS[i - 1]!);
  return tempC[i - 1]! + Math.min(1, share) * (tempC[i]! - tempC[i - 1]!);
}
