import { requireNumber, TemperbookError } from '../../quantity';
import { mean, standardDeviation, toleranceFactor } from '../../statistics';

/** Strengths of coupons of one procedure and what may be counted on. */
export interface CouponStrength {
  readonly count: number;
  readonly meanMPa: number;
  readonly standardDeviationMPa: number;
  /** With the confidence asked, at least the share asked lies above this, MPa: a characteristic value. */
  readonly characteristicMPa: number;
  readonly toleranceFactor: number;
  readonly lowestMPa: number;
  readonly because: readonly string[];
}

/**
 * Characteristic strength from coupons: mean − k s, k the one-sided tolerance factor (exact for a normal lot). Few
 * coupons are not refused, their factor says it: two give k = 20.6, five 3.4, ten 2.4 (90 % with 95 %).
 * Source: Natrella, NBS Handbook 91 (1963); ISO 16269-6. EN 1990 annex D takes 95 % with 75 %.
 * @throws TemperbookError for fewer than two coupons or strengths that cannot be.
 */
export function couponStrength(
  strengthsMPa: readonly number[],
  { content = 0.9, confidence = 0.95 }: { content?: number; confidence?: number } = {},
): CouponStrength {
  if (strengthsMPa.length < 2)
    throw new TemperbookError('One coupon shows no scatter', {
      found: `${strengthsMPa.length}`,
      expected: 'at least two, better five or more of each place',
    });
  for (const mpa of strengthsMPa) requireNumber(mpa, 'A coupon strength in MPa', { low: 5, high: 700 });
  const k = toleranceFactor({ readings: strengthsMPa.length, content, confidence });
  const [meanMPa, spread] = [mean(strengthsMPa), standardDeviation(strengthsMPa)];
  const characteristicMPa = meanMPa - k * spread;
  return {
    count: strengthsMPa.length,
    meanMPa,
    standardDeviationMPa: spread,
    characteristicMPa,
    toleranceFactor: k,
    lowestMPa: Math.min(...strengthsMPa),
    because: [
      `${strengthsMPa.length} coupons, mean ${meanMPa.toFixed(0)} MPa, scatter ${spread.toFixed(1)} MPa, factor ${k.toFixed(2)}.`,
      ...(characteristicMPa <= 0 ? ['Too few coupons for their scatter: nothing can be counted on.'] : []),
      'It holds for parts made as the coupons were: same lot of metal, filler, thickness, heat and fixing.',
    ],
  };
}

/** Least number of coupons so that mean − k s stays above what is needed, given an expected scatter; null above 100. */
export function couponsNeeded(
  expectation: { readonly meanMPa: number; readonly standardDeviationMPa: number },
  neededMPa: number,
  { content = 0.9, confidence = 0.95 }: { content?: number; confidence?: number } = {},
): number | null {
  const { meanMPa, standardDeviationMPa } = expectation;
  requireNumber(meanMPa, 'meanMPa', { low: 5, high: 700 });
  requireNumber(standardDeviationMPa, 'standardDeviationMPa', { low: 0.01, high: 300 });
  requireNumber(neededMPa, 'neededMPa', { low: 1, high: 700 });
  for (let readings = 2; readings <= 100; readings++)
    if (meanMPa - toleranceFactor({ readings, content, confidence }) * standardDeviationMPa >= neededMPa)
      return readings;
  return null;
}

/** One coupon set for one's own procedure. */
export interface CouponKind {
  readonly name: string;
  readonly shows: string;
  readonly least: number;
}

/** Which coupons a procedure of one's own asks for. Numbers are common practice, no source: codes may ask for others. */
export const COUPONS: readonly CouponKind[] = [
  {
    name: 'reduced section pulled across the weld',
    shows: 'the weakest of weld, bond and soft zone; where it broke',
    least: 5,
  },
  {
    name: 'strip along the soft zone, at the softest hardness',
    shows: 'yield of the soft metal, which a pull across hides',
    least: 3,
  },
  { name: 'face and root bend', shows: 'lack of fusion, pores, ductility', least: 2 },
  { name: 'polished cross-section with a hardness traverse', shows: 'extent of the soft zone', least: 1 },
  { name: 'metal of the casting away from the weld', shows: 'what the lot had before', least: 3 },
];

/** What a job has in common with the coupons, a number with its unit or a word, by name. */
export type Procedure = Readonly<Record<string, number | string>>;

/** What lies outside of what was tried. */
export interface TriedAnswer {
  readonly inside: boolean;
  readonly outside: readonly { readonly name: string; readonly found: string; readonly tried: string }[];
}

/**
 * Whether a job lies inside what the coupons tried: words must be among those tried, numbers between the least and
 * the most. What was never noted on a coupon, or is not said of the job, is outside.
 * @throws TemperbookError without coupons.
 */
export function insideTried(job: Procedure, tried: readonly Procedure[]): TriedAnswer {
  if (tried.length === 0)
    throw new TemperbookError('Nothing has been tried yet', { expected: 'at least one coupon' });
  const names = [...new Set([...Object.keys(job), ...tried.flatMap((coupon) => Object.keys(coupon))])];
  const outside = names.flatMap((name) => {
    const values = tried.map((coupon) => coupon[name]).filter((value) => value !== undefined);
    const own = job[name];
    const numbers = values.filter((value): value is number => typeof value === 'number');
    const range =
      numbers.length > 0 && numbers.length === values.length
        ? `${Math.min(...numbers)} to ${Math.max(...numbers)}`
        : [...new Set(values)].join(', ');
    const fits =
      own !== undefined &&
      (typeof own === 'number'
        ? numbers.length > 0 && own >= Math.min(...numbers) && own <= Math.max(...numbers)
        : values.includes(own));
    return fits
      ? []
      : [{ name, found: own === undefined ? 'not said' : String(own), tried: range || 'never noted' }];
  });
  return { inside: outside.length === 0, outside };
}
