import { describe, expect, it } from 'vitest';
import { isothermal } from '../../../lib/history';
import { precipitateModel } from '../../../lib/kinetics';
import { readingNoiseK } from '../../../lib/kinetics/precipitate/readingNoise';

/** Normal numbers from a fixed seed (Park–Miller, Box–Muller). */
function normal(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (state * 16_807) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** Six passes in an hour, read ten times a second. */
const timeS = Float64Array.from({ length: 36_001 }, (_, i) => i / 10);
const smoothC = timeS.map((t) => {
  const since = t % 600;
  return since < 5 ? 20 + 56 * since : 20 + 280 * Math.exp(-(since - 5) / 60);
});

describe('noise of readings', () => {
  // A median of 2000 has a standard error of 2.6 % here; four of them are 10 %.
  it('is found within a tenth, passes of a weld or not', () => {
    for (const noiseK of [0.5, 3, 10]) {
      const next = normal(7);
      const found = readingNoiseK(smoothC.map((c) => c + noiseK * next()));
      expect(found / noiseK).toBeGreaterThan(0.9);
      expect(found / noiseK).toBeLessThan(1.1);
    }
  });

  it('is next to none of a smooth log, and none of a plan', () => {
    expect(readingNoiseK(smoothC)).toBeLessThan(0.01);
    expect(readingNoiseK(isothermal(300, 60).tempC)).toBe(0);
  });

  it('costs the precipitate model no steps and no strength', () => {
    const model = precipitateModel('6061');
    const start = model.start('T6');
    const smooth = model.advance(start, { timeS, tempC: smoothC });
    const next = normal(11);
    const noisy = model.advance(start, { timeS, tempC: smoothC.map((c) => c + 3 * next()) });
    expect(noisy.steps).toBeLessThan(1.5 * smooth.steps);
    // Noise of 3 K makes rates of 130 kJ/mol larger by (E/RT²)² σ²/2: 1 % at 300 °C, of a loss of some 10 MPa.
    expect(Math.abs(noisy.yieldMPa.at(-1)! - smooth.yieldMPa.at(-1)!)).toBeLessThan(0.5);
  });
});
