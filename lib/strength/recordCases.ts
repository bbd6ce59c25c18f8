import { peak, type SamplingLoss, samplingLoss, timeAbove } from '../exposure';
import { shiftTemperature, type ThermalHistory, tempAt } from '../history';
import { formatDuration, formatPercent, formatTemp, judged } from '../quantity';
import {
  type Attachment,
  attachmentCorrectionC,
  attachmentError,
  type ToleranceClass,
  toleranceC,
  typeKDriftC,
} from '../thermocouple';
import type { Assumption } from './assumption';
import { type CoveredHistory, coverFromNeighbours } from './coverFromNeighbours';

/** What is known of a probe. */
export interface ProbeDoubt {
  readonly ambientC: number;
  /** Default: type K, class 2 of IEC 60584-1. */
  readonly thermocouple?: ToleranceClass;
  /** Default: 'not stated', which is anything from welded wires to a dry clamp. */
  readonly attachment?: Attachment;
  /** False for a plan or a prediction, which is known between its points too: nothing was missed there. */
  readonly sampled: boolean;
}

/** The record and what it may have hidden. `cooler`, `hotter` and `readLow` keep the times of the record. */
export interface RecordCases {
  /** Wire that reads high by its tolerance (and, type K, by its drift in use). */
  readonly cooler: ThermalHistory;
  /** Wire that reads low by its tolerance. */
  readonly hotter: ThermalHistory;
  /** A junction that reads low by its attachment, and peaks between the readings. */
  readonly readLow: ThermalHistory;
  /** `readLow` with unrecorded time filled from the other probes; absent when there is next to none. */
  readonly unrecorded?: CoveredHistory;
  /** How the cases were made, in sentences. */
  readonly because: readonly string[];
  /** Why this record cannot clear the metal, whatever its readings say. */
  readonly warnings: readonly string[];
}

/** What a shop has when it does not say. */
export const USUAL_WIRE: ToleranceClass = { standard: 'IEC 60584-1', class: 2, type: 'K' };

const NOTHING_MISSED: Pick<SamplingLoss, 'missedPeakK' | 'tooSlow'> = {
  missedPeakK: judged(0, [], 'K', []),
  tooSlow: false,
};

/** At or below this a T6 part loses nothing in hours, so a probe may be blind meanwhile. */
const QUIET_C = 150;

/** The cases of a record; see `RecordCases` for what each is. */
export function recordCases({
  history,
  probe,
  neighbours,
  spanS,
}: {
  readonly history: ThermalHistory;
  readonly probe: ProbeDoubt;
  readonly neighbours: readonly ThermalHistory[];
  readonly spanS: readonly [number, number];
}): RecordCases {
  const { ambientC, thermocouple: wire = USUAL_WIRE, attachment = 'not stated' } = probe;
  const topC = peak(history).tempC;
  const hotS = wire.type === 'K' ? timeAbove(history, 200) : 0;
  const tolerance = (tempC: number): number =>
    toleranceC(wire.standard, wire.class, wire.type, tempC) ?? undefinedTolerance(tempC);
  const lowBy = attachmentError(attachment).high;
  const { missedPeakK, tooSlow } = probe.sampled ? samplingLoss(history, 130_000) : NOTHING_MISSED;
  const missedK = (tempC: number): number =>
    topC > ambientC ? (missedPeakK.high * Math.max(0, tempC - ambientC)) / (topC - ambientC) : 0;
  const readsLow = (tempC: number): number => attachmentCorrectionC(tempC, ambientC, lowBy) + missedK(tempC);

  const readLow = shiftTemperature(history, readsLow);
  const covered = coverFromNeighbours(
    readLow,
    neighbours.map((other) => shiftTemperature(other, readsLow)),
    spanS,
  );
  const blindS = covered.assumedS + covered.unknownS;
  const hottestBlindC = blindS > 0 ? hottestAssumed(covered.history, history) : ambientC;
  const blind = blindS > 0 && (covered.unknownS > 0 || hottestBlindC > QUIET_C);
  return {
    cooler: shiftTemperature(history, (temp) => -tolerance(temp) - typeKDriftC(temp, hotS)),
    hotter: shiftTemperature(history, tolerance),
    readLow,
    ...(blind ? { unrecorded: covered } : {}),
    because: [
      `Wire tolerance ±${tolerance(topC).toFixed(1)} °C at the peak (${wireName(wire)}${toleranceC(wire.standard, wire.class, wire.type, topC) === null ? '; not defined so hot or cold, twice the usual assumed' : ''}).`,
      `Attachment "${attachmentName(attachment)}" may read low by up to ${formatPercent(lowBy, lowBy < 0.02 ? 1 : 0)} of the rise above ambient: up to ${formatTemp(topC + readsLow(topC))} at the peak.`,
      ...missedPeakK.because.map((sentence) => `${sentence}.`),
    ],
    warnings: [
      ...(blind
        ? [
            `The probe has no trusted reading for ${formatDuration(blindS)}, while ${covered.unknownS > 0 ? 'no other probe can stand in for all of it' : `${neighbours.length > 0 ? 'the other probes may have seen' : 'the readings either side allow'} up to ${formatTemp(hottestBlindC)}`}: the record cannot clear this spot.`,
          ]
        : []),
      ...(probe.sampled ? cutOff(history) : []),
      ...(tooSlow
        ? [
            'The logger was too slow for how fast the temperature changed: the true peak may lie beyond the band.',
          ]
        : []),
    ],
  };
}

/** Still rising by so much in the last ten seconds, K, the metal was being heated when the log ended. */
const RISING_K = 2;
const LAST_S = 10;

/** A log that starts in the heat or ends in it does not hold all of it. */
function cutOff(history: ThermalHistory): string[] {
  const { timeS, tempC } = history;
  const firstC = tempC[0]!;
  const lastC = tempC[tempC.length - 1]!;
  const endS = timeS[timeS.length - 1]!;
  const rise = lastC - tempAt(history, Math.max(timeS[0]!, endS - LAST_S));
  return [
    ...(firstC > QUIET_C
      ? [`The log starts at ${formatTemp(firstC)}: what the metal saw before is not recorded.`]
      : []),
    ...(lastC > QUIET_C && rise > RISING_K
      ? [`The log ends at ${formatTemp(lastC)}, still rising: the peak is not in it.`]
      : []),
  ];
}

/** What is assumed of a probe, for the record. */
export function probeAssumptions({
  thermocouple = USUAL_WIRE,
  attachment = 'not stated',
  ambientC,
}: ProbeDoubt): Assumption[] {
  const { value, low, high, source, known } = attachmentError(attachment);
  return [
    {
      name: 'Thermocouple wire',
      value: `${wireName(thermocouple)}, new wire`,
      source: `${thermocouple.standard}; type K may drift up in use, which only widens the band upwards`,
      known: 'seen',
    },
    {
      name: `Probe attachment "${attachmentName(attachment)}" reads low by`,
      value: `${formatPercent(value, 1)} (${formatPercent(low, 1)} to ${formatPercent(high, 1)}) of the rise above ambient; the worst case takes the upper end`,
      source,
      known,
    },
    {
      name: 'Air round the part',
      value: formatTemp(ambientC),
      source: 'given, or the coldest early reading; 20 °C where that is too warm for air',
      known: 'derived',
    },
  ];
}

/** Where a class defines no tolerance: twice the limits of class 2 for base-metal wire, so a wide guess. */
export const undefinedTolerance = (tempC: number): number => 2 * Math.max(2.5, 0.0075 * Math.abs(tempC));

const wireName = ({ type, standard, class: c }: ToleranceClass): string =>
  `type ${type}, ${standard} class ${c}`;

const attachmentName = (attachment: Attachment): string =>
  typeof attachment === 'string' ? attachment : 'as given by the shop';

/** The hottest of the filled-in samples: those the record itself does not have. */
function hottestAssumed(covered: ThermalHistory, recorded: ThermalHistory): number {
  const own = new Set(recorded.timeS);
  let hottest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < covered.timeS.length; i++)
    if (!own.has(covered.timeS[i]!)) hottest = Math.max(hottest, covered.tempC[i]!);
  return hottest;
}
