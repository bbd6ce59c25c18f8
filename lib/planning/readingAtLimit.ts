import { shopLimit } from '../alloy';
import { multipleAt, USUAL_WIRE, wireToleranceC } from '../exposure';
import { formatTempSpan, type Judged, judged } from '../quantity';
import { evenSpread, weightedQuantiles } from '../statistics';
import { type Attachment, attachmentError, type ToleranceClass } from '../thermocouple';

/** A probe, and the limit of the metal that it is to watch. */
export interface ProbeAndLimit {
  /** How hot the metal that matters may get, °C or as '440F': the shop's limit, or `allowedPeak`. */
  readonly limitC: number | string;
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
const DRAWS = 400;

/**
 * What a probe reads when metal elsewhere is at its limit. Peaks scale nearly together when a job gets more or less
 * heat, so the reading is
 *
 *   R = T_a + (1 − f) r (T_limit − T_a),  r = rise at the probe / rise of the metal that matters,
 *
 * f what the fixing reads low by. Nominal with every doubt in its middle; `low` and `high` are 5 and 95 % of draws of r over the
 * heats of the job, the fall from one place to the other within a tenth, a probe off its place by `placedWithinMm`, the
 * fixing, the wire, and what the run may hide of either (a hotter face, metal beside a step). Whoever stops at `low` is on the safe side in 95 of 100.
 *
 * With r 0.8, a limit of 227 °C, air of 20 °C and a perfect probe it is 20 + 0.8 · 207 = 185.6 °C.
 * @throws TemperbookError for an unknown fixing, and as `shopLimit`.
 */
export function readingAtLimit(
  {
    ratio,
    kPerMm,
    mayHideShare = { here: 0, critical: 0 },
  }: {
    readonly ratio: Judged;
    readonly kPerMm: number;
    /** How much more than told both may have risen, as a share of the rise: what the run itself does not resolve. */
    readonly mayHideShare?: { readonly here: number; readonly critical: number };
  },
  {
    limitC: limit,
    ambientC,
    criticalPeakC,
    attachment = 'not stated',
    thermocouple = USUAL_WIRE,
    placedWithinMm = 1,
  }: ProbeAndLimit & { readonly criticalPeakC: number },
): Judged {
  const f = attachmentError(attachment);
  const limitC = shopLimit(limit);
  const riseK = limitC - ambientC;
  const nominal = ambientC + (1 - f.value) * ratio.nominal * riseK;
  const wireK = wireToleranceC(thermocouple, nominal);
  // `kPerMm` is of the job as planned; at the limit the whole field is as much higher or lower as its peak.
  const offPlaceK = placedWithinMm * Math.abs(kPerMm) * (riseK / (criticalPeakC - ambientC));
  const fallK = FALL_DOUBT * Math.abs(1 - ratio.nominal) * riseK;
  const heats = { shape: 'peaked', low: ratio.low, likely: ratio.nominal, high: ratio.high } as const;
  const fixing = { shape: 'peaked', low: f.low, likely: f.value, high: f.high } as const;
  const readings = Float64Array.from({ length: DRAWS }, (_, i) => {
    const place = (dimension: number): number => evenSpread(i, dimension);
    const aside = (dimension: number): number => 2 * place(dimension) - 1;
    const told = multipleAt(heats, place(0)) * riseK;
    const asHidden = (1 + place(5) * mayHideShare.here) / (1 + place(6) * mayHideShare.critical);
    const metalK = told * asHidden + aside(1) * fallK + aside(2) * offPlaceK;
    return ambientC + (1 - multipleAt(fixing, place(3))) * metalK + aside(4) * wireK;
  });
  return judged(nominal, weightedQuantiles(readings, [0.05, 0.95]), '°C', [
    `The fixing reads low by up to ${(100 * f.high).toFixed(1)} % of the rise, the wire is good to ${formatTempSpan(wireK, 1)}, the place to ${placedWithinMm} mm.`,
  ]);
}
