import type { ThermalHistory } from '../../history';
import { formatDuration } from '../../quantity';
import type { BlindTime, Doubt } from '../exposure';
import { samplingLoss } from '../samplingLoss';
import type { ProbeRecord } from './probe';

/** Readings further apart than this let a weld pass come and go unseen, s. */
export const SLOWEST_FOR_A_PASS_S = 10;
/**
 * The mean of a parabola over an interval Δt lies |T″| Δt²/24 below its top, on top of the |T″| Δt²/8 a reading at the
 * worst moment misses: 4/3 of it.
 */
const MEANS_HIDE = 4 / 3;

/** What the readings' interval leaves open. */
export interface IntervalFindings {
  /** Height of a peak that the readings may hide above the hottest one, K. */
  readonly missedPeakK: number;
  readonly blind: readonly BlindTime[];
  readonly because: readonly string[];
}

/**
 * What came and went between two readings. Readings close enough to follow the trace hide a peak that its own curvature
 * bounds (`samplingLoss`). Readings too far apart for that, or further apart than a weld pass lasts, bound nothing: that
 * time is blind, unless the log is an oven's. Readings that stayed cool are no excuse: 15 kJ set down at a spot of thick
 * metal leave E/(ρc) · 2/(4πDt)^1.5 = 1.3 K there after a minute (ρc 2.4 MJ/m³K, D 6 · 10⁻⁵ m²/s; point source on a half-space,
 * H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 10.2).
 */
export function betweenReadings({ history, probe }: ProbeRecord): IntervalFindings {
  const slow = probe.isOven ? [] : slowTime(history);
  const { missedPeakK, tooSlow } = samplingLoss(history, 130_000);
  const { timeS } = history;
  const outrun: BlindTime[] =
    tooSlow && slow.length === 0 && !probe.isOven
      ? [
          {
            fromS: timeS[0]!,
            toS: timeS[timeS.length - 1]!,
            because:
              'The logger was too slow for how fast the temperature changed: the true peak may lie above what was read. Log faster, or measure there.',
          },
        ]
      : [];
  return {
    missedPeakK: (probe.areMeans ? MEANS_HIDE : 1) * missedPeakK.high,
    blind: [...slow, ...outrun],
    because: [
      ...missedPeakK.because.map((sentence) => `${sentence}.`),
      ...(probe.areMeans && missedPeakK.high > 0
        ? ['Each reading is the mean of its interval, which hides more of a peak than a reading would.']
        : []),
    ],
  };
}

/** What a hidden peak rises above the readings, as a doubt. */
export function hiddenPeakDoubt({ tempC }: ThermalHistory, missedPeakK: number, ambientC: number): Doubt[] {
  const rise = tempC.reduce((top, temp) => Math.max(top, temp), ambientC) - ambientC;
  if (!(rise > 0 && missedPeakK > 0)) return [];
  return [
    {
      kind: 'between readings',
      of: 'peaks between the readings',
      spread: { shape: 'even', low: 0, high: 1 },
      shiftK: tempC.map((temp) => (missedPeakK * Math.max(0, temp - ambientC)) / rise),
    },
  ];
}

/** The stretches of the record in which readings are too far apart to see a pass, as one piece of blind time. */
function slowTime({ timeS, gapAfter }: ThermalHistory): BlindTime[] {
  const gaps = new Set(gapAfter);
  let fromS: number | undefined;
  let toS = 0;
  let widestS = 0;
  for (let i = 1; i < timeS.length; i++) {
    const apartS = timeS[i]! - timeS[i - 1]!;
    if (apartS <= SLOWEST_FOR_A_PASS_S || gaps.has(i - 1)) continue;
    fromS ??= timeS[i - 1]!;
    toS = timeS[i]!;
    widestS = Math.max(widestS, apartS);
  }
  if (fromS === undefined) return [];
  return [
    {
      fromS,
      toS,
      because: `From ${formatDuration(fromS - timeS[0]!)} into the log, readings are up to ${formatDuration(widestS)} apart: a weld pass can come and go unseen between two of them. Log every second, or say that this is an oven's log.`,
    },
  ];
}
