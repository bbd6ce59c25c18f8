import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allowedPeak, type PlacementOptions, probePlacement, readingAtLimit } from '../../lib/decision';
import { thinPlateHistory } from '../../lib/heatflow';
import { isothermal, repeatPass, shiftTemperature, type ThermalHistory } from '../../lib/history';
import { softeningModel } from '../../lib/kinetics';
import { judged, TemperbookError } from '../../lib/quantity';

const timeS = Float64Array.from({ length: 1000 }, (_, i) => -10 + i * 0.2);
const historyAt = (acrossMm: number, netPowerW = 1200): ThermalHistory =>
  thinPlateHistory({
    netPowerW,
    travelMmPerS: 4,
    thicknessMm: 6,
    conductivityWPerMK: 151,
    volumetricHeatJPerM3K: 2.4e6,
    acrossMm,
    startC: 20,
    timeS,
  });
const distancesMm = [8, 10, 12, 14, 16, 18, 20, 25, 30, 40];
const places = distancesMm.map((distanceMm) => ({ distanceMm, history: historyAt(distanceMm) }));
const options: PlacementOptions = {
  alloy: 'A356.0',
  temper: 'T6',
  critical: historyAt(16),
  limitC: 226.67,
  ambientC: 20,
  attachment: 'peened hole',
  otherHeats: [900, 1500].map((netPowerW) => ({
    critical: historyAt(16, netPowerW),
    places: distancesMm.map((mm) => historyAt(mm, netPowerW)),
  })),
};
const known = (fraction: number) =>
  ({ value: fraction, low: fraction, high: fraction, unit: '1', source: 'test', known: 'seen' }) as const;
const ratio = (nominal: number, bounds: number[] = []) => judged(nominal, bounds, '1', []);

describe('readingAtLimit', () => {
  const job = { limitC: 227, ambientC: 20, criticalPeakC: 227, attachment: known(0) };

  it('is T_a + r (T_limit − T_a) for a perfect probe: 20 + 0.8 · 207 = 185.6 °C', () => {
    expect(readingAtLimit({ ratio: ratio(0.8), kPerMm: 0 }, job).nominal).toBeCloseTo(185.6, 9);
  });

  it('adds independent doubts as squares: wire 2.5 °C, place 3 °C, a tenth of a fall of 41.4 °C', () => {
    const { nominal, low, high } = readingAtLimit({ ratio: ratio(0.8), kPerMm: 3 }, job);
    expect(nominal - low).toBeCloseTo(Math.hypot(2.5, 3, 4.14), 9);
    expect(high - nominal).toBeCloseTo(nominal - low, 9);
  });

  it('comes earlier the more the fixing reads low', () => {
    const stop = (f: number) =>
      readingAtLimit({ ratio: ratio(0.8), kPerMm: 0 }, { ...job, attachment: known(f) }).nominal;
    expect(stop(0.1)).toBeCloseTo(20 + 0.9 * 0.8 * 207, 9);
    expect(stop(0.2)).toBeLessThan(stop(0.1));
  });

  it('a plan twice as hot falls twice as steeply, but not at the limit', () => {
    const at = (criticalPeakC: number, kPerMm: number) =>
      readingAtLimit({ ratio: ratio(1), kPerMm }, { ...job, criticalPeakC });
    expect(at(434, 6).low).toBeCloseTo(at(227, 3).low, 9);
  });
});

describe('probePlacement', () => {
  const placement = probePlacement(places, options);
  const at = (mm: number) => placement.places.find(({ distanceMm }) => distanceMm === mm)!;

  it('knows the metal that matters when the probe sits on it', () => {
    expect(at(16)).toMatchObject({ hidesK: 0, lagS: 0 });
    expect(at(16).ratio).toMatchObject({ nominal: 1, low: 1, high: 1 });
    expect(at(16).readingAtLimitC.nominal).toBeCloseTo(20 + 0.99 * 206.67, 9);
  });

  it('takes that place, or the next, for the best', () => {
    expect([14, 16, 18, 20]).toContain(placement.best.distanceMm);
    for (const { blindK } of placement.places) expect(placement.best.blindK).toBeLessThanOrEqual(blindK);
  });

  it('hides more, lags more and must stop earlier further out; a slower logger will do', () => {
    for (let k = 1; k < placement.places.length; k++) {
      const [near, far] = [placement.places[k - 1]!, placement.places[k]!];
      expect(far.hidesK).toBeGreaterThan(near.hidesK);
      expect(far.lagS).toBeGreaterThanOrEqual(near.lagS);
      expect(far.readingAtLimitC.low).toBeLessThan(near.readingAtLimitC.low);
      expect(far.slowestIntervalS!).toBeGreaterThanOrEqual(near.slowestIntervalS!);
    }
  });

  it('knows the band of the job’s heat', () => {
    const { criticalPeakC } = placement;
    expect(criticalPeakC.low).toBeLessThan(criticalPeakC.nominal);
    expect(criticalPeakC.high).toBeGreaterThan(criticalPeakC.nominal);
    // On a plate of constant properties every rise is proportional to the power, so their ratio is not in doubt.
    expect(at(30).ratio.high - at(30).ratio.low).toBeLessThan(1e-9);
  });

  it('shows what a far probe hides: its record clears a job that the metal that matters does not survive', () => {
    const hot = probePlacement(places, { ...options, otherHeats: [], critical: historyAt(8, 1700) });
    expect(hot.criticalVerdict).not.toBe('kept');
    expect(hot.places.at(-1)!.verdictHere).toBe('kept');
  });

  it('leaves out the weld pool, and recommends no place where plan view is doubtful', () => {
    const marked = places.map((place) => ({
      ...place,
      molten: place.distanceMm < 10,
      doubtful: place.distanceMm < 25,
    }));
    const { places: rows, best } = probePlacement(marked, options);
    expect(rows[0]!.distanceMm).toBe(10);
    expect(best.distanceMm).toBe(25);
  });

  it.each([
    ['nothing solid', places.map((p) => ({ ...p, molten: true })), {}, /stays solid/],
    ['metal that is not warmed', places, { critical: isothermal(20, 60) }, /not warmed, or it melts/],
    ['metal that melts', places, { critical: isothermal(600, 60) }, /not warmed, or it melts/],
    [
      'heats without every place',
      places,
      { otherHeats: [{ critical: historyAt(16), places: [] }] },
      /0 histories/,
    ],
    ['a limit below the air', places, { limitC: 10 }, /limitC/],
  ])('refuses %s', (_, given, extra, message) => {
    expect(() => probePlacement(given, { ...options, ...extra })).toThrow(TemperbookError);
    expect(() => probePlacement(given, { ...options, ...extra })).toThrow(message);
  });
});

describe('allowedPeak', () => {
  const metal = { alloy: '6061', temper: 'T6', allowanceFraction: 0.1, ambientC: 20 };
  const history = historyAt(20);
  const allowed = allowedPeak(history, metal);
  const topOf = (h: ThermalHistory) => Math.max(...h.tempC);

  it('is the peak at which exactly the allowance is used up', () => {
    const model = softeningModel('6061');
    const share = (allowed.nominal - 20) / (topOf(history) - 20);
    const scaled = shiftTemperature(history, (tempC) => (share - 1) * (tempC - 20));
    const kept = model.advance(model.start('T6'), scaled).yieldKeptFraction;
    expect(topOf(scaled)).toBeCloseTo(allowed.nominal, 9);
    expect(kept.at(-1)).toBeCloseTo(0.9, 4);
    expect(allowed.low).toBeLessThan(allowed.nominal);
    expect(allowed.high).toBeGreaterThan(allowed.nominal);
  });

  it('is lower for a longer job and for a smaller allowance: time counts, not only the peak', () => {
    const pass = { startS: timeS[0]!, endS: timeS.at(-1)! };
    const twice = repeatPass(history, pass, { ambientC: 20, timeConstantS: 300 });
    expect(allowedPeak(twice, metal).nominal).toBeLessThan(allowed.nominal);
    expect(allowedPeak(isothermal(200, 3600), metal).nominal).toBeLessThan(allowed.nominal);
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 0.5, noNaN: true }), (allowanceFraction) => {
        const more = allowedPeak(history, { ...metal, allowanceFraction: allowanceFraction + 0.05 });
        expect(allowedPeak(history, { ...metal, allowanceFraction }).nominal).toBeLessThanOrEqual(
          more.nominal + 1e-3,
        );
      }),
      { numRuns: 10 },
    );
  }, 120_000);

  it('never allows melting, and refuses metal that is not heated', () => {
    expect(allowedPeak(history, { ...metal, allowanceFraction: 1 }).high).toBeLessThanOrEqual(582);
    expect(() => allowedPeak(isothermal(20, 10), metal)).toThrow(/not heated/);
  });
});
