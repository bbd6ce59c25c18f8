import { inchesToMm } from '../../quantity';

/** Metric thicknesses that dealers usually hold, mm. Common practice, no source: give your dealer's own. */
export const STOCK_MM: readonly number[] = [
  1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 35, 40, 50, 60,
];

/** Inch thicknesses that dealers usually hold, as mm. Common practice, no source. */
export const STOCK_INCH_MM: readonly number[] = [
  0.049, 0.058, 0.065, 0.083, 0.095, 0.125, 0.1875, 0.25, 0.3125, 0.375, 0.5, 0.625, 0.75, 1, 1.25, 1.5, 2,
].map(inchesToMm);
