import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { readRecord } from '../checkRecord';
import type { DecisionRecord } from '../decisionRecord';
import { type RecordFiles, textAt } from './placeRecord';
import { editionName, partsOfName } from './recordName';

/** An edition that stands in a folder. */
export interface StoredEdition {
  readonly files: RecordFiles;
  readonly record: DecisionRecord;
}

/** Where an edition of a record stands or would stand. */
export function filesOf(folder: string, name: string, edition: number): RecordFiles {
  const file = join(folder, editionName(name, edition));
  return { html: `${file}.html`, json: `${file}.json` };
}

/**
 * The editions of a record in a folder, first to last.
 * @throws TemperbookError where one of them cannot be read, was changed, or is no record.
 */
export function editionsIn(folder: string, name: string): StoredEdition[] {
  return readdirSync(folder)
    .filter((file) => file.endsWith('.json'))
    .map((file) => partsOfName(file.slice(0, -'.json'.length)))
    .filter((parts) => parts.name === name)
    .sort((a, b) => a.edition - b.edition)
    .map(({ edition }) => {
      const files = filesOf(folder, name, edition);
      textAt(files.json);
      return { files, record: readRecord(files.json) };
    });
}
