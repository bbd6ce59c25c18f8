import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { mean as libraryMean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import norris from '../../../data/published/strd-linear/Norris.json';
import { mean, standardDeviation, straightLine } from '../../../lib/statistics';

interface UnivariateSet {
  readonly name: string;
  readonly certified: { readonly mean: number; readonly standardDeviation: number };
  readonly y: readonly number[];
}

const folder = join(__dirname, '../../../data/published/strd-univariate');
const sets = readdirSync(folder).map(
  (file) => JSON.parse(readFileSync(join(folder, file), 'utf8')) as UnivariateSet,
);

/** Digits in which an estimate agrees with a certified value, as NIST counts them; 15 are certified. */
const digits = (estimate: number, certified: number): number =>
  estimate === certified ? 15 : Math.min(15, -Math.log10(Math.abs(estimate / certified - 1)));

/** Spacing of double-precision numbers of this size. */
const spacing = (value: number): number => 2 ** (Math.floor(Math.log2(Math.abs(value))) - 52);

/**
 * Digits that must be left. Every reading is stored within half a spacing of its decimal value, which moves the mean
 * by no more than that and s by no more than √(n/(n−1)) times that; NIST certifies 15 digits; and s sums n squares
 * plainly, at most n/2 roundings.
 */
function guaranteed({ y, certified }: UnivariateSet): { mean: number; standardDeviation: number } {
  const stored = spacing(Math.max(...y.map(Math.abs))) / 2;
  const certifiedTo = 1e-15;
  return {
    mean: -Math.log10(stored / Math.abs(certified.mean) + 2 ** -52 + certifiedTo),
    standardDeviation: -Math.log10(
      (1.3 * stored) / certified.standardDeviation + (y.length / 2) * 2 ** -52 + certifiedTo,
    ),
  };
}

describe('NIST StRD univariate sets', () => {
  it('all nine are here', () => {
    expect(sets.map(({ name }) => name).sort()).toEqual(
      ['Lew', 'Lottery', 'Mavro', 'Michelso', 'NumAcc1', 'NumAcc2', 'NumAcc3', 'NumAcc4', 'PiDigits'].sort(),
    );
  });

  it.each(
    sets.map((set) => {
      const reached = {
        mean: digits(mean(set.y), set.certified.mean),
        sd: digits(standardDeviation(set.y), set.certified.standardDeviation),
      };
      return {
        set,
        reached,
        title: `mean ${reached.mean.toFixed(1)} digits, s ${reached.sd.toFixed(1)} digits`,
      };
    }),
  )('$set.name: $title', ({ set, reached }) => {
    const must = guaranteed(set);
    expect(reached.mean).toBeGreaterThanOrEqual(must.mean);
    expect(reached.sd).toBeGreaterThanOrEqual(must.standardDeviation);
    // Ours are simple-statistics' own, not a wrapper that changes them.
    expect(mean(set.y)).toBe(libraryMean([...set.y]));
    expect(standardDeviation(set.y)).toBe(sampleStandardDeviation([...set.y]));
  });

  it('NumAcc4 keeps 8 digits of s: what its values keep in double precision, against 0.0 of the one-pass formula', () => {
    const set = sets.find(({ name }) => name === 'NumAcc4')!;
    expect(digits(standardDeviation(set.y), 0.1)).toBeGreaterThan(8);
    // The exact standard deviation of the stored values: half of them lie d away from the middle one on each side.
    const stored = (10000000.3 - 10000000.1) / 2;
    expect(digits(standardDeviation(set.y), stored)).toBeGreaterThan(12);
    const n = set.y.length;
    const sum = set.y.reduce((a, b) => a + b, 0);
    const onePass = Math.sqrt(Math.abs(set.y.reduce((a, b) => a + b * b, 0) - (sum * sum) / n) / (n - 1));
    expect(digits(onePass, 0.1)).toBeLessThan(1);
  });
});

describe('NIST StRD linear regression', () => {
  it('Norris: line, errors and residual deviation', () => {
    const y = norris.rows.map((row) => row[0]!);
    const x = norris.rows.map((row) => row[1]!);
    const line = straightLine(x, y);
    const { certified } = norris;
    // Centred sums: the slope loses nothing; the intercept is 0.26 left from 429 − 429, three digits fewer;
    // residuals are 0.9 left from up to 1000, three digits, their squares averaged.
    expect(digits(line.slope, certified.slope)).toBeGreaterThan(14);
    expect(digits(line.intercept, certified.intercept)).toBeGreaterThan(12);
    expect(digits(line.residualStandardDeviation, certified.residualStandardDeviation)).toBeGreaterThan(12);
    expect(digits(line.slopeStandardError, certified.slopeStandardError)).toBeGreaterThan(12);
    expect(digits(line.interceptStandardError, certified.interceptStandardError)).toBeGreaterThan(12);
  });
});
