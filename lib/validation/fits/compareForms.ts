import { type EvidenceRow, evidenceTable } from '../../kinetics';
import { GAS_CONSTANT, ZERO_C_IN_K } from '../../quantity';
import { censoredResidual, type FitUnknown, leastSquares } from '../../statistics';

/** How one form of the softening curve meets the fitted rows of aged wrought metal. */
export interface FormScore {
  readonly form: string;
  readonly formula: string;
  readonly unknowns: number;
  /** Root mean square over the handbook's fitted rows, and over those at temperatures left out one after the other. */
  readonly rms: number;
  readonly leftOutRms: number;
  /**
   * Every lot left out whole: mean over the lots of the mean square in standard errors, the scatter between lots among
   * them. Without the handbook only sides and one value are left, so it says little of the form.
   */
  readonly lotsLeftOut: number;
  /** What the fit says of 10 s at 300 °C, where nothing was measured. */
  readonly keptAfter10sAt300C: number;
}

interface Form {
  readonly form: string;
  readonly formula: string;
  readonly extra: readonly FitUnknown[];
  /** Share of the hardening left for ln x, x the equivalent time over its scale; p: power and what is extra. */
  readonly left: (lnX: number, p: ArrayLike<number>, soak: Soak) => number;
}

interface Soak {
  readonly tempC: number;
  readonly timeS: number;
}

const POWER = 2;
const EXTRA = 4;

/** Dissolution beside the curve, with the constants of `fitPriors`: 165 s at 375 °C, 190 kJ/mol, all above 415 °C. */
const DISSOLVES = { timeS: 165, atK: 375 + ZERO_C_IN_K, jPerMol: 190_000, solvusK: 415 + ZERO_C_IN_K };
/** What solute in solution is worth of the hardening: 6061 as quenched 92 MPa, annealed 54, T6 276. */
const SOLUTE = 38 / 222;
/** Heat of solution beside particles of 5 nm, J/mol. */
const FINE_SOLVUS = 37_000;

const logistic = (lnX: number, p: ArrayLike<number>): number => 1 / (1 + Math.exp(p[POWER]! * lnX));

/** Share dissolved after a soak, as far as the solvus allows. */
function dissolved({ tempC, timeS }: Soak, solvusJPerMol: number): number {
  const inverseK = 1 / (tempC + ZERO_C_IN_K);
  const { timeS: fullS, atK, jPerMol, solvusK } = DISSOLVES;
  const full = fullS * Math.exp((jPerMol / GAS_CONSTANT) * (inverseK - 1 / atK));
  const room = Math.exp((solvusJPerMol / GAS_CONSTANT) * (1 / solvusK - inverseK));
  return Math.min(1, room, Math.sqrt(timeS / full));
}

/** The forms that were tried; the first is what the members have. */
const FORMS: readonly Form[] = [
  {
    form: 'logistic and dissolution, heat of solution free',
    formula: '(1 − X)/(1 + xᵐ) + s X, X ≤ exp[−Qs/R (1/T − 1/Ts)]',
    extra: [
      {
        name: 'heat of solution in kJ/mol',
        start: 43,
        low: 30,
        high: 65,
        prior: { value: 43, standardError: 6 },
      },
    ],
    left: (lnX, p, soak) => {
      const loose = dissolved(soak, 1000 * p[EXTRA]!);
      return (1 - loose) * logistic(lnX, p) + SOLUTE * loose;
    },
  },
  {
    form: 'logistic and dissolution, 37 kJ/mol',
    formula: 'the same, Qs that of 5 nm particles',
    extra: [],
    left: (lnX, p, soak) => {
      const loose = dissolved(soak, FINE_SOLVUS);
      return (1 - loose) * logistic(lnX, p) + SOLUTE * loose;
    },
  },
  {
    form: 'solubility falls as particles coarsen',
    formula: 'the same, X times 1 − g (1 − S)',
    extra: [{ name: 'g', start: 0.5, low: 0, high: 1, prior: { value: 0.5, standardError: 0.3 } }],
    left: (lnX, p, soak) => {
      const left = logistic(lnX, p);
      const loose = dissolved(soak, FINE_SOLVUS) * (1 - p[EXTRA]! * (1 - left));
      return (1 - loose) * left + SOLUTE * loose;
    },
  },
  {
    form: 'the greater loss counts',
    formula: 'min(1 − X, S) + s X',
    extra: [],
    left: (lnX, p, soak) => {
      const loose = dissolved(soak, FINE_SOLVUS);
      return Math.min(1 - loose, logistic(lnX, p)) + SOLUTE * loose;
    },
  },
  {
    form: 'solute is worth nothing',
    formula: '(1 − X)/(1 + xᵐ)',
    extra: [],
    left: (lnX, p, soak) => (1 - dissolved(soak, FINE_SOLVUS)) * logistic(lnX, p),
  },
  { form: 'logistic alone', formula: '1/(1 + xᵐ)', extra: [], left: logistic },
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
    left: (lnX, p, { tempC }) =>
      1 / (1 + Math.exp(Math.max(0.02, p[POWER]! + (p[EXTRA]! * (tempC + ZERO_C_IN_K - 500)) / 100) * lnX)),
  },
];

const UNKNOWNS: readonly FitUnknown[] = [
  {
    name: 'energy in 100 kJ/mol',
    start: 2.15,
    low: 0.8,
    high: 3.5,
    prior: { value: 2, standardError: 0.6 },
  },
  { name: 'ln time at 200 °C', start: 14.5, low: 3, high: 25, prior: { value: 14.5, standardError: 4 } },
  { name: 'power', start: 0.35, low: 0.02, high: 3, prior: { value: 0.4, standardError: 0.3 } },
  // 6061-O has 0.20 of T6; no floor may lie far below it.
  { name: 'floor', start: 0.2, low: 0.12, high: 0.35, prior: { value: 0.195, standardError: 0.022 } },
];

/** Scatter between lots that a prediction of an unseen one carries, ln time. */
const LOT_SCATTER_LN = 0.6;

interface SoakRow extends Soak {
  readonly lot: string;
  readonly isHandbook: boolean;
  readonly kind: 'value' | 'atLeast' | 'below';
  readonly kept: number;
  readonly standardError: number;
}

/** Every form of the softening curve that was tried, on the fitted rows of wrought T6 held at one temperature. */
export function compareForms(evidence: readonly EvidenceRow[] = evidenceTable()): readonly FormScore[] {
  const rows = evidence.flatMap(soakRow);
  const handbook = rows.filter(({ isHandbook }) => isHandbook);
  return FORMS.map((form) => {
    const all = fitTo(form, handbook);
    const leftOut = groups(handbook, ({ tempC }) => tempC).flatMap((group) => {
      const p = fitTo(
        form,
        handbook.filter((row) => !group.includes(row)),
      );
      return group.map((row) => row.kept - keptOf(form, p, row));
    });
    const lots = groups(rows, ({ lot }) => lot).map((group) => {
      const p = fitTo(
        form,
        rows.filter((row) => !group.includes(row)),
      );
      return meanSquare(group.map((row) => residual(form, p, row, LOT_SCATTER_LN)));
    });
    return {
      form: form.form,
      formula: form.formula,
      unknowns: UNKNOWNS.length + form.extra.length,
      rms: Math.sqrt(meanSquare(handbook.map((row) => row.kept - keptOf(form, all, row)))),
      leftOutRms: Math.sqrt(meanSquare(leftOut)),
      lotsLeftOut: lots.reduce((sum, square) => sum + square, 0) / lots.length,
      keptAfter10sAt300C: keptOf(form, all, { tempC: 300, timeS: 10 }),
    };
  });
}

function soakRow({
  id,
  use,
  set,
  property,
  unit,
  temper,
  alloys,
  exposure,
  measured,
  lot,
}: EvidenceRow): SoakRow[] {
  const [step, ...more] = exposure;
  if (use !== 'fit' || property !== 'yield' || unit !== 'fraction' || temper !== 'T6') return [];
  if (step === undefined || 'weldCycle' in step || more.length > 0 || measured.kind === 'peak') return [];
  if (alloys[0]!.includes('356') || (set !== 'softening' && set !== 'short')) return [];
  const { kind, value: kept, standardError } = measured;
  return [{ ...step, lot, isHandbook: id.startsWith('6061-handbook'), kind, kept, standardError }];
}

function fitTo(form: Form, rows: readonly SoakRow[]): number[] {
  return leastSquares(
    (p) => Float64Array.from(rows, (row) => residual(form, p, row, 0)),
    [...UNKNOWNS, ...form.extra],
    { noise: 'unit', tolerance: 1e-6 },
  ).unknowns.map(({ value }) => value);
}

function keptOf({ left }: Form, p: ArrayLike<number>, soak: Soak): number {
  const lnX =
    Math.log(soak.timeS) -
    p[1]! -
    ((1e5 * p[0]!) / GAS_CONSTANT) * (1 / (soak.tempC + ZERO_C_IN_K) - 1 / (200 + ZERO_C_IN_K));
  return p[3]! + (1 - p[3]!) * left(lnX, p, soak);
}

/** Measured less predicted in standard errors, which grow by what a scatter of the clock makes of the strength. */
function residual(form: Form, p: ArrayLike<number>, row: SoakRow, scatterLn: number): number {
  const kept = keptOf(form, p, row);
  const perLn = (kept - keptOf(form, p, { ...row, timeS: row.timeS * Math.E ** 0.1 })) / 0.1;
  return censoredResidual(kept, row.kind, row.kept, Math.hypot(row.standardError, perLn * scatterLn));
}

function groups<Row>(rows: readonly Row[], keyOf: (row: Row) => unknown): Row[][] {
  return [...new Set(rows.map(keyOf))].map((key) => rows.filter((row) => keyOf(row) === key));
}

const meanSquare = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value * value, 0) / values.length;
