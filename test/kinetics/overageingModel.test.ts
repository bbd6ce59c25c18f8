import { describe, expect, it } from 'vitest';
import { loadAlloy } from '../../lib/alloy';
import { equivalentTime } from '../../lib/exposure';
import { isothermal, type ThermalHistory, thermalHistory } from '../../lib/history';
import { overageingModel, type StartState } from '../../lib/kinetics';
import { TemperbookError } from '../../lib/quantity';
import { fc } from '../setup/fc';

const HOUR = 3600;
const DAY = 24 * HOUR;
const curves = ['356.0', 'A356.0', '6061', '6063', '6082'].flatMap((alloy) =>
  Object.keys(loadAlloy(alloy).overageing.curves).map((temper) => [alloy, temper] as const),
);
const last = (column: Float64Array): number => column[column.length - 1]!;
const end = (alloy: string, from: StartState, history: ThermalHistory) => {
  const model = overageingModel(alloy);
  const { yieldKeptFraction, yieldKeptLow, yieldKeptHigh, ...rest } = model.advance(
    model.start(from),
    history,
  );
  return {
    nominal: last(yieldKeptFraction),
    low: last(yieldKeptLow),
    high: last(yieldKeptHigh),
    ...rest,
  };
};

/** Histories of a bulk soak: 2 to 12 samples, 20 to 300 °C, steps of seconds to hours. */
const soaks = fc
  .array(
    fc.tuple(
      fc.double({ min: 1, max: 4 * HOUR, noNaN: true }),
      fc.double({ min: 20, max: 300, noNaN: true }),
    ),
    {
      minLength: 2,
      maxLength: 12,
    },
  )
  .map((samples) => {
    let time = 0;
    return thermalHistory(
      samples.map(([step]) => (time += step)),
      samples.map(([, temp]) => temp),
    );
  });

describe.each(curves)('%s-%s', (alloy, temper) => {
  it('does not change in a day at 20 °C', () => {
    const { nominal, low, high } = end(alloy, temper, isothermal(20, DAY));
    for (const kept of [nominal, low, high]) expect(kept).toBeCloseTo(1, 4);
  });

  it('keeps a positive fraction, low ≤ nominal ≤ high, along any soak', () => {
    const model = overageingModel(alloy);
    fc.assert(
      fc.property(soaks, (history) => {
        const track = model.advance(model.start(temper), history);
        track.yieldKeptFraction.forEach((kept, i) => {
          expect(track.yieldKeptLow[i]).toBeGreaterThan(0);
          expect(track.yieldKeptLow[i]).toBeLessThanOrEqual(kept);
          expect(track.yieldKeptHigh[i]).toBeGreaterThanOrEqual(kept);
          // 356-T6 is the most under-aged temper: it peaks at 1.41 of its yield.
          expect(track.yieldKeptHigh[i]).toBeLessThan(1.7);
        });
      }),
      { numRuns: 40 },
    );
  });

  it('is the same for a history in one piece and in two', () => {
    const model = overageingModel(alloy);
    fc.assert(
      fc.property(soaks, fc.nat(10), (history, cut) => {
        const at = 1 + (cut % Math.max(1, history.timeS.length - 2));
        const first = thermalHistory(history.timeS.slice(0, at + 1), history.tempC.slice(0, at + 1));
        const whole = model.advance(model.start(temper), history);
        const half = model.advance(model.start(temper), first);
        if (at === history.timeS.length - 1) return;
        const rest = thermalHistory(history.timeS.slice(at), history.tempC.slice(at));
        const joined = model.advance(half.state, rest);
        for (const column of ['yieldKeptFraction', 'yieldKeptLow', 'yieldKeptHigh', 'yieldMPa'] as const)
          expect(last(joined[column])).toBeCloseTo(last(whole[column]), 9);
      }),
      { numRuns: 40 },
    );
  });

  it('loses more the longer and the hotter it is held, once past its peak', () => {
    const kept = (tempC: number, hours: number): number =>
      end(alloy, temper, isothermal(tempC, hours * HOUR)).nominal;
    const track = [4, 8, 16, 32, 64, 128].map((hours) => kept(240, hours));
    for (let i = 1; i < track.length; i++) expect(track[i]).toBeLessThan(track[i - 1]!);
    const hotter = [240, 250, 260, 270, 280].map((tempC) => kept(tempC, 8));
    for (let i = 1; i < hotter.length; i++) expect(hotter[i]).toBeLessThan(hotter[i - 1]!);
  });

  it('never recovers: after an over-ageing soak no further soak gives strength back', () => {
    const model = overageingModel(alloy);
    const soaked = model.advance(model.start(temper), isothermal(260, 10 * HOUR));
    fc.assert(
      fc.property(soaks, (history) => {
        const after = model.advance(soaked.state, history);
        for (const column of ['yieldKeptFraction', 'yieldKeptLow', 'yieldKeptHigh'] as const)
          for (let i = 1; i < after[column].length; i++)
            expect(after[column][i]).toBeLessThanOrEqual(after[column][i - 1]! + 1e-12);
      }),
      { numRuns: 30 },
    );
  });

  it('tends to its floor', () => {
    const floor = loadAlloy(alloy).overageing.curves[temper]!.floorYieldMPa.value;
    const { yieldMPa } = end(alloy, temper, isothermal(300, 1e9));
    expect(last(yieldMPa)).toBeGreaterThan(floor);
    expect(last(yieldMPa) / floor - 1).toBeLessThan(0.05);
  });
});

describe('an under-aged T6 of the 356 family', () => {
  it('first gains, then loses', () => {
    for (const alloy of ['356.0', 'A356.0']) {
      expect(end(alloy, 'T6', isothermal(177, 4 * HOUR)).nominal).toBeGreaterThan(1);
      expect(end(alloy, 'T6', isothermal(260, 4 * HOUR)).nominal).toBeLessThan(0.9);
    }
  });

  it('is not credited with the gain in the low case', () => {
    for (const alloy of ['356.0', 'A356.0'])
      expect(end(alloy, 'T6', isothermal(177, 4 * HOUR)).low).toBeLessThanOrEqual(1);
  });
});

describe('the state', () => {
  it('survives a structured clone, so that it can be stored', () => {
    const model = overageingModel('6061');
    const { state } = model.advance(model.start('T6'), isothermal(200, HOUR));
    expect(model.advance(structuredClone(state), isothermal(200, HOUR)).yieldMPa).toEqual(
      model.advance(state, isothermal(200, HOUR)).yieldMPa,
    );
  });

  it('stands still across a gap', () => {
    const withGap = thermalHistory([0, 3600, 7200, 10_800], [200, 200, 200, 200], [1]);
    const model = overageingModel('6061');
    const track = model.advance(model.start('T6'), withGap);
    expect(track.yieldKeptFraction[2]).toBe(track.yieldKeptFraction[1]);
    expect(last(track.doseS)).toBeCloseTo(
      equivalentTime(isothermal(200, 7200), { activationEnergyJPerMol: 130_000, referenceC: 199 }),
      6,
    );
  });
});

describe('the band', () => {
  const widthAt = (tempC: number): number => {
    const reference = 199;
    const equal =
      HOUR * 10 * Math.exp((130_000 / 8.314462618) * (1 / (tempC + 273.15) - 1 / (reference + 273.15)));
    const { low, high } = end('6061', 'T6', isothermal(tempC, equal));
    return high - low;
  };

  it('is narrowest where the exposures were measured and opens on both sides', () => {
    expect(widthAt(199)).toBeLessThan(widthAt(150));
    expect(widthAt(199)).toBeLessThan(widthAt(260));
  });

  it('narrows and moves when the shop’s coupons give the time factor', () => {
    const history = isothermal(199, 12 * HOUR);
    const own = overageingModel('6061', { timeFactor: { value: 3, low: 2.8, high: 3.2 } });
    const slow = own.advance(own.start('T6'), history);
    const card = end('6061', 'T6', history);
    expect(last(slow.yieldKeptFraction)).toBeGreaterThan(card.nominal);
    expect(last(slow.yieldKeptHigh) - last(slow.yieldKeptLow)).toBeLessThan(card.high - card.low);
    const same = overageingModel('6061', { timeFactor: { value: 5, low: 5, high: 5 } });
    expect(last(same.advance(same.start('T6'), history).yieldKeptFraction)).toBeCloseTo(card.nominal, 12);
  });
});

describe('a start measured on the part', () => {
  it('scales the hardening above the floor', () => {
    const soak = isothermal(227, 8 * HOUR);
    const typical = end('A356.0', 'T6', soak);
    const strong = end('A356.0', { temper: 'T6', measuredYieldMPa: 240 }, soak);
    const floor = 85;
    expect((last(strong.yieldMPa) - floor) / (240 - floor)).toBeCloseTo(
      (last(typical.yieldMPa) - floor) / (207 - floor),
      9,
    );
  });

  it('widens the band downwards for a strong casting (aged further?) and upwards for a weak one', () => {
    const soak = isothermal(227, 8 * HOUR);
    const strong = end('A356.0', { temper: 'T6', measuredYieldMPa: 240 }, soak);
    const weak = end('A356.0', { temper: 'T6', measuredYieldMPa: 165 }, soak);
    const typical = end('A356.0', 'T6', soak);
    expect(strong.nominal - strong.low).toBeGreaterThan(typical.nominal - typical.low);
    expect(weak.high - weak.nominal).toBeGreaterThan(typical.high - typical.nominal);
  });
});

describe('range and misuse', () => {
  it('remarks on heat above bulk soaks, above the evidence, and on exposures beyond it', () => {
    const quantities = (tempC: number, timeS: number): string[] =>
      end('6061', 'T6', isothermal(tempC, timeS)).remarks.map(({ quantity }) => quantity);
    expect(quantities(190, HOUR)).toEqual([]);
    expect(quantities(240, 60)).toEqual(['temperature']);
    expect(quantities(199, 100 * HOUR)).toEqual(['exposure']);
    expect(quantities(350, HOUR)).toEqual(['temperature', 'exposure']);
  });

  it.each<[string, StartState, RegExp]>([
    ['6061', 'T4', /no over-ageing curve for this temper.*T6/],
    ['6061', 'T9', /has no temper of this name/],
    ['6061', { solutionTreated: true }, /starts from an aged temper/],
    ['A356.0', { temper: 'T6', measuredYieldMPa: 30 }, /is not A356.0-T6.*85 MPa/],
    ['A356.0', { temper: 'T6', measuredYieldMPa: Number.NaN }, /measured yield/],
  ])('%s refuses to start from %j', (alloy, from, message) => {
    expect(() => overageingModel(alloy).start(from)).toThrow(TemperbookError);
    expect(() => overageingModel(alloy).start(from)).toThrow(message);
  });

  it('refuses a bare composition and a senseless time factor', () => {
    expect(() => overageingModel({ matrixWtPct: { Mg: 0.5, Si: 0.5, Cu: 0 } })).toThrow(
      /needs an alloy card/,
    );
    expect(() => overageingModel('6061', { timeFactor: { value: 5, low: 6, high: 7 } })).toThrow(/low end/);
  });
});
