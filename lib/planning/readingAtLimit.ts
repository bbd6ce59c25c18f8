import { type Judged, judged } from '../quantity';
import { combineEffects, effect, USUAL_WIRE, undefinedTolerance } from '../strength';
import { type Attachment, attachmentError, type ToleranceClass, toleranceC } from '../thermocouple';

/** A probe, and the limit of the metal that it is to watch. */
export interface ProbeAndLimit {
  /** How hot the metal that matters may get, °C: the shop's limit, or `allowedPeak`. */
  readonly limitC: number;
  /** Air round the part, °C. */
  readonly ambientC: number;
  readonly attachment?: Attachment;
  readonly thermocouple?: ToleranceClass;
  /** How far from its marked place a probe may really sit, mm; default 1. */
  readonly placedWithinMm?: number;
}

/**
 * How well a plan knows the fall of temperature from the metal that matters to the probe, as a share of it.
 * Judgement:
 * conductivity is known to about 10 % (see the alloy cards), and steep falls follow it.
 */
const FALL_DOUBT = 0.1;

/**
 * What a probe reads when metal elsewhere is at its limit. Peaks scale nearly together when a job gets more or less
 * heat, so the reading is
 *
 *   R = T_a + (1 − f) r (T_limit − T_a),  r = rise at the probe / rise of the metal that matters,
 *
 * f what the attachment reads low by. The band adds as squares: r over the heats of the job, a tenth of the fall from
 * one place to the other, a probe off its place by `placedWithinMm`, the attachment, the wire. Whoever stops at
 * `low` is on the safe side of all of them.
 *
 * With r 0.8, a limit of 227 °C, air of 20 °C and a perfect probe it is 20 + 0.8 · 207 = 185.6 °C.
 * @throws TemperbookError for an unknown attachment.
 */
export function readingAtLimit(
  { ratio, kPerMm }: { readonly ratio: Judged; readonly kPerMm: number },
  {
    limitC,
    ambientC,
    criticalPeakC,
    attachment = 'not stated',
    thermocouple = USUAL_WIRE,
    placedWithinMm = 1,
  }: ProbeAndLimit & { readonly criticalPeakC: number },
): Judged {
  const f = attachmentError(attachment);
  const riseK = limitC - ambientC;
  const read = (r: number, lowBy: number): number => ambientC + (1 - lowBy) * r * riseK;
  const nominal = read(ratio.nominal, f.value);
  const wireK =
    toleranceC(thermocouple.standard, thermocouple.class, thermocouple.type, nominal) ??
    undefinedTolerance(nominal);
  // `kPerMm` is of the job as planned; at the limit the whole field is as much higher or lower as its peak.
  const offPlaceK = placedWithinMm * Math.abs(kPerMm) * (riseK / (criticalPeakC - ambientC));
  const fallK = FALL_DOUBT * Math.abs(1 - ratio.nominal) * riseK;
  const { low, high } = combineEffects(nominal, [
    effect('heat', nominal, [read(ratio.low, f.value), read(ratio.high, f.value)]),
    effect('fall', nominal, [nominal - fallK, nominal + fallK]),
    effect('place', nominal, [nominal - offPlaceK, nominal + offPlaceK]),
    effect('attachment', nominal, [read(ratio.nominal, f.low), read(ratio.nominal, f.high)]),
    effect('wire', nominal, [nominal - wireK, nominal + wireK]),
  ]);
  return judged(nominal, [low, high], '°C', [
    `The attachment reads low by up to ${(100 * f.high).toFixed(1)} % of the rise, the wire is good to ${wireK.toFixed(1)} °C, the place to ${placedWithinMm} mm.`,
  ]);
}
