import { resample, type ThermalHistory } from '../history';
import { samplingLoss } from './samplingLoss';

/** Intervals loggers are set to, slowest first, s. */
const USUAL_S = [60, 30, 10, 5, 2, 1, 0.5, 0.2, 0.1] as const;

/** What a logger may miss and still be fast enough. */
export interface SamplingNeed {
  readonly activationEnergyJPerMol: number;
  /** Height of the peak between two readings, K; default 2. */
  readonly peakK?: number;
  /** Share of the exposure; default 0.02. */
  readonly exposureFraction?: number;
}

/**
 * The slowest usual logger interval that still follows a history, s, by `samplingLoss` at its bounds; `undefined`
 * when ten readings a second are too few. For planning: give it the history a plan predicts.
 * @throws TemperbookError on a history that breaks its promises or an activation energy out of range.
 */
export function slowestInterval(
  history: ThermalHistory,
  { activationEnergyJPerMol, peakK = 2, exposureFraction = 0.02 }: SamplingNeed,
): number | undefined {
  return USUAL_S.find((intervalS) => {
    const read = resample(history, intervalS);
    if (read.timeS.length < 3) return false;
    const loss = samplingLoss(read, activationEnergyJPerMol);
    return (
      !loss.tooSlow && loss.missedPeakK.high <= peakK && loss.missedExposureFraction.high <= exposureFraction
    );
  });
}
