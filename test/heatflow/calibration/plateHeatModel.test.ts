import { describe, expect, it } from 'vitest';
import { calibrateToLog, passesAsLogged, plateHeatModel } from '../../../lib/heatflow';
import { type PlatePlan, type PlateProbeResult, solvePlate } from '../../../lib/heatflow/plate';
import { tempAt, thermalHistory } from '../../../lib/history';
import { TemperbookError } from '../../../lib/quantity';
import { seededRandom } from '../../../lib/statistics';

type Names = 'efficiency' | 'contact' | 'distance';
const metal = { densityKgPerM3: 2700, conductivityWPerMK: 167, specificHeatJPerKgK: 896 };

/** A plate of 60 × 60 × 4 mm, clamped along one edge, welded twice across its middle. */
const planFor = ({ efficiency, contact, distance }: Record<Names, number>, waitS = 40): PlatePlan => ({
  cellMm: 3,
  part: [{ shape: { rectMm: [0, 0, 60, 60] }, thicknessMm: 4, metal }],
  surface: { convectionWPerM2K: 10, emissivity: 0.2, ambientC: 20 },
  contacts: [
    { shape: { rectMm: [0, 0, 60, 12] }, conductanceWPerM2K: contact, bodyC: 20, bodyHeatJPerK: 800 },
  ],
  initialC: 20,
  passes: [0, 1].map(() => ({
    path: [
      [6, 36],
      [54, 36],
    ],
    travelMmPerS: 6,
    netPowerW: 1000 * efficiency,
    sourceRadiusMm: 6,
    startAfter: { waitS },
  })),
  probes: [
    { name: 'near', xMm: 30, yMm: 36 + distance },
    { name: 'far', xMm: 30, yMm: 9 },
  ],
  until: { coolForS: 60 },
});
const truth = { efficiency: 0.62, contact: 700, distance: 11 };

describe('plateHeatModel', () => {
  it('finds efficiency, contact conductance and probe distance from two probes of a plate job', () => {
    const random = seededRandom(5);
    const channels = solvePlate(planFor(truth)).probes.map(({ name, history }) => {
      const times = Float64Array.from({ length: Math.floor(history.timeS.at(-1)!) }, (_, i) => i + 0.5);
      return {
        name,
        history: thermalHistory(
          times.map((t) => t + 500),
          times.map((t) => tempAt(history, t) + 0.5 * random.normal()),
        ),
      };
    });
    const fit = calibrateToLog(
      channels,
      plateHeatModel<Names>(['near', 'far'], (values, passes) => {
        const plan = planFor(values, 30);
        return { ...plan, passes: passesAsLogged(plan.passes, passes) };
      }),
      {
        parameters: {
          efficiency: { start: 0.5, low: 0.3, high: 0.9 },
          contact: { start: 2000, low: 50, high: 5000, unit: 'W/m²K' },
          distance: { start: 9, low: 7, high: 18, unit: 'mm' },
        },
      },
    );
    expect(fit.converged).toBe(true);
    expect(fit.warnings).toEqual([]);
    expect(fit.passes).toHaveLength(2);
    // The plan waits 30 s before its first pass where the log's plate had waited 40: the clock takes it up. The
    // second pass was set off by the trace, whose foot is read to a sample or two of 1 s.
    expect(fit.clockOffsetsS[0]!.nominal).toBeCloseTo(510, 0.7);
    expect(Math.abs(fit.clockOffsetsS[1]!.nominal - 510)).toBeLessThan(3);
    for (const name of ['efficiency', 'contact', 'distance'] as const)
      expect(Math.abs(fit.values[name].nominal - truth[name])).toBeLessThan(4 * fit.standardErrors[name]);
    expect(fit.standardErrors.efficiency).toBeLessThan(0.01);
    expect(fit.standardErrors.distance).toBeLessThan(0.3);
  });

  it('warns of a fitted probe in the weld pool, and of one too near the arc for plan view', () => {
    const near = (efficiency: number, distance: number): PlatePlan => {
      const plan = planFor({ ...truth, efficiency, distance });
      const part = plan.part.map((region) => ({ ...region, metal: '6061' }));
      return { ...plan, part, passes: plan.passes.slice(0, 1) };
    };
    const warningsAt = (efficiency: number, distance: number) => {
      const [{ name, history }] = solvePlate(near(efficiency, distance)).probes as [PlateProbeResult];
      const model = plateHeatModel<'efficiency'>(['near'], (values) => near(values.efficiency, distance));
      const start = 0.95 * efficiency;
      return calibrateToLog([{ name, history }], model, {
        parameters: { efficiency: { start, low: 0.3, high: 4 } },
      }).warnings;
    };
    expect(warningsAt(2.5, 0)).toEqual([expect.stringMatching(/"near" lies in the weld pool/)]);
    expect(warningsAt(0.6, 4)).toEqual([
      expect.stringMatching(/At probe "near" the metal may become up to .* hotter than told/),
    ]);
    expect(warningsAt(0.6, 14)).toEqual([]);
  });

  it('names the probes it knows when a channel asks for another', () => {
    expect(() => plateHeatModel<Names>(['TC9'], (values) => planFor(values))(truth, [])).toThrow(
      /"TC9".*near, far/,
    );
  });
});

describe('passesAsLogged', () => {
  const { passes } = planFor(truth);
  const logged = (...starts: number[]) =>
    starts.map((startS, k) => ({
      number: k + 1,
      startS,
      peakS: startS + 5,
      endS: startS + 20,
      peakC: 200,
      interpassC: 30,
      heatingRateKPerS: 20,
      coolingRateKPerS: 5,
    }));

  it('keeps the first pass and sets the wait of the next: 48 mm at 6 mm/s burn 8 s of the 50 between starts', () => {
    expect(passesAsLogged(passes, logged(100, 150))).toEqual([
      passes[0],
      { ...passes[1], startAfter: { waitS: 42 } },
    ]);
  });

  it.each([
    ['another number of passes', logged(100), /2 planned, 1 in the log/],
    ['passes that overlap', logged(100, 105), /Pass 2 of the log starts before pass 1.*at least the 8.0 s/],
  ])('says what is wrong with %s', (_, found, message) => {
    expect(() => passesAsLogged(passes, found)).toThrow(TemperbookError);
    expect(() => passesAsLogged(passes, found)).toThrow(message);
  });
});
