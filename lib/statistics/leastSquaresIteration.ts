import { Matrix } from 'ml-matrix';
import { TemperbookError } from '../quantity';
import { scaledLength, stepWithin } from './leastSquaresStep';

type Residuals = (values: Float64Array) => Float64Array;
interface Bounded {
  readonly name: string;
  readonly start: number;
  readonly low?: number;
  readonly high?: number;
  readonly derivativeStep?: number;
}

/** A Jacobian and the values it was derived at. */
export interface Derived {
  readonly jacobian: Matrix;
  readonly values: Float64Array;
}

/** Whether the derivative is taken anew for each step, or kept while it tells what a step does. */
export type Derivative = 'each step' | 'kept' | 'kept to the end';

interface Settings {
  readonly maxIterations: number;
  readonly tolerance: number;
  readonly derivative: Derivative;
  /** What to begin with where the derivative is kept. */
  readonly derived: Derived | undefined;
  /** Share of the sum of squares too small to go on for. */
  readonly trifle: number;
  /** No step is made that goes no further than this many standard errors. */
  readonly withinErrors: number;
  /** 'unit' where one standard error adds 1 to the sum of squares. */
  readonly noise: 'estimated' | 'unit';
  readonly onStep: ((iteration: number, sumOfSquares: number) => void) | undefined;
}

interface End {
  readonly values: Float64Array;
  readonly residuals: Float64Array;
  /** The last derivative: where it is kept, within a standard error of the end, or as far off as it came to be. */
  readonly derived: Derived | undefined;
  readonly iterations: number;
  readonly converged: boolean;
  readonly ending: string;
}

/** Step of a central difference, as a fraction: error of the formula and of rounding meet near ε^(1/3). */
const FINE_STEP = Number.EPSILON ** (1 / 3);
/** The first step is at most this many times the length of the starting values (Moré's factor, his low value). */
const FIRST_STEP = 10;
/** A step shorter than this share of the radius was not cut short by it. */
const SHORT = 0.9;
/** A step that lowers the sum of squares by more than this share of what was predicted went as the derivative says. */
const GOOD = 0.75;

/** Σ x². */
export const sumOfSquares = (v: Float64Array): number => v.reduce((sum, x) => sum + x * x, 0);

/**
 * The iterations of `leastSquares`. The sum of squares falls from one accepted step to the next. A derivative that is
 * kept is taken anew where a step does not do what it says, and before the end where that lies beyond a standard error.
 */
export function minimise(residualsAt: Residuals, unknowns: readonly Bounded[], settings: Settings): End {
  let values = Float64Array.from(unknowns, (u) => u.start);
  let residuals = residualsAt(values);
  let total = sumOfSquares(residuals);
  checkStart(unknowns, residuals, total);
  const scale = new Float64Array(unknowns.length);
  const isKept = settings.derivative !== 'each step';
  let derived = isKept ? settings.derived : undefined;
  let isTrusted = derived !== undefined;
  let radius: number | undefined;
  const end = (iterations: number, converged: boolean, ending: string): End => ({
    values,
    residuals,
    derived,
    iterations,
    converged,
    ending,
  });

  for (let iteration = 1; iteration <= settings.maxIterations; iteration++) {
    if (total === 0) return end(iteration, true, 'The model passes through every reading.');
    if (!derived || !isTrusted)
      derived = { jacobian: differentiate(residualsAt, unknowns, values, residuals), values };
    isTrusted = isKept;
    const { jacobian } = derived;
    const away = values.map((v, j) => v - derived!.values[j]!);
    const isHere = away.every((d) => d === 0);
    // What going one standard error away, in any direction, adds to the sum of squares.
    const oneError = settings.noise === 'unit' ? 1 : total / Math.max(1, residuals.length - values.length);
    const isNear = settings.derivative !== 'kept' || sumOfSquares(changeOf(jacobian, away)) <= oneError;
    const trifle = Math.max(settings.trifle * total, settings.withinErrors ** 2 * oneError);
    for (let j = 0; j < scale.length; j++)
      scale[j] = Math.max(scale[j]!, jacobian.getColumnVector(j).norm()) || 1;
    radius ??= FIRST_STEP * (scaledLength(values, scale) || 1);
    const free = freeUnknowns(unknowns, values, jacobian, residuals);
    if (free.length === 0 && isNear) return end(iteration, true, 'Every unknown rests on a bound.');

    for (;;) {
      const step = stepWithin(radius, jacobian, residuals, free, scale);
      const next = values.map((v, j) => clamp(v + step[j]!, unknowns[j]!));
      const moved = next.map((v, j) => v - values[j]!);
      const isSmall = moved.every((d, j) => Math.abs(d) <= settings.tolerance * Math.abs(values[j]!));
      const predicted = promised(residuals, jacobian, moved);
      const bottom = predicted <= trifle;
      const length = scaledLength(step, scale);
      const isWhole = length < SHORT * radius;
      if ((isSmall || bottom) && !isNear) {
        isTrusted = false;
        break;
      }
      if (isSmall)
        return end(iteration, true, 'The last step changed no unknown by more than the tolerance.');
      const nextResiduals = residualsAt(next);
      const nextTotal = sumOfSquares(nextResiduals);
      const gain = predicted > 0 && Number.isFinite(nextTotal) ? (total - nextTotal) / predicted : -1;
      if (gain > GOOD) radius = Math.max(radius, 2 * length);
      else isTrusted = false;
      if (gain < 0.25 && isHere) radius = length / (gain > 0 ? 2 : 4);
      if (gain > 1e-4) {
        [values, residuals, total] = [next, nextResiduals, nextTotal];
        settings.onStep?.(iteration, total);
      }
      // At the bottom rounding decides the sign of the change, so even a rejected step may end the search; one cut
      // short by the radius promises little for that reason alone.
      if (bottom && (isWhole || gain <= 1e-4))
        return end(iteration, true, 'No step lowers the sum of squares any further.');
      if (gain > 1e-4 || !isHere) break;
    }
  }
  return end(settings.maxIterations, false, `Stopped after ${settings.maxIterations} iterations.`);
}

/** Jδ. */
const changeOf = (jacobian: Matrix, step: Float64Array): Float64Array =>
  Float64Array.from({ length: jacobian.rows }, (_, i) =>
    step.reduce((sum, d, j) => sum + jacobian.get(i, j) * d, 0),
  );

/** Jacobian of the residuals by central differences, one-sided where a step is given; never leaves the bounds. */
export function differentiate(
  residualsAt: Residuals,
  unknowns: readonly Bounded[],
  values: Float64Array,
  residuals: Float64Array,
): Matrix {
  const jacobian = new Matrix(residuals.length, unknowns.length);
  unknowns.forEach((unknown, j) => {
    const { derivativeStep, start } = unknown;
    const h = derivativeStep ?? FINE_STEP * (Math.abs(values[j]!) || Math.abs(start) || 1);
    const here = { value: values[j]!, residuals };
    const beside = (value: number) => {
      const moved = values.slice();
      moved[j] = clamp(value, unknown);
      return moved[j] === here.value ? here : { value: moved[j]!, residuals: residualsAt(moved) };
    };
    const above = beside(here.value + h);
    const below = derivativeStep === undefined || above === here ? beside(here.value - h) : here;
    for (let i = 0; i < residuals.length; i++) {
      const slope = (above.residuals[i]! - below.residuals[i]!) / (above.value - below.value);
      // Where the model gives no number beside a good place, that reading says nothing about the direction.
      jacobian.set(i, j, Number.isFinite(slope) ? slope : 0);
    }
  });
  return jacobian;
}

function checkStart(unknowns: readonly Bounded[], residuals: Float64Array, total: number): void {
  if (residuals.length < unknowns.length)
    throw new TemperbookError('There are fewer readings than unknowns', {
      found: `${residuals.length} readings for ${unknowns.length} unknowns`,
      remedy: 'Fit fewer unknowns, give priors, or use more of the log',
    });
  if (!Number.isFinite(total))
    throw new TemperbookError('The model gives no number at the starting values', {
      found: unknowns.map((u) => `${u.name} = ${u.start}`).join(', '),
      remedy: 'Start from values the model can run with',
    });
}

const clamp = (value: number, { low = -Infinity, high = Infinity }: Bounded): number =>
  Math.min(Math.max(value, low), high);

/** Unknowns not pressed against a bound by the downhill direction. */
function freeUnknowns(
  unknowns: readonly Bounded[],
  values: Float64Array,
  jacobian: Matrix,
  residuals: Float64Array,
): number[] {
  return unknowns.flatMap(({ low, high }, j) => {
    const uphill = residuals.reduce((sum, r, i) => sum + jacobian.get(i, j) * r, 0);
    return (values[j] === low && uphill > 0) || (values[j] === high && uphill < 0) ? [] : [j];
  });
}

/** By how much a step lowers the sum of squares of the linearised residuals: Σ r² − Σ (r + Jδ)², without cancellation. */
function promised(residuals: Float64Array, jacobian: Matrix, step: Float64Array): number {
  const change = changeOf(jacobian, step);
  return residuals.reduce((sum, r, i) => sum - change[i]! * (2 * r + change[i]!), 0);
}
