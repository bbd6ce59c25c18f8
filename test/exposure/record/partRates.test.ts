import { describe, expect, it } from 'vitest';
import { partRates } from '../../../lib/exposure/record/partRates';
import { thinPlateHistory } from '../../../lib/heatflow';
import { isothermal, resample } from '../../../lib/history';

/** 6061-T6 at room temperature; 1500 W net at 5 mm/s on 4 mm, read every half second. */
const beside = (acrossMm: number) =>
  thinPlateHistory({
    conductivityWPerMK: 167,
    volumetricHeatJPerM3K: 2_419_200,
    netPowerW: 1500,
    travelMmPerS: 5,
    thicknessMm: 4,
    acrossMm,
    startC: 20,
    timeS: Float64Array.from({ length: 400 }, (_, i) => i * 0.5 - 60),
  });

describe('partRates against the moving line source (D. Rosenthal, Welding Journal 20 (1941) 220s–234s)', () => {
  const unseen = partRates([resample(isothermal(20, 60), 1)]);

  it.each([20, 30, 40, 60])('a part never seen to heat may do what metal %i mm beside an arc does', (mm) => {
    const { timeS, tempC } = beside(mm);
    for (let i = 4; i < timeS.length; i++) {
      const rate = (tempC[i]! - tempC[i - 4]!) / 2;
      expect(rate).toBeLessThanOrEqual(unseen.heatingKPerS);
      expect(-rate).toBeLessThanOrEqual(unseen.coolingKPerS);
    }
  });

  it('metal 10 mm beside it does more, and a log that shows it raises the bound', () => {
    const { heatingKPerS, coolingKPerS } = partRates([beside(10)]);
    // Half as much again of 102 and 27 K/s over two seconds.
    expect(heatingKPerS).toBeCloseTo(1.5 * 102.3, 0);
    expect(coolingKPerS).toBeCloseTo(1.5 * 27.2, 0);
  });
});
