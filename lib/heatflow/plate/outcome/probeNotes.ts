import type { PlateProbeResult } from './plateResult';

/** What must be known before a probe's history is believed, in sentences; none for most. */
export function probeNotes({ name, molten, doubtful, peakC }: PlateProbeResult): string[] {
  if (molten)
    return [
      `Probe "${name}" lies in the weld pool (${peakC.toFixed(0)} °C): no thermocouple survives there.`,
    ];
  if (doubtful)
    return [
      `At probe "${name}" the metal is not evenly warm through its thickness, and plan view is doubtful there: leave layers at layers: 'auto', or lay more.`,
    ];
  return [];
}
