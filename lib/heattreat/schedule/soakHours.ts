import { requireNumber } from '../../quantity';
import { BY_THICKNESS, type HoldStage } from './schedule';

/**
 * Solution soak of wrought metal in an air furnace: up to so many mm, so many minutes. Source: ASM Handbook
 * vol. 4 (1991), soak times for solution treatment; same structure as SAE AMS 2770 and MIL-H-6088G. The values
 * at 1 mm, at 6.35 to 12.7 mm and the step beyond were seen, the others are from memory; editions differ by up
 * to 10 min between 2.3 and 6.35 mm.
 */
const AIR_MINUTES: readonly (readonly [upToMm: number, minutes: number])[] = [
  [0.41, 20],
  [0.51, 20],
  [0.81, 25],
  [1.6, 30],
  [2.29, 35],
  [3.18, 40],
  [6.35, 55],
  [12.7, 65],
];
const STEP_MM = 12.7;
const STEP_MINUTES = 30;

/**
 * Least soak of wrought metal in air, h. Thickness: the thinnest dimension of the heaviest section, mm. So 20 mm
 * is one started step beyond 12.7 mm.
 * @throws TemperbookError on a thickness that is not positive or above 300 mm.
 * @example 60 * soakHours(20) // 95
 */
export function soakHours(thicknessMm: number): number {
  requireNumber(thicknessMm, 'Thickness in mm', { low: 0.05, high: 300 });
  const row = AIR_MINUTES.find(([upToMm]) => thicknessMm <= upToMm);
  if (row) return row[1] / 60;
  const [lastMm, lastMinutes] = AIR_MINUTES[AIR_MINUTES.length - 1]!;
  // Five significant digits keep 25.4 mm one step and not two.
  const steps = Math.ceil(Number(((thicknessMm - lastMm) / STEP_MM).toPrecision(5)));
  return (lastMinutes + STEP_MINUTES * steps) / 60;
}

/** Least time of a hold, s: one value, or from that of the thinnest metal up where the thickness is not said. */
export function leastSeconds(
  { leastH }: Pick<HoldStage, 'leastH'>,
  thicknessMm: number | undefined,
): { readonly low: number; readonly high: number } {
  if (leastH !== BY_THICKNESS) return { low: leastH * 3600, high: leastH * 3600 };
  if (thicknessMm === undefined) return { low: AIR_MINUTES[0]![1] * 60, high: Number.POSITIVE_INFINITY };
  const s = soakHours(thicknessMm) * 3600;
  return { low: s, high: s };
}
