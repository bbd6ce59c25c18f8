import { describe, expect, it } from 'vitest';
import { readLog } from '../../lib/log';
import { lines, rows } from './write';

/**
 * Modified Bessel function K0, polynomial approximations 9.8.5 and 9.8.6 of Abramowitz and Stegun, Handbook of
 * Mathematical Functions (1964), stated error under 2e-7. From memory.
 */
function besselK0(x: number): number {
  const poly = (c: readonly number[], u: number) => c.reduceRight((sum, k) => sum * u + k, 0);
  if (x > 2)
    return (
      (Math.exp(-x) / Math.sqrt(x)) *
      poly([1.25331414, -0.07832358, 0.02189568, -0.01062446, 0.00587872, -0.0025154, 0.00053208], 2 / x)
    );
  const i0 = poly([1, 3.5156229, 3.0899424, 1.2067492, 0.2659732, 0.0360768, 0.0045813], (x / 3.75) ** 2);
  return (
    -Math.log(x / 2) * i0 +
    poly([-0.57721566, 0.4227842, 0.23069756, 0.0348859, 0.00262698, 0.0001075, 0.0000074], (x / 2) ** 2)
  );
}

interface Weld {
  readonly name: string;
  readonly powerW: number;
  readonly speedMmPerS: number;
  readonly plateMm: number;
}

/** Rosenthal's thin-plate formula for a line source, aluminium (k 175 W/mK, ρc 2.754e6 J/m³K); arc passes at 0 s. */
function thinPlateC({ powerW, speedMmPerS, plateMm }: Weld, yMm: number, t: number): number {
  const k = 175;
  const v = speedMmPerS / 1000;
  const a = k / 2.754e6;
  const xi = -v * t;
  const r = Math.hypot(xi, yMm / 1000);
  return (
    20 +
    (powerW / (2 * Math.PI * k * (plateMm / 1000))) *
      Math.exp((-v * xi) / (2 * a)) *
      besselK0((v * r) / (2 * a))
  );
}

const WELDS: readonly Weld[] = [
  { name: 'slow, 3 mm', powerW: 1800, speedMmPerS: 4, plateMm: 3 },
  { name: 'slow, 6 mm', powerW: 3000, speedMmPerS: 3, plateMm: 6 },
  { name: 'fast, 6 mm', powerW: 4200, speedMmPerS: 8, plateMm: 6 },
];

/** Noise that is the same at every run. */
function noise(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (state * 1664525 + 1013904223) % 4294967296;
    return state / 4294967296;
  };
  return () => uniform() + uniform() + uniform() + uniform() - 2; // standard deviation 0.58
}

describe('a real weld cycle raises no fault', () => {
  const CASES = WELDS.flatMap((weld) =>
    [10, 20, 30].flatMap((yMm) => [10, 2, 1, 0.2].map((hz) => ({ weld, yMm, hz }))),
  );
  it.each(CASES)('$weld.name plate, $yMm mm from the arc, $hz Hz', ({ weld, yMm, hz }) => {
    for (const [digits, size, phase] of [
      [1, 0, 0],
      [1, 0.5, 0.3],
      [0, 1, 0.7],
      [2, 3, 0.5],
    ] as const) {
      const jitter = noise(yMm * 100 + hz);
      const trace = (i: number) => {
        const t = (i + phase) / hz;
        const passes = [60, 150, 240].map((start) => thinPlateC(weld, yMm, t - start) - 20);
        return 20 + passes.reduce((sum, rise) => sum + (Number.isFinite(rise) ? rise : 0)) + size * jitter();
      };
      const log = readLog(
        lines(
          'Time (s),TC1 (°C)',
          rows(300 * hz, (i) => `${(i / hz).toFixed(3)},${trace(i).toFixed(digits)}`),
        ),
      );
      expect(log.channels[0]!.faults).toEqual([]);
    }
  });
});

describe('a furnace chart raises no fault', () => {
  const chart = (stepS: number, digits: number, door: boolean) => {
    const jitter = noise(stepS);
    const trace = (t: number) => {
      const ramp = Math.min(1, t / 3600);
      const soak = 22 + 516 * (1 - (1 - ramp) ** 2);
      const cool = t > 20_000 ? 60 + (soak - 60) * Math.exp(-(t - 20_000) / 900) : soak;
      const dip = door && t > 9000 && t < 9000 + 400 ? -60 * Math.exp(-(t - 9000) / 90) : 0;
      return cool + dip + 0.4 * jitter();
    };
    return lines(
      'Time (s),Air (°C),Load (°C)',
      rows(
        30_000 / stepS,
        (i) => `${i * stepS},${trace(i * stepS).toFixed(digits)},${(trace(i * stepS) - 4).toFixed(digits)}`,
      ),
    );
  };
  it.each([
    [1, 1, false],
    [10, 0, true],
    [60, 1, true],
    [300, 0, true],
  ])('rows every %i s, %i digits, door opened: %s', (stepS, digits, door) => {
    const log = readLog(chart(stepS, digits, door));
    expect(log.channels.flatMap(({ faults }) => faults)).toEqual([]);
  });
});

describe('a quiet log raises no fault', () => {
  it.each([
    [0, 0],
    [1, 0.1],
    [2, 5],
  ])('with %i digits and noise of %f', (digits, size) => {
    const jitter = noise(7);
    const log = readLog(
      lines(
        'Time (s),TC1 (°C),TC2 (°C)',
        rows(
          3000,
          (i) =>
            `${i / 10},${(22 + size * jitter()).toFixed(digits)},${(23 + size * jitter()).toFixed(digits)}`,
        ),
      ),
    );
    expect(log.channels.flatMap(({ faults }) => faults)).toEqual([]);
  });
});
