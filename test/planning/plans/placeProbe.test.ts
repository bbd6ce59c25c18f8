import { describe, expect, it } from 'vitest';
import { solvePlate } from '../../../lib/heatflow';
import { fittedSoftZones, placeProbe } from '../../../lib/planning';
import { edgeWeld } from './edgeWeld';

const plan = edgeWeld('6061', {
  probes: [
    { name: 'near', xMm: 40, yMm: 37 },
    { name: 'far', xMm: 40, yMm: 15 },
  ],
  until: { coolForS: 120 },
});

describe('placeProbe', () => {
  const metal = { alloy: '6061', temper: 'T6', keepFromMm: 20 };
  const placed = placeProbe(plan, { metal, limitC: '440F', attachment: 'peened hole' });

  it('looks at the hottest metal that has to keep its strength, on the line from the weld through it', () => {
    expect(placed.critical.distanceMm).toBeGreaterThanOrEqual(20);
    expect(placed.critical.distanceMm).toBeLessThan(26);
    const { criticalPeakC } = placed.placement;
    // No other metal so far from the weld is hotter.
    const { grid, peakC } = solvePlate(plan, { toleranceK: 2 });
    for (let cell = 0; cell < peakC.length; cell++) {
      const yMm = grid.originMm[1] + (Math.floor(cell / grid.columns) + 0.5) * grid.cellMm;
      if (grid.inPart[cell] && yMm <= 35) expect(peakC[cell]).toBeLessThan(criticalPeakC.nominal + 2);
    }
    expect(criticalPeakC.low).toBeLessThan(criticalPeakC.nominal);
    expect(criticalPeakC.high).toBeGreaterThan(criticalPeakC.nominal);
    expect(placed.line.at(-1)!.distanceMm).toBeLessThanOrEqual(55);
  });

  it('refuses a metal the plan does not have', () => {
    expect(() => placeProbe(plan, { metal: { alloy: 'A356.0', temper: 'T6' }, limitC: 227 })).toThrow(
      /No region of the plan is A356.0/,
    );
  });
});

describe('fittedSoftZones', () => {
  /** A job that differs from its plan: the arc brings a tenth less, and the near probe sits 1 mm further out. */
  const truth = solvePlate({
    ...plan,
    passes: [{ ...plan.passes[0]!, netPowerW: 630 }],
    probes: [{ ...plan.probes[0]!, yMm: 36 }, plan.probes[1]!],
  });
  const channels = truth.probes.map(({ name, history }) => ({ name, history }));

  it('finds the arc again and tells the soft zone along the line through the probe', () => {
    const { fit, sides } = fittedSoftZones(channels, plan, {
      attachment: 'welded wires',
      draws: 4,
      workers: 0,
    });
    const power = fit.values.power!;
    expect(power.low).toBeLessThan(0.9);
    expect(power.high).toBeGreaterThan(0.9);
    const [side] = sides;
    expect(side!.zone.alloy).toBe('6061');
    expect(side!.throughMm).toEqual([40, 37]);
    expect(side!.fromMm).toEqual([40, 55]);
    const { points } = side!.zone;
    expect(points.at(-1)!.kept.asWelded.nominal).toBeGreaterThan(points[0]!.kept.asWelded.nominal);
  });

  it('refuses a channel without a probe, and metal without one', () => {
    expect(() => fittedSoftZones([{ ...channels[0]!, name: 'TC7' }], plan)).toThrow(
      /"TC7" in the log, "near", "far" in the plan.*Call each probe/,
    );
    expect(() => fittedSoftZones([{ ...channels[0]!, name: 'TC1 near' }], plan)).toThrow(
      /"near" is probably "TC1 near"/,
    );
  });
});
