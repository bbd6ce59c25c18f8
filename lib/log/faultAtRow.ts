import type { Fault, LogChannel } from './thermalLog';

/**
 * The fault that takes away a channel's reading on a line of the file (1-based); undefined when the reading is in
 * the history, or none was due there.
 */
export function faultAtRow({ faults, rows }: LogChannel, row: number): Fault | undefined {
  const fault = faults.find((one) => one.row <= row && row <= one.lastRow);
  return fault && !rows.includes(row) ? fault : undefined;
}
