import type { ThermalLog } from '../../lib/log';

/** What every log promises, whatever it was read from. Plain checks, as there are millions of them. */
export function checkPromises(log: ThermalLog): void {
  const must = (holds: boolean, what: string) => {
    if (!holds) throw new Error(`broken promise: ${what}`);
  };
  const { read, kept, flagged, rejected } = log.rows;
  must(read === kept + flagged + rejected, 'the account adds up');
  must(Math.min(read, kept, flagged, rejected) >= 0, 'no count is negative');
  must(log.channels.length > 0, 'there is a channel');
  must(log.intervalS > 0, 'there is an interval');
  const inFaults = log.rowFaults.reduce((n, { readings }) => n + readings, 0);
  must(inFaults === rejected, 'each rejected row has a fault');
  for (const { history, faults, rows: own } of log.channels) {
    const { timeS, tempC, gapAfter } = history;
    must(tempC.length === timeS.length && own.length === timeS.length, 'arrays are of one length');
    for (let i = 0; i < timeS.length; i++) {
      must(
        Number.isFinite(timeS[i]!) && tempC[i]! > -273.15 && tempC[i]! < 2000,
        `sample ${i} is a temperature`,
      );
      must(i === 0 || timeS[i]! > timeS[i - 1]!, `time goes on at sample ${i}`);
    }
    for (const i of gapAfter ?? []) must(i < timeS.length - 1, 'gaps lie between samples');
    // Every reading is in the history or in a fault; only a block without the channel, or a channel logged seldom, owes none.
    const left = faults.reduce((n, { readings }) => n + readings, 0);
    const due = read - rejected;
    const isOneBlock = !log.notes.some((note) => /^The header starts over|has a reading every/.test(note));
    must(
      isOneBlock ? timeS.length + left === due : timeS.length + left <= due,
      'every reading is accounted for',
    );
    for (const { row, lastRow, fromS, toS, reason, readings } of faults) {
      must(row > 0 && lastRow >= row && readings > 0, 'faults have rows');
      must(Number.isFinite(fromS) && toS >= fromS && toS < Number.POSITIVE_INFINITY, 'faults have a time');
      must(reason.length > 10 && reason.endsWith('.'), 'faults have a reason');
    }
  }
  // Words in quotes are the file's.
  for (const note of log.notes)
    must(note.endsWith('.') && !/\bNaN\b|undefined/.test(note.replace(/"[^"]*"/g, '')), `sentence: ${note}`);
}
