import type { AlloyLike } from '../../kinetics';
import {
  type AgeingProgress,
  type AgeingShape,
  advanceProgress,
  ageingShape,
  ageingYieldMPa,
  ageingYieldSlopeMPa,
  NOT_AGED,
  resolveAlloy,
  soakStep,
} from '../../kinetics';
import { TemperbookError } from '../../quantity';
import { censoredResidual } from '../../statistics';
import { type AgeingRow, ageingEvidence } from '../evidence/ageingEvidence';

/** One measured fact beside what the ageing curve says of it. */
export interface AgeingResidual {
  readonly row: AgeingRow;
  /** Yield of the curve, MPa; for a peak, the curve's peak time over the measured one. */
  readonly nominal: number;
  /** Measured minus nominal in standard errors; see `censoredResidual`. */
  readonly residual: number;
}

/** Every measured fact for an alloy against its card's ageing curve. */
export function ageingResiduals(alloy: AlloyLike): readonly AgeingResidual[] {
  const card = resolveAlloy(alloy, 'ageing curve');
  if (!card.ageing)
    throw new TemperbookError(`The card of ${card.designation} has no constants of the ageing curve`);
  const shape = ageingShape(card.ageing);
  return ageingEvidence(card.designation).map((row) => ({ row, ...ageingRowResidual(row, shape) }));
}

/** Prediction and residual of one fact for trial constants. */
export function ageingRowResidual(
  { exposure, measured }: AgeingRow,
  shape: AgeingShape,
): { readonly nominal: number; readonly residual: number } {
  if (measured.kind === 'peak') {
    const { tempC, timeS } = exposure[exposure.length - 1]!;
    const nominal = agePeakTimeS(shape, tempC) / timeS;
    return { nominal, residual: -Math.log(nominal) / measured.standardError };
  }
  const nominal = ageingYieldMPa(shape, soak(shape, exposure));
  const kind = measured.kind === 'yield' ? 'value' : measured.kind;
  return { nominal, residual: censoredResidual(nominal, kind, measured.yieldMPa, measured.standardError) };
}

/**
 * Time to peak yield at one temperature from the quenched state, s, between 1 s and 10¹⁰ s, by halving where the
 * slope changes sign. To rounding: a search of the flat top itself is good to √ε at best, and a fit that
 * differentiates such a time by small steps stops where its noise lies, not at the minimum.
 */
export function agePeakTimeS(shape: AgeingShape, tempC: number): number {
  const { correctedTime: perSecond, capacity } = soak(shape, [{ tempC, timeS: 1 }]);
  let low = 0;
  let high = Math.log(1e10);
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return Math.exp(middle);
    const correctedTime = perSecond * Math.exp(middle);
    if (ageingYieldSlopeMPa(shape, { correctedTime, capacity }) > 0) low = middle;
    else high = middle;
  }
}

const soak = (shape: AgeingShape, exposure: AgeingRow['exposure']): AgeingProgress =>
  exposure.reduce(
    (progress, { tempC, timeS }) => advanceProgress(shape, progress, soakStep(tempC, timeS)),
    NOT_AGED,
  );
