import { describe, expect, it } from 'vitest';
import { listAlloys, loadAlloy } from '../../lib/alloy';
import { isothermal, type ThermalHistory, thermalHistory } from '../../lib/history';
import { ageingCurve, ageingShape, ageingYieldMPa, ageingYieldSlopeMPa } from '../../lib/kinetics';
import { TemperbookError } from '../../lib/quantity';
import { fc } from '../setup/fc';

const HOUR = 3600;
const last = (column: Float64Array): number => column[column.length - 1]!;
const aged = (alloy: string, history: ThermalHistory) => {
  const model = ageingCurve(alloy);
  return model.advance(model.start({ solutionTreated: true }), history);
};
const yieldAfter = (alloy: string, tempC: number, hours: number): number =>
  last(aged(alloy, isothermal(tempC, hours * HOUR)).yieldMPa);

describe.each(listAlloys())('ageingCurve of %s', (alloy) => {
  it('rises to a peak and falls, sooner and lower the hotter', () => {
    const hours = Array.from({ length: 120 }, (_, k) => 0.01 * 1.13 ** k);
    const peakOf = (tempC: number): readonly [number, number] =>
      hours
        .map((h) => [h, yieldAfter(alloy, tempC, h)] as const)
        .reduce((best, point) => (point[1] > best[1] ? point : best));
    const [cool, warm, hot] = [165, 185, 205].map(peakOf);
    expect(warm![0]).toBeLessThan(cool![0]);
    expect(hot![0]).toBeLessThan(warm![0]);
    expect(warm![1]).toBeLessThan(cool![1]);
    expect(hot![1]).toBeLessThan(warm![1]);
  });

  // A central difference over h in ln P* is off by h²/6 of the third derivative, which no term of the yield has above
  // 10 times its size, and by rounding, 2e-16 of the yield over h: below 2e-8 of the yield for h = 1e-4.
  it('has the slope that its yield has', () => {
    const shape = ageingShape(loadAlloy(alloy).ageing!);
    const capacity = fc.double({ min: 0.01, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: -9, max: 9, noNaN: true }), capacity, (logTime, capacity) => {
        const at = (log: number) => ({ correctedTime: Math.exp(log), capacity });
        const yieldAt = (log: number): number => ageingYieldMPa(shape, at(log));
        const slope = (yieldAt(logTime + 1e-4) - yieldAt(logTime - 1e-4)) / 2e-4;
        const error = Math.abs(ageingYieldSlopeMPa(shape, at(logTime)) - slope);
        expect(error).toBeLessThan(2e-8 * yieldAt(logTime));
      }),
    );
  });

  it('starts from the quenched yield and hardly moves in a day at 20 °C', () => {
    const track = aged(alloy, isothermal(20, 24 * HOUR));
    expect(track.yieldKeptFraction[0]).toBe(1);
    expect(last(track.yieldKeptFraction)).toBeCloseTo(1, 2);
  });

  it('does not care how a soak is cut into steps', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 150, max: 230, noNaN: true }),
        fc.integer({ min: 1, max: 9 }),
        (tempC, tenths) => {
          const model = ageingCurve(alloy);
          const cut = (tenths / 10) * 5 * HOUR;
          const first = model.advance(model.start({ solutionTreated: true }), isothermal(tempC, cut));
          const second = model.advance(first.state, isothermal(tempC, 5 * HOUR - cut));
          expect(last(second.yieldMPa)).toBeCloseTo(yieldAfter(alloy, tempC, 5), 9);
        },
      ),
      { numRuns: 30 },
    );
  });

  it('integrates a ramp like many small steps', () => {
    const coarse = thermalHistory([0, HOUR, 3 * HOUR], [20, 190, 190]);
    const times = Array.from({ length: 3001 }, (_, k) => k * 3.6);
    const fine = thermalHistory(
      times,
      times.map((t) => Math.min(20 + (170 * t) / HOUR, 190)),
    );
    expect(last(aged(alloy, coarse).yieldMPa)).toBeCloseTo(last(aged(alloy, fine).yieldMPa), 3);
  });

  it('keeps what an ageing step made while the part cools down', () => {
    const cooled = thermalHistory([0, 8 * HOUR, 8 * HOUR + 600], [177, 177, 20]);
    expect(last(aged(alloy, cooled).yieldMPa)).toBeCloseTo(yieldAfter(alloy, 177, 8), 0);
  });
});

describe('start and range', () => {
  it('starts from a temper at the yield its ageing gives, and from a measured yield by scale', () => {
    const model = ageingCurve('6061');
    const t6 = model.advance(model.start('T6'), isothermal(20, 1));
    expect(t6.yieldMPa[0]).toBeCloseTo(yieldAfter('6061', 177, 8), 9);
    const own = model.advance(model.start({ temper: 'T651', measuredYieldMPa: 300 }), isothermal(20, 1));
    expect(own.yieldMPa[0]).toBeCloseTo(300, 9);
  });

  it('stands still across a gap', () => {
    const track = aged('6061', thermalHistory([0, 3600, 7200], [180, 180, 180], [0]));
    expect(track.yieldMPa[1]).toBe(track.yieldMPa[0]);
    expect(track.yieldMPa[2]).toBeGreaterThan(track.yieldMPa[1]!);
  });

  it('remarks on anything hotter than ageing', () => {
    expect(aged('6061', isothermal(230, 60)).remarks).toEqual([]);
    expect(aged('6061', isothermal(400, 60)).remarks[0]!.text).toContain('400 °C (752 °F)');
    expect(Number.isFinite(last(aged('6061', isothermal(400, 60)).yieldMPa))).toBe(true);
  });

  it('refuses a temper whose ageing nobody wrote down, and a bare composition', () => {
    expect(() => ageingCurve('6061').start('T4')).toThrow(TemperbookError);
    expect(() => ageingCurve('6061').start('T4')).toThrow(/does not say how T4 was aged.*T6/);
    expect(() => ageingCurve({ matrixWtPct: { Mg: 1, Si: 1, Cu: 0 } })).toThrow(/needs an alloy card/);
  });
});
