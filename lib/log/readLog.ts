import { withSourceBytes } from './bytes/sourceBytes';
import { channelHistories } from './channelHistory';
import { type MaskedLog, maskedLog } from './maskedLog';
import { accountNotes, columnNotes, faultNotes, openNote, statementNotes } from './notes';
import { checkOptions, type ReadOptions } from './readOptions';
import type { ThermalLog } from './thermalLog';

/**
 * Reads a logger's file into temperature channels in °C on one time axis in seconds, with an account of every
 * row and a reason for every reading left out. `source` is a path or the bytes of the file. Whatever is
 * decided from the file is said in `notes`, and each decision can be taken out of its hands by an option.
 * Time and memory grow in step with the file.
 *
 * The stages, one file each: `parsedLog` takes the file apart (`sourceBytes`, `logText`, `dialect`, `header`, `long/`,
 * `columnPlan`, `readRows`, `clockAxis`), `maskedLog` marks what cannot be trusted (`faults/`), and
 * `channelHistory` makes histories of the rest.
 *
 * To teach it a new oddity: write a fixture in test/log with the oddity and what should come of it; find the
 * stage that meets it first, and change only that. A new word for "no reading" goes into `errorTokens`, a
 * number for it into `faults/sentinels`, a unit into `units`, a date or time form into `stamp`, a name for a
 * kind of column into `temperatureColumns`, a jump of the clock into `clockAxis`. A new kind of fault is a
 * `FaultKind`, a file in `faults/` that marks readings, a line in `faults/detectFaults` and a sentence in
 * `faultList`. Marks only ever hide readings: no stage changes, moves or invents one. Say in `notes` what was
 * decided, and run the property tests: the account of the rows must still add up.
 *
 * @throws TemperbookError when the file cannot be opened or read; it names the first offending row and what
 * would make the file readable.
 */
export function readLog(source: string | Uint8Array, options: ReadOptions = {}): ThermalLog {
  checkOptions(options);
  const log = withSourceBytes(source, options.name, (file) => maskedLog(file, options));
  const { axis, plan, rows, rowFaults, lastRowS, startedAt, statements, reading } = log;
  const channels = logChannels(log);
  return {
    source: log.source,
    channels,
    leftAside: plan.leftAside,
    rows,
    rowFaults,
    intervalS: axis.intervalS,
    lastRowS,
    ...(axis.breaks.length > 0
      ? { restarts: axis.breaks.map((i) => [axis.timeS[i]!, axis.timeS[i + 1]!] as const) }
      : {}),
    ...(startedAt ? { startedAt } : {}),
    openReadings: reading.open,
    statements,
    notes: [
      ...reading.notes,
      ...columnNotes(plan),
      ...faultNotes(channels),
      ...statementNotes(statements),
      ...reading.open.map(openNote),
      ...accountNotes(log, options.limits?.gapS !== undefined),
    ],
  };
}

function logChannels({ channels, trusted, faults, axis, lines, gaps }: MaskedLog): ThermalLog['channels'] {
  const samples = channelHistories(channels, trusted, axis.timeS, lines, gaps);
  return channels.map(({ name, unit }, k) => ({
    name,
    unit: '°C',
    sourceUnit: unit,
    ...samples[k]!,
    faults: faults[k]!,
  }));
}
