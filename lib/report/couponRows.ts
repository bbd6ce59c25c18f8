import type { CouponAnswer } from '../verify';
import type { ResidualRow } from './residualRow';
import type { TableRow } from './table';

/** One row per coupon: what was read, and what the metal let expect before the coupons and after them. */
export function couponRows({ predictions }: Pick<CouponAnswer, 'predictions'>): TableRow[] {
  return predictions.map(({ name, unit, measured, expected, after }) => ({
    Coupon: name,
    Read: `${measured} ${unit}`,
    'Expected before any coupon': bandText(expected),
    'By all coupons together': bandText(after),
  }));
}

const bandText = ([low, middle, high]: readonly [number, number, number]): string =>
  `${middle.toFixed(0)} (${low.toFixed(0)}–${high.toFixed(0)})`;

/** The same for a picture (`residualFigure`), of the coupons read in one unit. */
export function couponResidualRows(
  { predictions }: Pick<CouponAnswer, 'predictions'>,
  unit: string,
): ResidualRow[] {
  return predictions
    .filter((one) => one.unit === unit)
    .map(({ name, measured, expected, after }) => ({
      label: name,
      measured,
      models: [modelOf('before any coupon', expected), modelOf('by all coupons together', after)],
    }));
}

const modelOf = (name: string, [low, nominal, high]: readonly [number, number, number]) => ({
  name,
  nominal,
  low,
  high,
});
