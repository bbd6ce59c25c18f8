import type { ThermalLog } from '../../lib/log';

/** Text of a log from its lines, LF after each. */
export const lines = (...rows: readonly (string | readonly string[])[]): Uint8Array =>
  Buffer.from(`${rows.flat().join('\n')}\n`, 'utf8');

/** Rows made by a function of the row number. */
export const rows = (count: number, row: (i: number) => string): string[] =>
  Array.from({ length: count }, (_, i) => row(i));

/** Invented trace at the foot of the mast: room, a quick rise at 10 s, a slow fall, °C. */
export const weldC = (t: number, riseC = 180): number =>
  t < 10 ? 22 : 22 + riseC * Math.min(1, (t - 10) / 4) * Math.exp(-Math.max(0, t - 14) / 60);

export const channel = (log: ThermalLog, name: string) => {
  const found = log.channels.find((c) => c.name === name);
  if (!found) throw new Error(`no channel ${name} among ${log.channels.map((c) => c.name).join(', ')}`);
  return found;
};

export const temps = (log: ThermalLog, k = 0): number[] => [...log.channels[k]!.history.tempC];
export const times = (log: ThermalLog, k = 0): number[] => [...log.channels[k]!.history.timeS];
export const kinds = (log: ThermalLog, k = 0): string[] => log.channels[k]!.faults.map(({ kind }) => kind);
export const noteWith = (log: ThermalLog, words: RegExp): string | undefined =>
  log.notes.find((note) => words.test(note));
