import type { Verdict } from '../decision';
import { type Figure, figureName, verdictFigure } from '../figure';
import type { ThermalLog } from '../log';
import type { Reading } from '../verify';
import { checkRecord } from './checkRecord';
import {
  type ConsideredOption,
  type Decision,
  type DecisionRecord,
  RECORD_FORM,
  type RecordedFigure,
  type RecordedLog,
  type SignOffLine,
} from './decisionRecord';
import { sealRecord, type UnsealedRecord } from './edition/seal';
import { asRecorded, recordedVerdict } from './heat/recordedVerdict';
import { jobSheet } from './jobSheet';
import { kitVersion } from './kitVersion';

/** What goes into a record; the verdict is the only must. */
export interface RecordParts {
  readonly verdict: Verdict;
  /** The log the verdict is about. */
  readonly log?: ThermalLog;
  /** Lines of the job sheet, see `JOB_FIELDS`. */
  readonly job?: Readonly<Record<string, unknown>>;
  /** Pictures, with a caption where the figure's own title does not say enough. */
  readonly figures?: readonly (Figure | RecordedFigure)[];
  readonly options?: readonly ConsideredOption[];
  /** Bench readings that the verdict does not count. */
  readonly readings?: readonly Reading[];
  readonly decision?: Decision;
  /** Lines to sign; one for who decides and one for who checks it unless given. */
  readonly signOff?: readonly SignOffLine[];
  /** When the record is written, if it is to say so: the kit itself asks no clock. */
  readonly writtenAt?: string;
  /** Versions of whatever else the numbers rest on. */
  readonly versions?: Readonly<Record<string, string>>;
}

const TWO_PEOPLE: readonly SignOffLine[] = [{ role: 'Decided by' }, { role: 'Checked by' }];

/**
 * Gathers a decision record, a first edition. Without figures it draws the verdict's own picture from the log. The same parts
 * always give the same record.
 * @throws TemperbookError when a part is not what a record can hold: an unknown line of the job sheet, a
 * disposition outside the list, a decision without a reason, a number that is not finite.
 */
export function buildRecord(parts: RecordParts): DecisionRecord {
  const { verdict, log, options = [], readings = [], decision, writtenAt, signOff = TWO_PEOPLE } = parts;
  const figures = parts.figures ?? (log ? [verdictFigure(log, verdict)] : []);
  const record: UnsealedRecord = {
    form: RECORD_FORM,
    edition: 1,
    changes: [],
    ...(writtenAt === undefined ? {} : { writtenAt }),
    versions: { temperbook: kitVersion(), ...parts.versions },
    job: jobSheet(parts.job ?? {}),
    ...(log ? { log: recordedLog(log) } : {}),
    verdict: recordedVerdict(verdict),
    figures: figures.map((item) => ('figure' in item ? item : { caption: figureName(item), figure: item })),
    options,
    readings,
    ...(decision ? { decision } : {}),
    signOff,
  };
  // Through JSON and back: what is checked and shown is exactly what the file will hold.
  return checkRecord(sealRecord(asRecorded(record)));
}

function recordedLog(log: ThermalLog): RecordedLog {
  return {
    ...log.source,
    ...(log.startedAt === undefined ? {} : { startedAt: log.startedAt }),
    intervalS: log.intervalS,
    rows: log.rows,
    channels: log.channels.map(({ name, sourceUnit, history, faults }) => ({
      name,
      sourceUnit,
      samples: history.timeS.length,
      faults,
    })),
    leftAside: log.leftAside,
    rowFaults: log.rowFaults,
    notes: log.notes,
  };
}
