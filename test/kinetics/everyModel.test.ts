import { describe, expect, it } from 'vitest';
import { slice, type ThermalHistory, thermalHistory } from '../../lib/history';
import {
  ageingCurve,
  dissolutionModel,
  overageingModel,
  precipitateModel,
  softeningModel,
  type TemperModel,
} from '../../lib/kinetics';
import { TemperbookError } from '../../lib/quantity';
import { fc } from '../setup/fc';

/**
 * The promises of the one interface, held by every model. `splitMPa` is how much yield may differ between a history
 * in one piece and in two: rounding for the integrals; for the precipitate model the estimated errors of its steps
 * (about 1 MPa over such histories) and the 1 MPa its size classes add, both stated by the model.
 */
const models: readonly { readonly name: string; readonly model: TemperModel; readonly splitMPa: number }[] = [
  { name: 'over-ageing curve', model: overageingModel('A356.0'), splitMPa: 1e-6 },
  { name: 'over-ageing with dissolution', model: softeningModel('A356.0'), splitMPa: 1e-6 },
  { name: 'dissolution rule', model: dissolutionModel('6061'), splitMPa: 1e-6 },
  { name: 'ageing curve', model: ageingCurve('6061'), splitMPa: 1e-6 },
  { name: 'precipitate model', model: precipitateModel('6061'), splitMPa: 2 },
];

const DAY_S = 86_400;
const last = (column: Float64Array): number => column[column.length - 1]!;

/** Up to 400 °C in steps of minutes: soaks, passes and the waits between them. */
const anyHistory = fc
  .array(
    fc.tuple(fc.double({ min: 1, max: 600, noNaN: true }), fc.double({ min: 20, max: 400, noNaN: true })),
    {
      minLength: 4,
      maxLength: 10,
    },
  )
  .map((samples) => {
    let time = 0;
    return thermalHistory(
      samples.map(([step]) => (time += step)),
      samples.map(([, temp]) => temp),
    );
  });

describe.each(models)('$name', ({ model, splitMPa }) => {
  it('does not change in a day at room temperature', () => {
    const day = model.advance(model.start('T6'), thermalHistory([0, DAY_S], [20, 20]));
    expect(Math.abs(last(day.yieldKeptFraction) - 1)).toBeLessThan(0.001);
  });

  it('is the same for a history in one piece and in two', () => {
    fc.assert(
      fc.property(anyHistory, fc.integer({ min: 1, max: 2 }), (history, at) => {
        const cut = history.timeS[at]!;
        const whole = model.advance(model.start('T6'), history);
        const first = model.advance(model.start('T6'), slice(history, history.timeS[0]!, cut));
        const second = model.advance(first.state, slice(history, cut, last(history.timeS)));
        expect(Math.abs(last(second.yieldMPa) - last(whole.yieldMPa))).toBeLessThanOrEqual(splitMPa);
        expect(last(second.yieldKeptFraction)).toBeCloseTo(
          last(second.yieldMPa) / (first.yieldMPa[0]! / first.yieldKeptFraction[0]!),
          9,
        );
      }),
      { numRuns: 20 },
    );
  });

  it('never changes a state it was given, nor the history', () => {
    const state = model.start('T6');
    const history = thermalHistory([0, 60, 120], [20, 300, 250]);
    const [before, asGiven] = [structuredClone(state), structuredClone(history)];
    model.advance(state, history);
    expect(state).toEqual(before);
    expect(history).toEqual(asGiven);
  });

  it('stands still across a gap', () => {
    const gone = model.advance(model.start('T6'), {
      ...thermalHistory([0, 600, 1200], [250, 250, 250]),
      gapAfter: Uint32Array.of(1),
    });
    expect(gone.yieldMPa[2]).toBeCloseTo(gone.yieldMPa[1]!, 9);
  });

  it.each<[string, ThermalHistory, RegExp]>([
    [
      'a time that stands still',
      { timeS: Float64Array.of(0, 0), tempC: Float64Array.of(20, 20) },
      /increase/,
    ],
    ['a missing value', { timeS: Float64Array.of(0, 1), tempC: Float64Array.of(20, Number.NaN) }, /no metal/],
    ['absolute zero', { timeS: Float64Array.of(0, 1), tempC: Float64Array.of(20, -273.15) }, /no metal/],
    ['nothing', { timeS: new Float64Array(0), tempC: new Float64Array(0) }, /at least one/],
  ])('refuses %s in plain words', (_, broken, message) => {
    const state = model.start('T6');
    expect(() => model.advance(state, broken)).toThrow(TemperbookError);
    expect(() => model.advance(state, broken)).toThrow(message);
  });

  it('refuses a temper nobody knows', () => {
    expect(() => model.start('T99')).toThrow(TemperbookError);
  });
});
