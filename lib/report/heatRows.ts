import { VERDICT_IN_WORDS } from '../decision';
import type { Calibration, CalibrationUnknown } from '../heatflow';
import { type Placement, type ProbeAndLimit, readingAtLimit, type SoftZone, TREATMENTS } from '../planning';
import { formatDuration, formatKept, formatTemp, formatTempSpan } from '../quantity';
import type { CodeAnswer, HazExtent } from '../section';
import { type AttachmentKind, attachmentError } from '../thermocouple';
import type { TableRow } from './table';

/** One row per fitted quantity: value, standard error, bounds and how it goes together with the others. */
export function calibrationRows<Name extends string>(
  { names, values, standardErrors, correlation }: Calibration<Name>,
  parameters: Readonly<Record<Name, CalibrationUnknown>>,
): TableRow[] {
  return (names as readonly Name[]).map((name, j) => {
    const { label = name, unit, low, high } = parameters[name];
    const own = values[name].nominal;
    const amount = (value: number): string => `${Number(value.toPrecision(4))}${unit ? ` ${unit}` : ''}`;
    return {
      Fitted: label,
      Value: amount(own),
      'Standard error': amount(Number(standardErrors[name].toPrecision(2))),
      'Looked for between': `${low} and ${amount(high)}`,
      ...Object.fromEntries(
        (names as readonly Name[]).map((other, k) => [
          `r with ${parameters[other].label ?? other}`,
          k === j ? '' : correlation[j]![k]!.toFixed(2),
        ]),
      ),
    };
  });
}

/** One row per channel of a fit: how far model and readings part. */
export function misfitRows({ channels }: Pick<Calibration<string>, 'channels'>): TableRow[] {
  return channels.map(({ name, rmsC, worstC, swingK }) => ({
    Probe: name,
    'Off by, root mean square': formatTempSpan(rmsC, 1),
    'At worst': formatTempSpan(worstC, 1),
    'Of a swing of': formatTempSpan(swingK),
  }));
}

/** One row per place of a soft zone: peak, strength kept after each treatment, hardness where there is one. */
export function softZoneRows({ points, treatments }: SoftZone): TableRow[] {
  return points.map(({ distanceMm, peakC, kept, vickers }) => ({
    Distance: `${distanceMm} mm`,
    Peak: formatTemp(peakC.nominal),
    ...Object.fromEntries(TREATMENTS.map((t) => [sentenceCase(treatments[t]), formatKept(kept[t])])),
    ...(vickers ? { 'HV as welded': `${range(vickers.asWelded)}` } : {}),
  }));
}

/** One row per treatment: how far from the weld the soft zone reaches, and where it is weakest. */
export function softReachRows({ alloy, reach, treatments, points }: SoftZone): TableRow[] {
  const farMm = points[points.length - 1]!.distanceMm;
  return TREATMENTS.map((t) => {
    const { mm, beyond } = reach[t];
    const far = beyond ? `beyond ${farMm} mm` : `${mm.high.toFixed(0)} mm`;
    const weakest = points.reduce((a, b) => (b.kept[t].nominal < a.kept[t].nominal ? b : a));
    return {
      Metal: alloy,
      Treatment: sentenceCase(treatments[t]),
      'Soft zone reaches': `${mm.nominal.toFixed(0)} mm`,
      'At least': `${mm.low.toFixed(0)} mm`,
      'At most': far,
      'Weakest place': `${weakest.distanceMm} mm: ${formatKept(weakest.kept[t])}`,
    };
  });
}

/** What a code says of the extent of a softened zone, or why it says nothing. */
export function codeExtentRow(name: string, answer: CodeAnswer<HazExtent>): TableRow {
  return answer.supported
    ? { Code: name, Extent: `${answer.extentMm.toFixed(1)} mm`, Why: answer.because.join(' ') }
    : { Code: name, Extent: 'no answer', Why: `${answer.why} ${answer.remedy}.` };
}

/** One row per place for a probe: what it hides of the metal that matters, when to stop, how often to read. */
export function placementRows({ places, criticalVerdict }: Placement): TableRow[] {
  return places.map((place) => {
    const wrongly = place.verdictHere === 'kept' && criticalVerdict !== 'kept';
    return {
      Distance: `${place.distanceMm} mm`,
      'Peak there': formatTemp(place.peakC),
      'Against the metal that matters': `${formatTempSpan(Math.abs(place.hidesK))} ${place.hidesK > 0 ? 'cooler' : 'hotter'}`,
      Peaks:
        Math.abs(place.lagS) < 0.5
          ? 'with it'
          : `${formatDuration(Math.abs(place.lagS))} ${place.lagS > 0 ? 'later' : 'earlier'}`,
      'Stop when it reads': formatTemp(place.readingAtLimitC.low),
      'Blind to': formatTempSpan(place.blindK),
      'Read every':
        place.slowestIntervalS === undefined ? 'under 0.1 s' : formatDuration(place.slowestIntervalS),
      'Its record alone would say': `${VERDICT_IN_WORDS[place.verdictHere]}${wrongly ? ', wrongly' : ''}`,
    };
  });
}

/** One row per way of fixing a probe at the best place, tightest first: what it reads low by, where to stop. */
export function attachmentRows({ best, criticalPeakC }: Placement, probe: ProbeAndLimit): TableRow[] {
  const riseK = best.readingAtLimitC.nominal - probe.ambientC;
  return ATTACHMENTS.map((attachment) => {
    const { low } = readingAtLimit(best, { ...probe, criticalPeakC: criticalPeakC.nominal, attachment });
    return { attachment, ...attachmentError(attachment), stopC: low };
  })
    .sort((a, b) => b.stopC - a.stopC)
    .map(({ attachment, value, high, stopC }) => ({
      Fixing: attachment,
      'Reads low by': `${formatTempSpan(value * riseK)}, at worst ${formatTempSpan(high * riseK)}`,
      'Stop when it reads': formatTemp(stopC),
    }));
}

const ATTACHMENTS: readonly AttachmentKind[] = [
  'welded wires',
  'peened hole',
  'cemented',
  'clamped with paste',
  'clamped dry',
  'hand-held probe',
  'taped',
];

const range = ({ nominal, low, high }: { nominal: number; low: number; high: number }): string =>
  `${nominal.toFixed(0)} (${low.toFixed(0)}–${high.toFixed(0)})`;

const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
