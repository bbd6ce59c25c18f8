import { describe, expect, it } from 'vitest';
import {
  type Calibration,
  calibrateToLog,
  type HeatModel,
  heatInput,
  type LumpedJob,
  lumpedHeatModel,
  lumpedNetwork,
  thinPlateHistory,
} from '../../../lib/heatflow';
import { tempAt, thermalHistory } from '../../../lib/history';
import { TemperbookError } from '../../../lib/quantity';
import { seededRandom } from '../../../lib/statistics';

/** A plate logged by two probes: the closed form stands in for any forward model, at no cost. */
const plate = { thicknessMm: 5, conductivityWPerMK: 167, volumetricHeatJPerM3K: 2.42e6, travelMmPerS: 4 };
const timeS = Float64Array.from({ length: 241 }, (_, i) => i * 1.25);
const probe = (efficiency: number, loss: number, acrossMm: number) =>
  thinPlateHistory({
    ...plate,
    netPowerW: 2500 * efficiency,
    lossWPerM2K: loss,
    acrossMm,
    startC: 22,
    timeS,
    abreastS: 40,
  });
type Names = 'efficiency' | 'loss' | 'distance';
const model: HeatModel<Names> = ({ efficiency, loss, distance }) => [
  probe(efficiency, loss, distance),
  probe(efficiency, loss, 30),
];
const parameters = {
  efficiency: { start: 0.6, low: 0.3, high: 0.9, label: 'arc efficiency' },
  loss: { start: 10, low: 0, high: 200, unit: 'W/m²K' },
  distance: { start: 10, low: 6, high: 20, unit: 'mm', label: 'distance of TC1' },
};
const truth = { efficiency: 0.72, loss: 40, distance: 12 };

/** The log of `truth`, its clock `offsetS` late, with noise whose neighbours correlate by `rho`. */
function logOf(seed: number, { offsetS = 57.3, noiseC = 0.5, rho = 0 } = {}) {
  const random = seededRandom(seed);
  return model(truth, []).map((history, c) => {
    let last = random.normal();
    const noisy = history.tempC.map((temp) => {
      const here = temp + noiseC * last;
      last = rho * last + Math.sqrt(1 - rho * rho) * random.normal();
      return here;
    });
    return {
      name: `TC${c + 1}`,
      history: thermalHistory(
        history.timeS.map((t) => t + offsetS),
        noisy,
      ),
    };
  });
}

/** Mean square of error over standard error: 1 when standard errors are honest. */
function spread(fits: readonly Calibration<Names>[], name: Names): number {
  const squares = fits.map(
    (fit) => ((fit.values[name].nominal - truth[name]) / fit.standardErrors[name]) ** 2,
  );
  return squares.reduce((sum, s) => sum + s, 0) / squares.length;
}

describe('calibrateToLog', () => {
  const fit = calibrateToLog(logOf(1), model, { parameters });

  it('finds efficiency, loss and distance of a logged weld, with bands that hold them', () => {
    for (const name of ['efficiency', 'loss', 'distance'] as const) {
      expect(Math.abs(fit.values[name].nominal - truth[name])).toBeLessThan(4 * fit.standardErrors[name]);
      // Half a percent of the range is far below what a shop needs.
      expect(Math.abs(fit.values[name].nominal - truth[name])).toBeLessThan(
        0.005 * (parameters[name].high - parameters[name].low),
      );
    }
    expect(fit.converged).toBe(true);
    expect(fit.warnings).toEqual([]);
    expect(fit.passes).toHaveLength(1);
    expect(fit.names).toEqual(['efficiency', 'loss', 'distance']);
    expect(fit.values.loss.unit).toBe('W/m²K');
  });

  it('leaves residuals that are the noise, on the log’s clock', () => {
    for (const channel of fit.channels) {
      expect(channel.rmsC).toBeGreaterThan(0.4);
      expect(channel.rmsC).toBeLessThan(0.6);
      expect(channel.timeS[0]).toBeGreaterThanOrEqual(57);
      expect(tempAt(channel.predicted, 57.3 + 40)).toBeGreaterThan(tempAt(channel.predicted, 57.3));
    }
  });

  it.each([-400, -3.7, 0, 1000])('does not care that the clock is %d s off', (offsetS) => {
    const shifted = calibrateToLog(logOf(1, { offsetS }), model, { parameters });
    expect(shifted.clockOffsetsS).toHaveLength(1);
    expect(shifted.clockOffsetsS[0]!.nominal).toBeCloseTo(offsetS, 1);
    // Where the foot of the rise falls decides which readings are compared, so the noise differs a little.
    for (const name of ['efficiency', 'loss', 'distance'] as const)
      expect(Math.abs(shifted.values[name].nominal - fit.values[name].nominal)).toBeLessThan(
        fit.standardErrors[name],
      );
  });

  it.each([
    ['white', 0],
    ['correlated', 0.8],
  ])('gives standard errors that are honest against %s noise', (_, rho) => {
    const fits = Array.from({ length: 30 }, (__, seed) =>
      calibrateToLog(logOf(seed, { rho }), model, { parameters }),
    );
    for (const name of ['efficiency', 'loss', 'distance'] as const) {
      // Mean square of 30 standard normals: 1 ± 0.26; three deviations either way, and half as much again above
      // for correlated noise, where the number of independent readings is itself an estimate.
      expect(spread(fits, name)).toBeGreaterThan(0.22);
      expect(spread(fits, name)).toBeLessThan(rho === 0 ? 1.78 : 2.2);
    }
  });

  it('runs the model few times: the clock costs nothing', () => {
    expect(fit.modelRuns).toBeLessThan(40);
  });

  it('takes up a restart that came later than the model thinks', () => {
    const twoPasses = (
      { efficiency, distance }: Record<'efficiency' | 'distance', number>,
      secondS: number,
    ) =>
      [distance, 30].map((acrossMm) => {
        // No loss, endless plate: rises add up.
        const weld = { ...plate, netPowerW: 2500 * efficiency, acrossMm, startC: 22, timeS };
        const second = thinPlateHistory({ ...weld, abreastS: secondS });
        const { tempC } = thinPlateHistory({ ...weld, abreastS: 40 });
        return thermalHistory(
          timeS,
          tempC.map((t, i) => t + second.tempC[i]! - 22),
        );
      });
    const random = seededRandom(11);
    const late = twoPasses({ efficiency: 0.7, distance: 12 }, 182.4).map(({ tempC }, c) => ({
      name: `TC${c + 1}`,
      history: thermalHistory(
        timeS.map((t) => t + 57.3),
        tempC.map((t) => t + 0.5 * random.normal()),
      ),
    }));
    const both = calibrateToLog(
      late,
      (values: Record<'efficiency' | 'distance', number>) => twoPasses(values, 180),
      {
        parameters: { efficiency: parameters.efficiency, distance: parameters.distance },
      },
    );
    expect(both.clockOffsetsS[0]!.nominal).toBeCloseTo(57.3, 1);
    expect(both.clockOffsetsS[1]!.nominal).toBeCloseTo(59.7, 0);
    // The tail of the first pass is moved along with the second: at 104 K and 140 s it falls 0.37 K/s, 0.9 K in the
    // 2.4 s, which is 0.3 % of the 300 K swing.
    expect(Math.abs(both.values.efficiency.nominal / 0.7 - 1)).toBeLessThan(0.003);
    expect(Math.abs(both.values.distance.nominal / 12 - 1)).toBeLessThan(0.01);
    for (const { predicted } of both.channels)
      expect(predicted.timeS.every((t, i) => i === 0 || t > predicted.timeS[i - 1]!)).toBe(true);
  });

  it('hands its efficiency to heatInput as it is', () => {
    const heat = heatInput({
      arcPowerW: 2500,
      travelMmPerS: 4,
      process: 'TIG AC',
      efficiency: fit.values.efficiency,
    });
    expect(heat.netPowerW.nominal).toBeCloseTo(2500 * fit.values.efficiency.nominal, 9);
  });

  it('says when two quantities stand in for one another', () => {
    const alike = calibrateToLog(
      logOf(2),
      ({ efficiency, powerShare }: Record<'efficiency' | 'powerShare', number>) =>
        model({ ...truth, efficiency: efficiency * powerShare }, []),
      {
        parameters: {
          efficiency: { start: 0.6, low: 0.3, high: 0.9 },
          powerShare: { start: 1, low: 0.5, high: 1.5, label: 'meter error' },
        },
      },
    );
    expect(alike.warnings.join(' ')).toMatch(
      /(does not determine efficiency and meter error|cannot tell efficiency from meter error)/,
    );
  });

  it('says when a value rests on its bound, and when the model misses the log', () => {
    const bounded = calibrateToLog(logOf(3), model, {
      parameters: { ...parameters, efficiency: { start: 0.4, low: 0.3, high: 0.5, label: 'arc efficiency' } },
    });
    expect(bounded.values.efficiency.nominal).toBe(0.5);
    expect(bounded.warnings.join(' ')).toMatch(/arc efficiency came to rest on its upper bound of 0\.5/);
    const wrong: HeatModel<'efficiency'> = ({ efficiency }) => [
      probe(efficiency, 0, 40),
      probe(efficiency, 0, 8),
    ];
    const missed = calibrateToLog(logOf(3), wrong, { parameters: { efficiency: parameters.efficiency } });
    expect(missed.warnings.join(' ')).toMatch(/misses TC1 by [\d.]+ °C/);
  });

  it('says when a prior is all there is', () => {
    const silent = calibrateToLog(
      logOf(4),
      (values: Record<Names | 'emissivity', number>) => model(values, []),
      {
        parameters: {
          ...parameters,
          emissivity: { start: 0.2, low: 0, high: 1, prior: { value: 0.15, standardError: 0.05 } },
        },
      },
    );
    expect(silent.warnings).toEqual([
      'The log says hardly more about emissivity than was assumed before it.',
    ]);
    expect(silent.values.emissivity.nominal).toBeCloseTo(0.15, 3);
    expect(silent.standardErrors.emissivity).toBeCloseTo(0.05, 3);
  });

  it('says when the log leaves a value open, and then takes its bound for no finding', () => {
    // Too weak to show: 1e-3 °C per unit beside noise of 0.5 °C.
    const weak = (values: Record<Names | 'glow', number>) =>
      model(values, []).map(({ timeS: at, tempC }) =>
        thermalHistory(
          at,
          tempC.map((temp, i) => temp + 1e-3 * values.glow * Math.sin(i / 50)),
        ),
      );
    const glow = { start: 1, low: 0, high: 2 };
    const ends = Array.from({ length: 6 }, (_, seed) =>
      calibrateToLog(logOf(seed), weak, { parameters: { ...parameters, glow } }),
    );
    for (const { warnings } of ends)
      expect(warnings).toEqual([
        'The log does not determine glow. Fix it at what you know, or log another place.',
      ]);
    // In some of them the value did drift to a bound.
    expect(ends.some(({ values }) => [0, 2].includes(values.glow.nominal))).toBe(true);
  });

  it('says when a channel is flat', () => {
    const [first, second] = logOf(1);
    const flat = thermalHistory(
      second!.history.timeS,
      second!.history.tempC.map(() => 22),
    );
    const { warnings } = calibrateToLog([first!, { name: 'TC2', history: flat }], model, { parameters });
    expect(warnings.join(' ')).toMatch(/TC2 reads the same temperature all along/);
    expect(warnings.join(' ')).not.toMatch(/Infinity/);
  });

  it('fits a network of parts to a casting and its fixture, timed by the passes in the log', () => {
    const jobFor = (
      { film, contact }: Record<'film' | 'contact', number>,
      starts: readonly number[],
    ): LumpedJob => ({
      parts: [
        {
          name: 'casting',
          massKg: 0.6,
          specificHeatJPerKgK: 963,
          startC: 20,
          surface: { areaMm2: 40_000, filmWPerM2K: film },
        },
        {
          name: 'fixture',
          massKg: 4,
          specificHeatJPerKgK: 480,
          startC: 20,
          surface: { areaMm2: 90_000, filmWPerM2K: film },
        },
      ],
      links: [{ between: ['casting', 'fixture'], conductanceWPerK: contact }],
      pulses: starts.map((fromS) => ({ part: 'casting', fromS, toS: fromS + 40, powerW: 1300 })),
      surroundingsC: 20,
      untilS: 2400,
    });
    const random = seededRandom(7);
    const { histories } = lumpedNetwork(jobFor({ film: 18, contact: 2.5 }, [300, 700, 1200]));
    const channels = ['casting', 'fixture'].map((name) => {
      const times = Float64Array.from({ length: 1201 }, (_, i) => i * 2);
      const temps = times.map((t) => tempAt(histories[name]!, t) + 0.3 * random.normal());
      return { name, history: thermalHistory(times, temps) };
    });
    const bulk = calibrateToLog(
      channels,
      lumpedHeatModel<'film' | 'contact'>(['casting', 'fixture'], (values, passes) =>
        jobFor(
          values,
          passes.map((pass) => pass.startS),
        ),
      ),
      { parameters: { film: { start: 8, low: 2, high: 60 }, contact: { start: 1, low: 0.1, high: 20 } } },
    );
    expect(bulk.passes).toHaveLength(3);
    // The feet of the passes are read to a sample or two of 2 s; the second round places them by the fitted clocks.
    expect(Math.abs(bulk.values.film.nominal - 18)).toBeLessThan(4 * bulk.standardErrors.film);
    expect(Math.abs(bulk.values.contact.nominal - 2.5)).toBeLessThan(4 * bulk.standardErrors.contact);
    expect(bulk.values.film.nominal / 18).toBeCloseTo(1, 2);
    expect(bulk.warnings).toEqual([]);
  });

  it.each([
    ['no channels', () => calibrateToLog([], model, { parameters }), /at least one logged channel/],
    [
      'no parameters',
      () => calibrateToLog(logOf(1), () => model(truth, []), { parameters: {} }),
      /at least one parameter/,
    ],
    [
      'a start outside its bounds',
      () =>
        calibrateToLog(logOf(1), model, {
          parameters: { ...parameters, loss: { start: 300, low: 0, high: 200 } },
        }),
      /starting value of loss/,
    ],
    [
      'bounds left out',
      () =>
        calibrateToLog(logOf(1), model, {
          parameters: { ...parameters, loss: { start: 10, low: 0 } as never },
        }),
      /loss has no bounds.*low 0, high undefined.*Give low and high/,
    ],
    [
      'a prior outside its bounds',
      () =>
        calibrateToLog(logOf(1), model, {
          parameters: {
            ...parameters,
            efficiency: { ...parameters.efficiency, prior: { value: 60, standardError: 5 } },
          },
        }),
      /prior value of efficiency.*60.*0.3 to 0.9/,
    ],
    [
      'a model of one probe for two channels',
      () => calibrateToLog(logOf(1), (v: Record<Names, number>) => [model(v, [])[0]!], { parameters }),
      /1 for 2/,
    ],
    [
      'a log too short to hold the model',
      () => {
        const [first] = logOf(1);
        const short = { ...first!, history: thermalHistory([0, 5], [20, 21]) };
        return calibrateToLog([short, short], model, { parameters });
      },
      /hardly overlap in time/,
    ],
    [
      'a part that is not there',
      () =>
        lumpedHeatModel(['tank'], () => ({
          parts: [{ name: 'a', massKg: 1, specificHeatJPerKgK: 900, startC: 20 }],
          surroundingsC: 20,
          untilS: 10,
        }))({}, []),
      /called "tank"/,
    ],
  ])('says what is wrong with %s', (_, run, message) => {
    expect(run).toThrow(TemperbookError);
    expect(run).toThrow(message);
  });
});
