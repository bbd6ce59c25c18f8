import { describe, expect, it } from 'vitest';
import { parsePoints } from '../../../lib/exposure';

describe('points off a paper chart', () => {
  it('are read in either unit, parted by commas, semicolons or lines', () => {
    const { timeS, tempC } = parsePoints('0min 68F, 12min 200C; 1h30 392F\n2h 20°C');
    expect(timeS).toEqual([0, 720, 5400, 7200]);
    tempC.forEach((temp, i) => {
      expect(temp).toBeCloseTo([20, 200, 200, 20][i]!, 9);
    });
  });

  it.each(['12min 395', '395F', '12 395F', '12min warm'])('refuses %j', (words) =>
    expect(() => parsePoints(words)).toThrow(/unit/),
  );
});
