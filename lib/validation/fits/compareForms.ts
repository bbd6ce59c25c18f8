import { type EvidenceRow, evidenceTable } from '../../kinetics';
import { GAS_CONSTANT, ZERO_C_IN_K } from '../../quantity';
import { type FitUnknown, leastSquares } from '../../statistics';

/** How one form of the softening curve meets the handbook's rows. */
export interface FormScore {
  readonly form: string;
  readonly formula: string;
  readonly unknowns: number;
  /** Root mean square of the rows fitted, and of rows at temperatures left out of the fit, one after the other. */
  readonly rms: number;
  readonly leftOutRms: number;
  /** What the fit says of 10 s at 300 °C, where nothing was measured. */
  readonly keptAfter10sAt300C: number;
}

interface Form {
  readonly form: string;
  readonly formula: string;
  readonly extra: readonly FitUnknown[];
  /** Share of the hardening left for ln x, x the equivalent time over its scale; p: power and what is extra. */
  readonly left: (lnX: number, p: ArrayLike<number>, tempC: number) => number;
}

const POWER = 2;
const EXTRA = 4;

/** The forms that were tried; the first was chosen. */
const FORMS: readonly Form[] = [
  {
    form: 'logistic in ln t',
    formula: '1/(1 + xᵐ)',
    extra: [],
    left: (lnX, p) => 1 / (1 + Math.exp(p[POWER]! * lnX)),
  },
  {
    form: 'stretched exponential',
    formula: 'exp(−xᵐ)',
    extra: [],
    left: (lnX, p) => Math.exp(-Math.exp(p[POWER]! * lnX)),
  },
  {
    form: 'coarsening',
    formula: '(1 + x)^−m',
    extra: [],
    left: (lnX, p) => (1 + Math.exp(lnX)) ** -p[POWER]!,
  },
  {
    form: 'onset free',
    formula: '(1 + xᵃ)^(−m/a)',
    extra: [{ name: 'a', start: 0.4, low: 0.15, high: 2 }],
    left: (lnX, p) => (1 + Math.exp(p[EXTRA]! * lnX)) ** (-p[POWER]! / p[EXTRA]!),
  },
  {
    form: 'width changes with temperature',
    formula: '1/(1 + x^(m + b (T − 500 K)/100 K))',
    extra: [{ name: 'b', start: 0, low: -0.2, high: 0.2 }],
    left: (lnX, p, tempC) =>
      1 / (1 + Math.exp(Math.max(0.02, p[POWER]! + (p[EXTRA]! * (tempC + ZERO_C_IN_K - 500)) / 100) * lnX)),
  },
];

const UNKNOWNS: readonly FitUnknown[] = [
  { name: 'energy in 100 kJ/mol', start: 2.15, low: 0.8, high: 3.5 },
  { name: 'ln time at 200 °C', start: 14.5, low: 3, high: 25 },
  { name: 'power', start: 0.35, low: 0.02, high: 3 },
  // 6061-O has 0.20 of T6; no floor may lie far below it.
  { name: 'floor', start: 0.2, low: 0.12, high: 0.35 },
];

/** Every form of the softening curve that was tried, on the fitted handbook rows alone. */
export function compareForms(evidence: readonly EvidenceRow[] = evidenceTable()): readonly FormScore[] {
  const rows = evidence.flatMap(({ id, use, exposure, measured }) => {
    const step = exposure[0];
    return id.startsWith('6061-handbook-yield') && use === 'fit' && step && 'tempC' in step
      ? [{ ...step, kept: measured.value }]
      : [];
  });
  const temps = [...new Set(rows.map(({ tempC }) => tempC))];
  const rootMeanSquare = (errors: readonly number[]): number =>
    Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length);

  return FORMS.map(({ form, formula, extra, left }) => {
    const kept = (p: ArrayLike<number>, tempC: number, timeS: number): number => {
      const lnX =
        Math.log(timeS) -
        p[1]! -
        ((1e5 * p[0]!) / GAS_CONSTANT) * (1 / (tempC + ZERO_C_IN_K) - 1 / (200 + ZERO_C_IN_K));
      return p[3]! + (1 - p[3]!) * left(lnX, p, tempC);
    };
    const fitTo = (used: typeof rows): number[] =>
      leastSquares(
        (p) => Float64Array.from(used, (r) => (r.kept - kept(p, r.tempC, r.timeS)) / 0.03),
        [...UNKNOWNS, ...extra],
        { noise: 'unit', tolerance: 1e-6 },
      ).unknowns.map(({ value }) => value);
    const error = (p: readonly number[]) => (r: (typeof rows)[number]) => r.kept - kept(p, r.tempC, r.timeS);
    const all = fitTo(rows);
    const leftOut = temps.flatMap((tempC) => {
      const p = fitTo(rows.filter((r) => r.tempC !== tempC));
      return rows.filter((r) => r.tempC === tempC).map(error(p));
    });
    return {
      form,
      formula,
      unknowns: UNKNOWNS.length + extra.length,
      rms: rootMeanSquare(rows.map(error(all))),
      leftOutRms: rootMeanSquare(leftOut),
      keptAfter10sAt300C: kept(all, 300, 10),
    };
  });
}
