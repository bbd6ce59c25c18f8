import { type EvidenceRow, type EvidenceStep, type MetalFamily, rowPrediction } from '../../kinetics';
import { stretchTo } from '../trust/clockFactor';

/** From 1/32 to 32 in steps of 1.78, between which medians are interpolated. */
const STRETCHES = Float64Array.from({ length: 13 }, (_, k) => 32 ** (k / 6 - 1));
/** Enough for a median. */
const MEMBERS = 40;

/**
 * By which factor the time of a row would have to be stretched for the members' median to meet what was measured:
 * above 1 the models are too slow. `null` for rows that give a side, for heat that moved nothing, and beyond 32.
 */
export function clockOfScore(row: EvidenceRow, family?: MetalFamily): number | null {
  const { kind, value, standardError } = row.measured;
  if (kind === 'peak') return rowPrediction(row, { count: MEMBERS, family })?.median ?? null;
  if (kind !== 'value' || row.unit !== 'fraction' || 1 - value < standardError) return null;
  const line = Array.from(STRETCHES, (stretch) => {
    const stretched = { ...row, exposure: row.exposure.map((step) => stretchedStep(step, stretch)) };
    return rowPrediction(stretched, { count: MEMBERS, family })?.median ?? Number.NaN;
  });
  return line.some(Number.isNaN) ? null : stretchTo(Float64Array.from(line), value, STRETCHES);
}

function stretchedStep(step: EvidenceStep, by: number): EvidenceStep {
  if ('tempC' in step) return { ...step, timeS: step.timeS * by };
  const { peakC, heatingCPerS, coolingTimeConstantS } = step.weldCycle;
  return {
    weldCycle: { peakC, heatingCPerS: heatingCPerS / by, coolingTimeConstantS: coolingTimeConstantS * by },
  };
}
