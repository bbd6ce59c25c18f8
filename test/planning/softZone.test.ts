import { describe, expect, it } from 'vitest';
import { thinPlateHistory } from '../../lib/heatflow';
import { shiftTemperature, thermalHistory } from '../../lib/history';
import { vickersOfYield } from '../../lib/kinetics';
import { considerRecovery, type SoftZoneOptions, softZone, TREATMENTS } from '../../lib/planning';
import { softReach } from '../../lib/planning/softReach';
import { judged, TemperbookError } from '../../lib/quantity';
import { fc } from '../setup/fc';

const timeS = Float64Array.from({ length: 400 }, (_, i) => -10 + i * 0.5);
const placesBeside = (netPowerW: number, travelMmPerS: number, distancesMm = [10, 12, 15, 20, 25, 30, 40]) =>
  distancesMm.map((distanceMm) => ({
    distanceMm,
    history: thinPlateHistory({
      netPowerW,
      travelMmPerS,
      thicknessMm: 4,
      conductivityWPerMK: 167,
      volumetricHeatJPerM3K: 2.4192e6,
      acrossMm: distanceMm,
      startC: 20,
      timeS,
    }),
  }));
const options: SoftZoneOptions = { alloy: '6061', temper: 'T6', ambientC: 20 };

describe('softZone', () => {
  const places = placesBeside(1500, 5);
  const zone = softZone(places, options);

  it('says what considerRecovery says of each place', () => {
    for (const [k, { kept }] of zone.points.entries()) {
      const [asIs, rested, reaged] = considerRecovery(places[k]!.history, { alloy: '6061', temper: 'T6' });
      expect(kept.asWelded.nominal).toBeCloseTo(asIs!.yieldKeptFraction.nominal, 12);
      expect(kept.rested.nominal).toBeCloseTo(rested!.yieldKeptFraction.nominal, 12);
      expect(kept.reaged.nominal).toBeCloseTo(reaged!.yieldKeptFraction.nominal, 12);
    }
  });

  it('keeps more further out, on any simple plate of a peak-aged alloy', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 400, max: 1800, noNaN: true }),
        fc.double({ min: 3, max: 12, noNaN: true }),
        (netPowerW, travelMmPerS) => {
          const { points, reach } = softZone(placesBeside(netPowerW, travelMmPerS), options);
          for (let k = 1; k < points.length; k++) {
            expect(points[k]!.peakC.nominal).toBeLessThan(points[k - 1]!.peakC.nominal);
            // Only just after welding: rest and ageing harden what dissolved, next to the weld.
            // And only where little dissolves: what is in solution is stronger than what has coarsened away.
            if (points[k - 1]!.peakC.nominal < 385)
              expect(points[k]!.kept.asWelded.nominal).toBeGreaterThanOrEqual(
                points[k - 1]!.kept.asWelded.nominal - 1e-9,
              );
          }
          for (const { kept } of points)
            for (const treatment of TREATMENTS) {
              expect(kept[treatment].low).toBeLessThanOrEqual(kept[treatment].nominal);
              expect(kept[treatment].high).toBeGreaterThanOrEqual(kept[treatment].nominal);
              expect(kept[treatment].low).toBeGreaterThan(0);
            }
          expect(reach.asWelded.mm.low).toBeLessThanOrEqual(reach.asWelded.mm.high);
        },
      ),
      { numRuns: 4, endOnFailure: true },
    );
  });

  it('brings back what dissolved and not the ring that over-aged: after ageing the weakest place lies further out', () => {
    const weakest = (treatment: 'asWelded' | 'reaged') =>
      zone.points.reduce((a, b) => (b.kept[treatment].nominal < a.kept[treatment].nominal ? b : a))
        .distanceMm;
    // Right beside the weld the metal dissolves, which leaves a little more than the coarsest metal has.
    expect([10, 12]).toContain(weakest('asWelded'));
    expect(weakest('reaged')).toBeGreaterThan(10);
  });

  it('never promises more than the temper from ageing dissolved metal of a peak-aged alloy', () => {
    for (const { kept } of zone.points) expect(kept.reaged.high).toBeLessThan(1.05);
  });

  it('gives wrought metal a hardness by HV = 0.33 × yield + 16, and castings none', () => {
    const { kept, vickers } = zone.points[0]!;
    // The yield's own median is near, not at, the product of the two medians: within the lines of either.
    expect(vickers!.asWelded.nominal).toBeGreaterThan(vickersOfYield(240 * kept.asWelded.nominal));
    expect(vickers!.asWelded.nominal).toBeLessThan(vickersOfYield(310 * kept.asWelded.nominal));
    const cast = softZone(places, { ...options, alloy: 'A356.0' });
    expect(cast.points[0]!.vickers).toBeUndefined();
    expect(cast.notes.join()).toContain('compare with cold metal of the same casting');
  });

  it('a doubt about the heat widens the band on its own side, and one that changes nothing leaves it', () => {
    const warmer = places.map(({ history }) => shiftTemperature(history, 15));
    const same = softZone(places, {
      ...options,
      doubts: [{ of: 'nothing', ways: [places.map((p) => p.history)] }],
    });
    const wide = softZone(places, { ...options, doubts: [{ of: 'the fit', ways: [warmer] }] });
    for (const [k, { kept, peakC }] of zone.points.entries()) {
      expect(same.points[k]!.kept.asWelded).toEqual(kept.asWelded);
      // More heat means less strength as long as it does not dissolve what has coarsened (402 °C in 6063).
      if (peakC.nominal < 385) expect(wide.points[k]!.kept.asWelded.low).toBeLessThan(kept.asWelded.low);
      // Draws with the least of the doubt are as they were, give or take a draw.
      if (peakC.nominal < 385)
        expect(wide.points[k]!.kept.asWelded.high).toBeLessThanOrEqual(kept.asWelded.high + 1e-9);
      // 95 % of nine levels from 0 to 15 K lie at or below the last but one or the last.
      expect(wide.points[k]!.peakC.high).toBeGreaterThan(peakC.nominal + 13);
      expect(wide.points[k]!.peakC.high).toBeLessThanOrEqual(peakC.nominal + 15 + 1e-9);
    }
    expect(wide.reach.asWelded.mm.high).toBeGreaterThan(zone.reach.asWelded.mm.high);
  });

  it('allows for probes that read low and for the hotter face, on the low side only', () => {
    const fitted = softZone(places, { ...options, fittedTo: { attachment: 'clamped dry' } });
    const face = softZone(
      places.map((place) => ({ ...place, faceExcessK: 30 })),
      options,
    );
    for (const [k, { kept, peakC }] of zone.points.entries()) {
      if (peakC.nominal < 385) {
        expect(fitted.points[k]!.kept.asWelded.low).toBeLessThan(kept.asWelded.low);
        expect(face.points[k]!.kept.asWelded.low).toBeLessThan(kept.asWelded.low);
      }
      if (peakC.nominal < 385)
        expect(face.points[k]!.kept.asWelded.high).toBeLessThanOrEqual(kept.asWelded.high + 1e-9);
      // 95 % of the way from 0 to 30 K, a draw of a hundred either way.
      expect(Math.abs(face.points[k]!.peakC.high - (peakC.nominal + 28.5))).toBeLessThan(0.6);
    }
  });

  it('does not judge weld metal, and says so', () => {
    const melted = softZone([{ ...places[0]!, molten: true }, ...places.slice(1)], options);
    expect(melted.points.map(({ distanceMm }) => distanceMm)).toEqual([12, 15, 20, 25, 30, 40]);
    expect(melted.notes[0]).toContain('Out to 10 mm the metal melted');
  });

  it.each([
    ['a single place', places.slice(0, 1), {}, /at least two places/],
    ['places out of order', [...places].reverse(), {}, /go away from the weld/],
    ['a doubt without every place', places, { doubts: [{ of: 'the fit', ways: [[]] }] }, /0 histories for 7/],
    ['a temper without ageing practice', places, { temper: 'T4' }, /ageing practice/],
  ])('refuses %s', (_, given, extra, message) => {
    expect(() => softZone(given, { ...options, ...extra })).toThrow(TemperbookError);
    expect(() => softZone(given, { ...options, ...extra })).toThrow(message);
  });
});

describe('softReach', () => {
  const at = (distanceMm: number, kept: number, doubt = 0) => ({
    distanceMm,
    kept: judged(kept, [kept - doubt, kept + doubt], '1', []),
  });

  it('lies on the straight line to the next place: from 0.8 at 10 mm to 1.0 at 20 mm, 0.9 is at 15 mm', () => {
    expect(softReach([at(10, 0.8), at(20, 1)], 0.9).mm.nominal).toBeCloseTo(15, 12);
  });

  it('takes the outermost place: metal that is hard again beside the weld does not end the zone', () => {
    expect(softReach([at(5, 0.95), at(10, 0.8), at(20, 1)], 0.9).mm.nominal).toBeCloseTo(15, 12);
  });

  it('has the reach of the band’s ends as its own band', () => {
    // The lower line runs 0.7 → 0.9, the upper one 0.9 → 1.1 and so is never below 0.9.
    const { mm, beyond } = softReach([at(10, 0.8, 0.1), at(20, 1, 0.1)], 0.89);
    expect(mm.high).toBeCloseTo(10 + 10 * (0.19 / 0.2), 12);
    expect(mm.low).toBe(0);
    expect(beyond).toBe(false);
  });

  it('says when the zone may reach further than was looked', () => {
    const { mm, beyond } = softReach([at(10, 0.8), at(20, 0.85)], 0.9);
    expect(mm.nominal).toBe(20);
    expect(beyond).toBe(true);
  });

  it('is nowhere beside metal that stayed cold', () => {
    const flat = thermalHistory([0, 1], [20, 20]);
    const cold = softZone(
      [
        { distanceMm: 1, history: flat },
        { distanceMm: 2, history: flat },
      ],
      { alloy: '6061', temper: 'T6', ambientC: 20 },
    );
    expect(cold.reach.asWelded.mm).toMatchObject({ nominal: 0, low: 0, high: 0 });
  });
});
