import { median } from 'simple-statistics';
import { type ThermalHistory, withSamplesAt } from '../../history';
import { formatDuration } from '../../quantity';
import { noiseOf } from '../../statistics';
import { condense } from '../condense';
import type { BlindTime, Doubt } from '../exposure';
import { type RiseBetween, risesBetween } from '../risesBetween';
import { samplingLoss } from '../samplingLoss';
import type { ProbeRecord } from './probe';

/** Readings further apart than this let a weld pass come and go unseen, s. */
export const SLOWEST_FOR_A_PASS_S = 10;
/**
 * The mean of a parabola over a time w lies |T″| w²/24 below its top, on top of the |T″| Δt²/8 that readings Δt apart miss
 * at the worst moment: 1 + (w/Δt)²/3 times as much, 4/3 for the mean of an interval (derived).
 */
const meansHide = (overS: number, intervalS: number): number => 1 + (overS / intervalS) ** 2 / 3;

/** Rises below this are not worth a sample, nor below so many standard deviations of the readings' noise, up to the second, K. */
const LEAST_RISE_K = 0.1;
const MOST_NOISE_K = 1;
const NOISE_WIDTHS = 4;

/** What the readings' interval leaves open. */
export interface IntervalFindings {
  /** Where the metal was hotter than the straight lines between readings, as the readings around point to. */
  readonly rises: readonly RiseBetween[];
  readonly blind: readonly BlindTime[];
  readonly because: readonly string[];
}

/**
 * What came and went between two readings. Readings close enough to follow the trace point to what they hide
 * (`risesBetween`); it counts in full in every draw, as a lesser share would say that missing a peak makes it smaller. Readings too far apart for that, or further apart than a weld pass lasts, bound nothing: that
 * time is blind, unless the log is an oven's. Readings that stayed cool are no excuse: 15 kJ set down at a spot of thick
 * metal leave E/(ρc) · 2/(4πDt)^1.5 = 1.3 K there after a minute (ρc 2.4 MJ/m³K, D 6 · 10⁻⁵ m²/s; point source on a half-space,
 * H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 10.2).
 */
export function betweenReadings({ history, probe }: ProbeRecord): IntervalFindings {
  const slow = probe.isOven ? [] : [...slowTime(history), ...heldTime(history), ...longMeans(history, probe)];
  const { missedPeakK, tooSlow } = samplingLoss(history, 130_000);
  const { timeS } = history;
  const intervalS = usualInterval(timeS);
  const overS = probe.meansOverS ?? intervalS;
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
  const rises = risesOf(history);
  return {
    rises: probe.areMeans ? rises.map((rise) => higher(rise, meansHide(overS, intervalS))) : rises,
    blind: [...slow, ...outrun],
    because: [
      ...missedPeakK.because.map((sentence) => `${sentence}.`),
      ...(rises.length > 0
        ? ['What the readings around point to between two of them is counted as reached.']
        : []),
      ...(probe.areMeans && missedPeakK.high > 0
        ? [
            `Each reading is the mean of ${overS > intervalS ? formatDuration(overS) : 'its interval'}, which hides more of a peak than a reading would.`,
          ]
        : []),
    ],
  };
}

/** Where readings point above the lines between them by more than their noise makes. */
export const risesOf = (history: ThermalHistory): RiseBetween[] =>
  risesBetween(
    history,
    Math.min(MOST_NOISE_K, Math.max(LEAST_RISE_K, NOISE_WIDTHS * noiseOf(history.tempC))),
  );

const higher = ({ points, ...rise }: RiseBetween, by: number): RiseBetween => ({
  ...rise,
  points: points.map(({ atS, aboveK }) => ({ atS, aboveK: by * aboveK })),
});

/** The record condensed, with samples where it rose between readings. */
export function withRises(history: ThermalHistory, rises: readonly RiseBetween[]): ThermalHistory {
  const beside = new Set(rises.flatMap(({ after }) => [after, after + 1]));
  return withSamplesAt(
    condense(history, beside),
    rises.flatMap(({ points }) => points.map(({ atS }) => atS)),
  );
}

/** What rose above the lines between readings, as a doubt without spread; the history has samples there (`withRises`). */
export function betweenDoubt({ timeS }: ThermalHistory, rises: readonly RiseBetween[]): Doubt[] {
  if (rises.length === 0) return [];
  const above = new Map(rises.flatMap(({ points }) => points.map(({ atS, aboveK }) => [atS, aboveK])));
  return [
    {
      kind: 'between readings',
      of: 'peaks between the readings',
      spread: { shape: 'even', low: 1, high: 1 },
      shiftK: timeS.map((t) => above.get(t) ?? 0),
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

/** Middle of the times between readings, looked at in some hundred places, s. */
function usualInterval(timeS: Float64Array): number {
  const every = Math.max(1, Math.floor(timeS.length / 200));
  const steps: number[] = [];
  for (let i = 1; i < timeS.length; i += every) steps.push(timeS[i]! - timeS[i - 1]!);
  return steps.length === 0 ? 1 : median(steps);
}

/** A value held between scans: so many changes of the reading, all a whole number of scans apart, are no chance. */
const LEAST_CHANGES = 10;

/**
 * A logger that writes a row every second and scans its inputs every minute writes each reading many times: the readings change
 * only every so many rows, always a multiple of the same number.
 */
function heldTime({ timeS, tempC }: ThermalHistory): BlindTime[] {
  let rows = 0;
  let changes = 0;
  let scanS = Number.POSITIVE_INFINITY;
  let last = -1;
  for (let i = 1; i < tempC.length && rows !== 1; i++) {
    if (tempC[i] === tempC[i - 1]) continue;
    if (last >= 0) {
      rows = greatestCommonDivisor(i - last, rows);
      scanS = Math.min(scanS, timeS[i]! - timeS[last]!);
      changes++;
    }
    last = i;
  }
  if (rows === 1 || changes < LEAST_CHANGES || scanS <= SLOWEST_FOR_A_PASS_S) return [];
  return all(
    timeS,
    `Rows come quickly, but the reading changes only every ${formatDuration(scanS)}: a weld pass can come and go unseen between two scans. Scan every second, or say that this is an oven's log.`,
  );
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}

/** A mean over longer than a pass lasts shows next to nothing of it. */
function longMeans(
  { timeS }: ThermalHistory,
  { areMeans, meansOverS = 0 }: ProbeRecord['probe'],
): BlindTime[] {
  if (!areMeans || meansOverS <= SLOWEST_FOR_A_PASS_S) return [];
  return all(
    timeS,
    `By the file each reading is the mean of ${formatDuration(meansOverS)}, or as slow as that: a weld pass shows as a small and late rise. Log readings themselves, or measure there.`,
  );
}

const all = (timeS: Float64Array, because: string): BlindTime[] => [
  { fromS: timeS[0]!, toS: timeS[timeS.length - 1]!, because },
];
