import { describe, expect, it } from 'vitest';
import { isothermal } from '../../lib/history';
import { type Placement, type PlacementOptions, probePlacement } from '../../lib/planning';
import { TemperbookError } from '../../lib/quantity';

const distancesMm = [8, 10, 12, 14, 16, 18, 20, 25, 30, 40];
const places = distancesMm.map((distanceMm) => ({ distanceMm, history: thinPlate(distanceMm) }));
const options: PlacementOptions = {
  alloy: 'A356.0',
  temper: 'T6',
  critical: thinPlate(16),
  limitC: 226.67,
  ambientC: 20,
  attachment: 'peened hole',
  otherHeats: [900, 1500].map((netPowerW) => ({
    critical: thinPlate(16, netPowerW),
    places: distancesMm.map((mm) => thinPlate(mm, netPowerW)),
  })),
};

import { thinPlate } from '../setup/thinPlate';

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
    const hot = probePlacement(places, { ...options, otherHeats: [], critical: thinPlate(8, 1700) });
    expect(hot.criticalVerdict).not.toBe('kept');
    expect(hot.places.at(-1)!.verdictHere).toBe('kept');
  });

  it('stops earlier by what the run may hide of the metal that matters, and later of nothing', () => {
    const hiding = probePlacement(places, { ...options, criticalMayHideK: 15 });
    for (const [k, place] of hiding.places.entries()) {
      const told = placement.places[k]!;
      expect(place.readingAtLimitC.low).toBeLessThan(told.readingAtLimitC.low);
      expect(place.readingAtLimitC.nominal).toBe(told.readingAtLimitC.nominal);
    }
    // With the whole 15 K of a rise of some 200 K hidden, the reading at the limit is that share lower.
    const exact = { ...options, otherHeats: [], placedWithinMm: 0, attachment: 'welded wires' } as const;
    const [without, most] = [0, 15].map((criticalMayHideK) =>
      probePlacement(places, { ...exact, criticalMayHideK }),
    ) as [Placement, Placement];
    const riseK = without.criticalPeakC.nominal - 20;
    const lowest = (of: Placement) => of.places[4]!.readingAtLimitC.low;
    expect(lowest(most)).toBeGreaterThan(20 + (lowest(without) - 20) / (1 + 15 / riseK) - 0.5);
    expect(most.criticalPeakC.high).toBeCloseTo(without.criticalPeakC.high + 15, 9);
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
      { otherHeats: [{ critical: thinPlate(16), places: [] }] },
      /0 histories/,
    ],
    ['a limit below the air', places, { limitC: 10 }, /limitC/],
  ])('refuses %s', (_, given, extra, message) => {
    expect(() => probePlacement(given, { ...options, ...extra })).toThrow(TemperbookError);
    expect(() => probePlacement(given, { ...options, ...extra })).toThrow(message);
  });
});
