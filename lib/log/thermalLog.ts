import type { ThermalHistory } from '../history';
import type { FaultKind } from './faultKind';
import type { LogStatements } from './logStatements';
import type { ReadOptions } from './readOptions';

/** One stretch of readings left out of a channel, kept with its reason so that it can be counted and shown. */
export interface Fault {
  readonly kind: FaultKind;
  /** First and last line of the file concerned, 1-based. */
  readonly row: number;
  readonly lastRow: number;
  readonly column: string;
  /** The text that stood in the first of these rows. */
  readonly value: string;
  /** Plain sentence. */
  readonly reason: string;
  /** Span on the log's time axis, s. */
  readonly fromS: number;
  readonly toS: number;
  /** How many readings (or rows, for a fault of the clock) it takes away; 0 for a gap, which has none. */
  readonly readings: number;
}

/** A temperature channel of a log: the readings that can be trusted and an account of those that cannot. */
export interface LogChannel {
  readonly name: string;
  /** Always '°C' after reading. */
  readonly unit: string;
  /** What the file held: '°C', '°F', 'K' or 'mV'. */
  readonly sourceUnit: string;
  /**
   * Trusted samples only; stretches left out are marked as gaps when longer than the gap limit. Empty when
   * not one reading of the channel can be trusted.
   */
  readonly history: ThermalHistory;
  /** Line of the file each sample of `history` came from, 1-based. */
  readonly rows: Uint32Array;
  readonly faults: readonly Fault[];
}

/** A column that was recognised and left aside. */
export interface LeftAside {
  readonly name: string;
  readonly unit: string;
  readonly why: string;
}

/** Account of every data row: `read = kept + flagged + rejected`. */
export interface RowAccount {
  readonly read: number;
  /** Used whole. */
  readonly kept: number;
  /** At least one temperature of the row is a fault; the rest of the row is used. */
  readonly flagged: number;
  /** Not used at all (no clock, fields missing). */
  readonly rejected: number;
}

/** One way to read a file: in words, and as the options with which `readLog` reads it so. */
export interface WayToRead {
  readonly words: string;
  readonly options: ReadOptions;
}

/** A decision about a file that it allows to be taken otherwise: the log is read in the likeliest way only. */
export interface OpenReading {
  readonly of: 'decimal mark' | 'unit' | 'clock' | 'wire' | 'column';
  /** The reading option that settles it, "clock.format". */
  readonly option: string;
  /** Sentence: what leaves it open. */
  readonly because: string;
  readonly taken: WayToRead;
  readonly other: readonly WayToRead[];
}

/** A logger's file, read. */
export interface ThermalLog {
  readonly source: { readonly name: string; readonly bytes: number; readonly sha256: string };
  readonly channels: readonly LogChannel[];
  readonly leftAside: readonly LeftAside[];
  readonly rows: RowAccount;
  /** Rows not used at all and faults of the clock, which belong to no channel. */
  readonly rowFaults: readonly Fault[];
  /** Usual time between rows, s. */
  readonly intervalS: number;
  /** Time of the file's last row, s, readings or not: after the last trusted reading the recording went on till then. */
  readonly lastRowS?: number;
  /** Where the recording starts anew after an unknown time: the last time before and the first after, s. */
  readonly restarts?: readonly (readonly [fromS: number, toS: number])[];
  /** Start of the log as an ISO stamp, when the file says; without zone unless the file gives one. */
  readonly startedAt?: string;
  /** Other ways in which the file may be meant; empty when it can be read in one way only. */
  readonly openReadings: readonly OpenReading[];
  /** What the file says of how it was measured. */
  readonly statements: LogStatements;
  /** Every reading decision, in sentences. */
  readonly notes: readonly string[];
}
