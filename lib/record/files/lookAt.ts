import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { TemperbookError } from '../../quantity';
import { changedParts, checkRecord } from '../checkRecord';
import { ANY_FORM, type DecisionRecord, HEAD } from '../decisionRecord';
import { partsOfName } from './recordName';

/** A file that says it is a record; `record` where it can be read as one. */
export interface Seen {
  readonly file: string;
  readonly name: string;
  readonly edition: number;
  readonly record?: DecisionRecord;
  readonly problems: readonly string[];
}

/** Names that a record's JSON file may have: none that begins with a point. */
export const isJsonName = (name: string): boolean => /^[^.].*\.json$/.test(name);

/**
 * A folder and those inside it.
 * @throws TemperbookError when one cannot be read.
 */
export function foldersOf(folder: string): string[] {
  try {
    const inside = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isDirectory());
    return [folder, ...inside.flatMap(({ name }) => foldersOf(join(folder, name)))];
  } catch (error) {
    const isFile = statSync(folder, { throwIfNoEntry: false })?.isFile();
    throw new TemperbookError('The folder cannot be read', {
      file: folder,
      found: isFile ? 'a file' : error instanceof Error ? error.message : String(error),
      remedy: isFile ? `Give the folder it is in: ${dirname(folder)}` : 'Check its name',
    });
  }
}

/** A JSON file as a record, with what is wrong with it; undefined where it does not say that it is one. `bytes` are its own, where they were read. */
export function lookAt(file: string, fileName: string, bytes?: Buffer): Seen | undefined {
  const { name, edition } = partsOfName(fileName.slice(0, -'.json'.length));
  const seen = { file, name, edition };
  let changed = '';
  try {
    const text = (bytes ?? readFileSync(file)).toString('utf8');
    const isEmptied = /-record$/.test(name) && text.trim() === '';
    if (!text.slice(0, HEAD).includes(ANY_FORM) && !isEmptied) return undefined;
    const value: unknown = JSON.parse(text);
    changed = changedParts(value).join(', ');
    const record = checkRecord(value);
    const problems = [
      ...(changed ? [`Changed after it was written: ${changed}.`] : []),
      ...(record.edition === edition ? [] : [`It is edition ${record.edition}, its name says ${edition}.`]),
    ];
    return { ...seen, record, problems };
  } catch (error) {
    if (changed) return { ...seen, problems: [`Changed after it was written: ${changed}.`] };
    const what = error instanceof Error ? error.message : String(error);
    return { ...seen, problems: [error instanceof SyntaxError ? `Cut short or damaged: ${what}.` : what] };
  }
}

/** An edition as far as its place in a chain goes. */
export interface Link {
  readonly file: string;
  readonly edition: number;
  /** Absent where the file cannot be read as a record. */
  readonly hash?: string;
  readonly before?: string;
}

/** What is wrong with a chain of editions: holes, and editions that follow another hash. */
export function chainProblems(
  editions: readonly Link[],
): { readonly file: string; readonly problem: string }[] {
  const sorted = [...editions].sort((a, b) => a.edition - b.edition);
  return sorted.flatMap(({ file, edition, hash, before }, i) => {
    const last = sorted[i - 1];
    if (edition !== (last?.edition ?? 0) + 1)
      return [{ file, problem: `Edition ${edition - 1}, which it follows, is missing.` }];
    if (last?.hash === undefined || hash === undefined || before === last.hash) return [];
    return [
      { file, problem: `It does not follow edition ${last.edition} as that stands now: another hash.` },
    ];
  });
}
