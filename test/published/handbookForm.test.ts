import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { evidenceTable } from '../../lib/kinetics';
import { curveLeft } from '../../lib/kinetics/metals/softening';
import { GAS_CONSTANT, ZERO_C_IN_K } from '../../lib/quantity';
import { adaptiveMetropolis, mean, seededRandom, standardDeviation } from '../../lib/statistics';

/**
 * The sampler and the softening curve against an independent posterior: the same rows, form and priors, other code.
 * The rows are MIL-HDBK-5J fig. 3.6.2.2.1(d), in data/published/evidence.json.
 */
interface Independent {
  readonly results: Readonly<
    Record<'to10h' | 'all', { rows: number; mean: number[]; sd: number[]; predicted: number[][] }>
  >;
}
const file = path.join(__dirname, '../../data/published/handbookFormPosterior.json');
const { results } = JSON.parse(readFileSync(file, 'utf8')) as Independent;

const handbook = evidenceTable()
  .filter(({ id }) => id.startsWith('6061-handbook-yield'))
  .map(({ exposure, measured }) => ({
    ...(exposure[0] as { tempC: number; timeS: number }),
    kept: measured.value,
  }));

const keptBy = (
  [kJ, lnTau, power, floor]: ArrayLike<number> & Iterable<number>,
  tempC: number,
  timeS: number,
): number => {
  const perK = (1000 * kJ!) / GAS_CONSTANT;
  const dose = timeS * Math.exp(perK * (1 / (200 + ZERO_C_IN_K) - 1 / (tempC + ZERO_C_IN_K)) - lnTau!);
  return floor! + (1 - floor!) * curveLeft(dose, power!);
};

const BOUNDS = [
  [80, 350],
  [5, 25],
  [0.05, 1],
  [0, 0.4],
] as const;

const DRAWS = 3000;
const chainOf = (longestS: number, start: readonly number[]) => {
  const rows = handbook.filter(({ timeS }) => timeS <= longestS);
  const draws = adaptiveMetropolis(
    (x) => {
      if (BOUNDS.some(([low, high], k) => x[k]! < low || x[k]! > high)) return Number.NEGATIVE_INFINITY;
      return -rows.reduce((sum, r) => sum + ((r.kept - keptBy(x, r.tempC, r.timeS)) / 0.03) ** 2, 0) / 2;
    },
    { start, scale: [10, 0.5, 0.03, 0.03], warmUp: 20_000, draws: DRAWS, every: 30, random: seededRandom(5) },
  ).draws;
  return { rows: rows.length, draws };
};

describe.each([
  ['to10h', 36_000],
  ['all', 3.6e7],
] as const)('posterior of the handbook form, rows %s', (which, longestS) => {
  const published = results[which];
  const chain = chainOf(longestS, published.mean);

  it('on as many rows', () => expect(chain.rows).toBe(published.rows));

  it.each([0, 1, 2, 3])('mean and spread of parameter %d', (k) => {
    const values = chain.draws.map((draw) => draw[k]!);
    const sd = published.sd[k]!;
    // Its two seeds agree to sd/20. Ours: 3000 draws, one in 30 steps of a chain with a correlation time of about 100
    // steps, are worth 900: sd/30. Three of both together, and as much for the spread.
    const allowed = 3 * Math.hypot(1 / 20, 1 / 30);
    expect(Math.abs(mean(values) - published.mean[k]!)).toBeLessThan(allowed * sd);
    expect(Math.abs(standardDeviation(values) / sd - 1)).toBeLessThan(allowed);
  });

  it.each(published.predicted)(
    '%d °C for %d s: median and 5 to 95 %',
    (tempC, timeS, _mean, low, median, high) => {
      const kept = chain.draws.map((draw) => keptBy(draw, tempC!, timeS!)).sort((a, b) => a - b);
      const at = (p: number): number => kept[Math.floor(p * DRAWS)]!;
      const sd = (high! - low!) / 3.29;
      const allowed = 3 * Math.hypot(1 / 20, 1 / 30) * sd;
      expect(Math.abs(at(0.5) - median!)).toBeLessThan(allowed);
      // A 5 % quantile of a normal is known half as well as its mean.
      expect(Math.abs(at(0.05) - low!)).toBeLessThan(2 * allowed);
      expect(Math.abs(at(0.95) - high!)).toBeLessThan(2 * allowed);
    },
  );
});
