import { basename, dirname } from 'node:path';
import { TemperbookError, type Units } from '../../quantity';
import { readRecord } from '../checkRecord';
import { type Amendment, amendRecord } from '../edition/amendRecord';
import { editionsIn } from './editionsIn';
import { partsOfName } from './recordName';
import { type WrittenRecord, writeRecord } from './writeRecord';

/**
 * Writes the next edition of the record in a JSON file beside it; the file itself stays as it is.
 * @throws TemperbookError as `readRecord`, `amendRecord` and `writeRecord`, and when a later edition stands there.
 */
export function amendRecordFile(path: string, amendment: Amendment, units: Units = 'metric'): WrittenRecord {
  const record = readRecord(path);
  const folder = dirname(path);
  const { name } = partsOfName(basename(path).replace(/\.json$/i, ''));
  const last = editionsIn(folder, name).pop();
  if (last && last.record.hash !== record.hash)
    throw new TemperbookError('A later edition of this record stands beside it', {
      file: path,
      found: `edition ${last.record.edition}: ${basename(last.files.json)}`,
      remedy: 'Look at that one, and amend it instead',
    });
  return writeRecord(amendRecord(record, amendment), folder, name, units);
}
