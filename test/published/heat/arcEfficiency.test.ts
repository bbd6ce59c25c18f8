import { describe, expect, it } from 'vitest';
import published from '../../../data/published/arc-efficiency.json';
import { ARC_EFFICIENCY, heatInput, type WeldProcess } from '../../../lib/heatflow';

describe('arc efficiency against EN 1011-1 and calorimetry', () => {
  it.each(published.thermalEfficiency.rows)('$process: nominal is k = $k of EN 1011-1', ({ process, k }) => {
    expect(ARC_EFFICIENCY[process as WeldProcess].value).toBe(k);
  });

  it.each(published.measured)(
    '$process: measured mean $mean lies inside the band ($source)',
    ({ process, mean }) => {
      const { low, high } = ARC_EFFICIENCY[process as WeldProcess];
      expect(mean).toBeGreaterThanOrEqual(low);
      expect(mean).toBeLessThanOrEqual(high);
    },
  );
});

describe('arc energy of published MIG procedures on aluminium (arithmetic of Q = U I / v)', () => {
  it.each(published.migOnAluminium.rows)('$thicknessMm mm', ({ amps, volts, speedMmPerMin, own }) => {
    speedMmPerMin.forEach((speed, i) => {
      const { arcEnergyJPerMm } = heatInput({ amps, volts, travelMmPerS: speed / 60, process: 'MIG' });
      expect(Math.abs(arcEnergyJPerMm - own.arcEnergyJPerMm[i]!)).toBeLessThanOrEqual(0.051);
    });
  });
});
