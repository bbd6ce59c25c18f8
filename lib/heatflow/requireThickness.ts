import { requireNumber, TemperbookError } from '../quantity';

/** No plate is thinner, mm; 3 mm given in metres is. */
const THINNEST_MM = 0.1;

/** @throws TemperbookError for a thickness below 0.1 mm or above 10 m. */
export function requireThickness(thicknessMm: number, name = 'thicknessMm'): number {
  requireNumber(thicknessMm, name, { low: 0, high: 1e4 });
  if (thicknessMm >= THINNEST_MM) return thicknessMm;
  throw new TemperbookError(`${name} is thinner than any plate`, {
    found: `${thicknessMm} mm`,
    expected: `${THINNEST_MM} mm or more`,
    remedy: 'Check the unit: mm',
  });
}
