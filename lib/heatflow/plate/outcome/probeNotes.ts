import { formatTemp, formatTempSpan } from '../../../quantity';
import { MOST_LAYERS } from '../model/layers';
import type { PlateProbeResult } from './plateResult';

/**
 * What must be known before a probe's history is believed, in sentences; none for most. `layers` are those of its run.
 */
export function probeNotes(
  { name, molten, doubtful, peakC, mayHideK }: PlateProbeResult,
  layers: number,
): string[] {
  if (molten)
    return [
      `Probe "${name}" lies in the weld pool (${formatTemp(peakC)}): no thermocouple survives there. Put it further from the weld.`,
    ];
  if (!doubtful) return [];
  const more = `the metal may become up to ${formatTempSpan(mayHideK, 0)} hotter than told`;
  if (layers === 1)
    return [
      `At probe "${name}" ${more}, because the plan takes it as even through its thickness (layers: 1): leave layers out, and as many are laid as the part needs.`,
    ];
  return [
    `At probe "${name}" ${more}, because ${layers} layers do not tell how uneven it is through its thickness: ${layers < MOST_LAYERS ? `lay more (layers: ${MOST_LAYERS}), or put the probe` : 'put the probe'} further from the arc, the chill or the step.`,
  ];
}
