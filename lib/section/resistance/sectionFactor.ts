import { type Judged, judged, TemperbookError } from '../../quantity';
import { isSlender } from '../shape/localBuckling';
import type { Point } from '../shape/moments';
import type { Basis } from '../weldedSection';
import { compresses, type LoadableCheck } from './sectionCheck';
import { type LoadCase, loadCases, type SectionLoad } from './sectionLoad';
import type { WeldedResistance } from './weldedResistance';

/** How strengths are counted. */
export interface FactorBasis {
  readonly on: Basis;
  /** Divide by the code's own factors as well; characteristic strength alone unless asked. */
  readonly codeFactors?: boolean;
  /** Leave out checks the code does not ask for (a short soft zone that yields). */
  readonly onlyAsked?: boolean;
}

/** The factor of a section under its loads. */
export interface SectionFactor {
  /** Strength over load at the weakest check in the worst case; low and high from the load's own doubt. */
  readonly factor: Judged;
  readonly governs: {
    readonly check: string;
    readonly loadCase: string;
    readonly atMm: Point;
  };
  /** Every check under every load case. */
  readonly table: readonly CaseFactor[];
  /** Walls that would buckle before they yield where this load compresses them, and no check counts with that. */
  readonly slenderWalls: readonly string[];
}

/** One check in one load case. */
export interface CaseFactor {
  readonly check: string;
  readonly loadCase: string;
  readonly factor: number;
  readonly low: number;
  readonly high: number;
  readonly atMm: Point;
}

/**
 * How many times the loads may be taken: the least over all checks on the basis asked and all load cases. A load
 * doubted by d gives low factor/(1 + d) and high factor/(1 − d).
 * @throws TemperbookError for a basis the code does not give, or a twist on an outline with a sharp inner corner.
 */
export function sectionFactor(
  resistance: WeldedResistance,
  loads: SectionLoad | readonly SectionLoad[],
  { on, codeFactors = false, onlyAsked = false }: FactorBasis,
): SectionFactor {
  const cases = loadCases(loads, resistance.full);
  const checks = checksOn(resistance, on).filter((check) => check.askedByCode || !onlyAsked);
  const sharp = cases.some(({ torsionNmm }) => torsionNmm !== 0) ? resistance.torsion.sharpAtMm : undefined;
  if (sharp)
    throw new TemperbookError('A sharp inner corner has no bound on its stress under a twist', {
      found: `the corner at (${sharp.join(', ')}) mm`,
      remedy: 'Draw its radius as short edges that turn by at most 30° each',
    });
  const table = cases.flatMap((loadCase) => checks.map((check) => caseFactor(check, loadCase, codeFactors)));
  const worst = table.reduce((a, b) => (b.low < a.low ? b : a));
  const least = (end: 'factor' | 'high'): number => Math.min(...table.map((row) => row[end]));
  return {
    factor: judged(least('factor'), [worst.low, least('high')], '1', [
      `${worst.check} governs under ${worst.loadCase}.`,
      codeFactors
        ? "The code's own factors are divided out as well."
        : on === 'allowable'
          ? "Counted on the code's allowable stress, which holds a safety factor already."
          : 'Counted on characteristic strength, with no other factor.',
    ]),
    governs: { check: worst.check, loadCase: worst.loadCase, atMm: worst.atMm },
    table,
    slenderWalls: cases.some(compresses)
      ? resistance.localClasses.filter(isSlender).map(({ wall }) => wall)
      : [],
  };
}

/** Checks on a basis. @throws TemperbookError where the code has none on it. */
export function checksOn({ checks, options }: WeldedResistance, on: Basis): readonly LoadableCheck[] {
  const found = checks.filter((check) => check.on === on);
  if (found.length > 0) return found;
  const bases = [...new Set(checks.map((check) => check.on))];
  throw new TemperbookError(`${options.code} gives nothing to count on ${on}`, {
    found: `on: ${on}`,
    expected: `on: ${bases.join(' or ')}`,
    remedy:
      bases[0] === 'allowable'
        ? 'Its allowable stress holds a safety factor already; a factor on yield or rupture needs your own tests'
        : 'Ask a code that gives it, or give your own tests',
  });
}

function caseFactor(check: LoadableCheck, loadCase: LoadCase, codeFactors: boolean): CaseFactor {
  const { factor, atMm } = check.load(loadCase);
  const own = codeFactors ? factor / check.codeFactor : factor;
  const { doubtFraction, name } = loadCase;
  return {
    check: check.name,
    loadCase: name,
    factor: own,
    low: own / (1 + doubtFraction),
    high: own / (1 - doubtFraction),
    atMm,
  };
}
