import { type EvidenceRow, evidenceTable } from '../../evidence';
import { DRAW_COLUMNS, type MemberDraw } from '../memberDraw';
import type { MetalFamily } from '../plausibleMetal';
import {
  type FittedName,
  fitPriors,
  HANDBOOK_CLOCK_SD,
  HANDBOOK_LOT,
  HANDBOOK_SHARED,
  logPrior,
  type Prior,
  SCATTER_SCALE,
} from './fitPriors';
import { ageingErrorOf, predictRow, type ReadyRow, readyRow, rowResidual } from './fitRows';

/** The density that the members are drawn from: constants of the family, scatter between lots, a clock for every lot. */
export interface MetalPosterior {
  readonly family: MetalFamily;
  /** Names of the unknowns in their order: constants, `ln scatter`, then 'lot …'. */
  readonly names: readonly string[];
  readonly start: Float64Array;
  readonly scale: Float64Array;
  readonly logDensity: (x: Float64Array) => number;
  readonly drawOf: (x: Float64Array) => MemberDraw;
  readonly rows: readonly ReadyRow[];
  /** Clock of a row's lot in a draw of the posterior, ln time. */
  readonly lotClock: (x: Float64Array, lot: string) => number;
}

/** Rows that the fit reads: yields of aged tempers, and ageing from the quench or from as cast. */
export const isFitted = ({ use, property, temper, set }: EvidenceRow): boolean =>
  use === 'fit' &&
  property === 'yield' &&
  (set === 'softening' || set === 'short' ? temper.startsWith('T6') : set === 'ageing');

/** A good place to start a chain from. */
const START: Readonly<Partial<Record<FittedName, number>>> = { softenKJ: 215, softenLn: 15.4, power: 0.35 };

/**
 * Hierarchical posterior of the metals of one family, given evidence:
 *
 *  - a row is normal about the prediction of its lot, or a bound (`censoredResidual`);
 *  - the clock of a lot is normal about that of its alloy with the scatter between lots, half-normal itself; the
 *    handbook's composite lies close to the population, and its errors at one temperature go together;
 *  - rows of ageing have no clock of their lot: what its scatter makes of them is part of their error.
 */
export function metalPosterior(
  family: MetalFamily,
  evidence: readonly EvidenceRow[] = evidenceTable(),
): MetalPosterior {
  const rows = evidence.filter(isFitted).map(readyRow);
  const priors = Object.entries(fitPriors(family)) as [FittedName, Prior][];
  const lots = [...new Set(rows.filter(({ row }) => row.set !== 'ageing').map(({ row }) => row.lot))].sort();
  const scatterAt = priors.length;
  const lotAt = new Map(lots.map((lot, k) => [lot, scatterAt + 1 + k]));
  const names = [...priors.map(([name]) => name), 'ln scatter', ...lots.map((lot) => `lot ${lot}`)];
  const blank = Object.fromEntries(DRAW_COLUMNS.map((column) => [column, 0])) as unknown as Record<
    string,
    number
  >;

  const drawOf = (x: Float64Array): MemberDraw => {
    const draw = {
      ...blank,
      delayed: family === 'delayed' ? 1 : 0,
      coarseCatch: 1.2,
      restLn: Math.log(3),
      clusterLn: 13.3,
      clusterKJ: 65,
    };
    for (let k = 0; k < priors.length; k++) (draw as Record<string, number>)[priors[k]![0]] = x[k]!;
    (draw as Record<string, number>).scatter = Math.exp(x[scatterAt]!);
    return draw as unknown as MemberDraw;
  };
  // A lot's clock is sampled as a standard score: with few rows a lot, the chain then moves freely in the scatter.
  const lotClock = (x: Float64Array, lot: string): number => {
    const at = lotAt.get(lot);
    return at === undefined
      ? 0
      : x[at]! * (lot === HANDBOOK_LOT ? HANDBOOK_CLOCK_SD : Math.exp(x[scatterAt]!));
  };

  const middle = drawOf(Float64Array.from(names, (_, k) => priors[k]?.[1].mean ?? 0));
  const ageingError = new Map(
    rows.filter(({ row }) => row.set === 'ageing').map((ready) => [ready, ageingErrorOf(ready, middle)]),
  );

  const logDensity = (x: Float64Array): number => {
    let log = 0;
    for (let k = 0; k < priors.length; k++) {
      log += logPrior(priors[k]![1], x[k]!);
      if (log === Number.NEGATIVE_INFINITY) return log;
    }
    const scatter = Math.exp(x[scatterAt]!);
    // Half-normal in the scatter, which is sampled by its logarithm: + ln scatter.
    log += -((scatter / SCATTER_SCALE) ** 2) / 2 + x[scatterAt]!;
    for (const at of lotAt.values()) log -= x[at]! ** 2 / 2;
    const draw = drawOf(x);
    const handbook = new Map<number, number[]>();
    for (const ready of rows) {
      const { lot, exposure } = ready.row;
      const residual = rowResidual(
        ready,
        predictRow(draw, ready, lotClock(x, lot)),
        ageingError.get(ready) ?? 0,
      );
      if (lot === HANDBOOK_LOT) {
        const step = exposure[0]!;
        const at = 'tempC' in step ? step.tempC : 0;
        handbook.set(at, [...(handbook.get(at) ?? []), residual]);
      } else log -= residual ** 2 / 2;
    }
    for (const residuals of handbook.values()) log -= correlatedSquares(residuals, HANDBOOK_SHARED ** 2) / 2;
    return log;
  };

  return {
    family,
    names,
    start: Float64Array.from([
      ...priors.map(([name, { mean }]) => START[name] ?? mean),
      Math.log(0.6),
      ...lots.map(() => 0),
    ]),
    scale: Float64Array.from([...priors.map(([, { sd }]) => sd / 4), 0.3, ...lots.map(() => 0.5)]),
    logDensity,
    drawOf,
    rows,
    lotClock,
  };
}

/**
 * Σ r² of residuals in units of their standard errors that share a part c of their variance: with the covariance
 * (1 − c) 1 + c J, whose inverse is known, [Σ r² − c (Σ r)²/(1 − c + n c)]/(1 − c).
 */
export function correlatedSquares(residuals: readonly number[], shared: number): number {
  let squares = 0;
  let sum = 0;
  for (const r of residuals) {
    squares += r * r;
    sum += r;
  }
  return (squares - (shared * sum * sum) / (1 - shared + residuals.length * shared)) / (1 - shared);
}
