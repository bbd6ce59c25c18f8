import { knownOptions, requireNumber, TemperbookError } from '../../quantity';
import type { Attachment } from '../../thermocouple';
import type { ReadingKind } from '../reading';
import { SCALES } from '../reading';

/** What a coupon is dipped into, and how thick it is: its own lag swallows seconds. */
export interface Dip {
  /** Of the bath or furnace, °C. */
  readonly tempC: number;
  /** From the moment it went in until it came out and into cold water, s. */
  readonly timeS: number;
  readonly into: 'salt' | 'oil' | 'furnace';
  readonly thicknessMm: number;
  /** How far the bath may be off, ± K; default 5. */
  readonly toleranceK?: number;
}

/** A log of a probe on the coupon itself, which has the lag in it. */
export interface CouponLog {
  readonly timeS: readonly number[];
  readonly tempC: readonly number[];
  /** How the probe is fixed; default the loosest. */
  readonly attachment?: Attachment;
}

/** A piece of a lot, heated once and read before and after. */
export interface Coupon {
  readonly name: string;
  readonly heat: Dip | CouponLog;
  readonly kind: ReadingKind;
  /** Means of what was read before and after the heat, in the unit of the kind. */
  readonly before: number;
  readonly after: number;
  /** Of `after` less the scatter of `before`, from the readings; default what instrument and coupon repeat to. */
  readonly standardUncertainty?: number;
}

const COUPON = ['name', 'heat', 'kind', 'before', 'after', 'standardUncertainty'];
const DIP = ['tempC', 'timeS', 'into', 'thicknessMm', 'toleranceK'];
const LOG = ['timeS', 'tempC', 'attachment'];

/** Said with every coupon that goes into a bath. */
export const COUPON_CAUTIONS: readonly string[] = [
  'Coupons must be dry, clean and free of oil before they go near a salt bath: trapped water turns to steam explosively. Nitrate salt attacks alloys high in magnesium and must not be overheated.',
  'An oil bath can boil over and catch fire: stay well below its flash point, keep water away and a lid at hand. Hot coupons splash and steam in the quench.',
  'Work to the safety rules of the bath’s supplier and of your shop, with face shield, gloves and apron.',
];

/** @throws TemperbookError naming the coupon and what is wrong with it. */
export function checkCoupon(given: Coupon): Coupon {
  const coupon = knownOptions(given, COUPON, 'A coupon');
  const { name, heat, kind, before, after, standardUncertainty } = coupon;
  const scale = SCALES[kind];
  if (!scale)
    throw new TemperbookError(`The coupon "${name}" is read in a way there is not`, {
      found: `"${kind}"`,
      expected: `one of ${Object.keys(SCALES).join(', ')}`,
    });
  for (const [when, value] of [
    ['before', before],
    ['after', after],
  ] as const)
    requireNumber(
      value,
      `The ${scale.words} reading of the coupon "${name}" ${when} the heat, ${scale.unit},`,
      scale,
    );
  if (standardUncertainty !== undefined)
    requireNumber(standardUncertainty, `The standard uncertainty of the coupon "${name}"`, {
      low: Number.MIN_VALUE,
    });
  if ('into' in heat) {
    knownOptions(heat, DIP, `The dip of the coupon "${name}"`);
    requireNumber(heat.tempC, `The bath of the coupon "${name}" in °C`, { low: 100, high: 580 });
    requireNumber(heat.timeS, `The dip of the coupon "${name}" in s`, { low: 1, high: 1e7 });
    requireNumber(heat.thicknessMm, `The thickness of the coupon "${name}" in mm`, { low: 0.5, high: 50 });
    requireNumber(heat.toleranceK ?? 5, `The tolerance of the bath of "${name}" in K`, { low: 0, high: 50 });
    return coupon;
  }
  knownOptions(heat, LOG, `The log of the coupon "${name}"`);
  return coupon;
}
