import { describe, expect, it } from 'vitest';
import { compareScenarios } from '../../lib/decision';
import { isothermal, join, shiftTemperature, thermalHistory } from '../../lib/history';

describe('compareScenarios', () => {
  const weld = join([thermalHistory([0, 20, 200], [20, 300, 60])]);
  const ranked = compareScenarios(
    [
      { name: 'hotter', history: shiftTemperature(weld, (t) => (t - 20) * 0.3) },
      { name: 'as it ran', history: weld },
      { name: 'slow and cool', history: isothermal(60, 5000) },
      { name: 'quick and cool', history: isothermal(60, 50) },
    ],
    { alloy: '6061', temper: 'T6', attachment: 'welded wires' },
  );

  it('ranks by what one can count on, and of equals by time', () => {
    expect(ranked.map(({ name }) => name)).toEqual([
      'quick and cool',
      'slow and cool',
      'as it ran',
      'hotter',
    ]);
  });

  it('tells the time each took', () => expect(ranked[1]!.timeSpentS).toBe(5000));
});
