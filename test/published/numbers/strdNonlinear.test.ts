import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { leastSquares } from '../../../lib/statistics';

/**
 * NIST Statistical Reference Datasets, nonlinear regression: 19 sets with certified values (11 digits), each from
 * both published starting points. First the model and the data are checked at the certified values, then the fit.
 * NIST's page for Rat43 prints 9 degrees of freedom; 15 readings less 4 unknowns are 11, which also gives the
 * residual standard deviation printed there, so 11 is used.
 */
interface StrdSet {
  readonly name: string;
  readonly model: string;
  readonly parameters: readonly {
    readonly name: string;
    readonly start1: number;
    readonly start2: number;
    readonly certified: number;
    readonly standardDeviation: number;
  }[];
  readonly residualSumOfSquares: number;
  readonly residualStandardDeviation: number;
  readonly degreesOfFreedom: number;
  readonly x: readonly number[];
  readonly y: readonly number[];
}

type Model = (x: number, b: Float64Array) => number;
const polynomial = (x: number, b: readonly number[]) => b.reduceRight((sum, c) => sum * x + c, 0);
const models: Record<string, Model> = {
  Bennett5: (x, [b1, b2, b3]) => b1! * (b2! + x) ** (-1 / b3!),
  BoxBOD: (x, [b1, b2]) => b1! * (1 - Math.exp(-b2! * x)),
  Chwirut2: (x, [b1, b2, b3]) => Math.exp(-b1! * x) / (b2! + b3! * x),
  DanWood: (x, [b1, b2]) => b1! * x ** b2!,
  Eckerle4: (x, [b1, b2, b3]) => (b1! / b2!) * Math.exp(-0.5 * ((x - b3!) / b2!) ** 2),
  Hahn1: (x, b) => polynomial(x, [b[0]!, b[1]!, b[2]!, b[3]!]) / polynomial(x, [1, b[4]!, b[5]!, b[6]!]),
  Kirby2: (x, b) => polynomial(x, [b[0]!, b[1]!, b[2]!]) / polynomial(x, [1, b[3]!, b[4]!]),
  Lanczos3: (x, [b1, b2, b3, b4, b5, b6]) =>
    b1! * Math.exp(-b2! * x) + b3! * Math.exp(-b4! * x) + b5! * Math.exp(-b6! * x),
  MGH09: (x, [b1, b2, b3, b4]) => (b1! * (x * x + x * b2!)) / (x * x + x * b3! + b4!),
  MGH10: (x, [b1, b2, b3]) => b1! * Math.exp(b2! / (x + b3!)),
  MGH17: (x, [b1, b2, b3, b4, b5]) => b1! + b2! * Math.exp(-x * b4!) + b3! * Math.exp(-x * b5!),
  Misra1a: (x, [b1, b2]) => b1! * (1 - Math.exp(-b2! * x)),
  Misra1b: (x, [b1, b2]) => b1! * (1 - (1 + (b2! * x) / 2) ** -2),
  Misra1c: (x, [b1, b2]) => b1! * (1 - (1 + 2 * b2! * x) ** -0.5),
  Misra1d: (x, [b1, b2]) => (b1! * b2! * x) / (1 + b2! * x),
  Rat42: (x, [b1, b2, b3]) => b1! / (1 + Math.exp(b2! - b3! * x)),
  Rat43: (x, [b1, b2, b3, b4]) => b1! / (1 + Math.exp(b2! - b3! * x)) ** (1 / b4!),
  Roszman1: (x, [b1, b2, b3, b4]) => b1! - b2! * x - Math.atan(b3! / (x - b4!)) / Math.PI,
  Thurber: (x, b) => polynomial(x, [b[0]!, b[1]!, b[2]!, b[3]!]) / polynomial(x, [1, b[4]!, b[5]!, b[6]!]),
};

const folder = join(__dirname, '../../../data/published/strd-nonlinear');
const sets = readdirSync(folder).map(
  (file): StrdSet => JSON.parse(readFileSync(join(folder, file), 'utf8')) as StrdSet,
);
const residualsOf = (set: StrdSet) => (b: Float64Array) =>
  Float64Array.from(set.x, (x, i) => set.y[i]! - models[set.name]!(x, b));

it('holds every model a data set asks for', () => {
  expect(sets.map((set) => set.name).sort()).toEqual(Object.keys(models).sort());
});

describe.each(sets)('NIST StRD $name', (set) => {
  it('has the certified sum of squares at the certified values', () => {
    const residuals = residualsOf(set)(Float64Array.from(set.parameters, (p) => p.certified));
    const total = residuals.reduce((sum, r) => sum + r * r, 0);
    // Printed to 11 digits: half a unit of the last is at most 5e-11; the values' own rounding counts squared.
    expect(Math.abs(total / set.residualSumOfSquares - 1)).toBeLessThan(1e-10);
  });

  it.each(['start1', 'start2'] as const)(
    'reaches the certified values and standard errors from %s',
    (start) => {
      const fit = leastSquares(
        residualsOf(set),
        set.parameters.map((p) => ({ name: p.name, start: p[start] })),
      );
      expect(fit.converged).toBe(true);
      expect(fit.degreesOfFreedom).toBe(set.degreesOfFreedom);
      expect(Math.abs(fit.residualSumOfSquares / set.residualSumOfSquares - 1)).toBeLessThan(1e-10);
      expect(Math.abs(fit.residualStandardDeviation / set.residualStandardDeviation - 1)).toBeLessThan(1e-10);
      set.parameters.forEach((p, j) => {
        const fitted = fit.unknowns[j]!;
        // The search ends when no step promises more than 1e-14 of the sum of squares, so it ends within
        // √(1e-14 · freedom) standard errors of the bottom; the print adds half a unit of its eleventh digit.
        const fromEnd = 1e-7 * Math.sqrt(set.degreesOfFreedom) * p.standardDeviation;
        expect(Math.abs(fitted.value - p.certified)).toBeLessThan(fromEnd + 5e-11 * Math.abs(p.certified));
        // A central difference with step h = 6e-6 b errs by (h/L)²/6 where the model bends over L: b/L reaches 110
        // (Eckerle4: 451 over 4.1), which is 7e-8; the shift of the values above adds as much.
        expect(Math.abs(fitted.standardError / p.standardDeviation - 1)).toBeLessThan(3e-7);
      });
    },
  );
});
