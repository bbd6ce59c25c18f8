import { MM_PER_INCH } from '../../quantity';
import { KNOCK_DOWN_TABLE } from '../codes/hazKnockDownTable';
import type { ResistanceOptions } from '../weldedSection';

/**
 * Thicknesses at which a code's answer jumps, mm: limits of the rows of an alloy, the further reduction above 6 mm
 * (TIG) or 15 mm (MIG), the steps of the extent, and the 0.375 in of 4043 in the US. Between two of them more metal
 * never lowers the factor.
 */
export function codeSteps({ alloy, code }: ResistanceOptions): number[] {
  if (code === 'own tests' || code === 'AASHTO LTS') return [];
  if (code === 'Aluminum Design Manual') return [0.375 * MM_PER_INCH, 12.5];
  const rows = KNOCK_DOWN_TABLE.filter((row) => alloy.toUpperCase().includes(row.alloy));
  const steps = [6, 12, 15, 25, ...rows.flatMap(({ overMm, upToMm }) => [overMm, upToMm])];
  return [...new Set(steps)].filter((mm) => mm > 0).sort((a, b) => a - b);
}
