import { type ReadOptions, readLog, type ThermalLog } from '../../log';
import { TemperbookError } from '../../quantity';
import { headAndEnd } from './wholeLines';

/** What a probe reads now. */
export interface ReadingNow {
  readonly name: string;
  /** Its last trusted reading, °C; absent where it has none of late. */
  readonly tempC?: number;
}

/** What a log reads at its end. */
export interface ReadingsNow {
  /** Time of the last row on the log's clock, s. */
  readonly atS: number;
  /** Usual time between rows, s. */
  readonly intervalS: number;
  readonly probes: readonly ReadingNow[];
  /** Head and end of the log, as they were read. */
  readonly log: ThermalLog;
}

/** A reading older than this against the others says nothing of now, s. */
const STALE_S = 3;

/**
 * What the probes of a log read in its last rows, by the same reader as everything else; a sentence where it cannot be read
 * yet, for a log begins with nothing but a heading.
 */
export function readingsNow(lines: Buffer, options: ReadOptions): ReadingsNow | string {
  try {
    const log = readLog(headAndEnd(lines), options);
    const { channels, intervalS } = log;
    const lastS = channels.map(
      ({ history: { timeS } }) => timeS[timeS.length - 1] ?? Number.NEGATIVE_INFINITY,
    );
    const atS = Math.max(...lastS);
    if (!Number.isFinite(atS)) return 'No probe has a reading yet.';
    return {
      log,
      atS,
      intervalS,
      probes: channels.map(({ name, history: { tempC } }, k) => ({
        name,
        ...(atS - lastS[k]! <= Math.max(STALE_S, 3 * intervalS) ? { tempC: tempC[tempC.length - 1]! } : {}),
      })),
    };
  } catch (error) {
    if (error instanceof TemperbookError) return error.message;
    throw error;
  }
}
