import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { TemperbookError } from '../../quantity';
import { checkRecord } from '../checkRecord';
import type { DecisionRecord } from '../decisionRecord';
import { brokenParts } from '../edition/seal';
import { leftovers } from './leftovers';
import { partsOfName } from './recordName';
import { type Filed, sameNumberFindings } from './sameNumber';

/** One thing that is wrong in a folder of records. */
export interface AuditFinding {
  readonly file: string;
  readonly problem: string;
}

/** What an audit of a folder of records found. */
export interface Audit {
  /** Editions that were looked at. */
  readonly editions: number;
  /** Records, each with all its editions. */
  readonly records: number;
  readonly findings: readonly AuditFinding[];
}

/** Any version of the kit's record has this near its start. */
const ANY_FORM = 'temperbook decision record';
const HEAD = 2000;

/**
 * Checks every record of a folder and its subfolders: that each is whole, says nothing that cannot be and fits its hash, that
 * editions follow one another without a hole by the hash they name, that each has its page, and that nothing half
 * written lies about; and that no two parts have one number. It cannot see that the last edition, or a whole record, was taken away.
 * @throws TemperbookError when the folder cannot be read.
 */
export function auditFolder(folder: string): Audit {
  const audits = foldersOf(folder).map(auditOne);
  const last = audits.flatMap(({ seen }) => seen);
  return {
    editions: audits.reduce((sum, { editions }) => sum + editions, 0),
    records: audits.reduce((sum, { records }) => sum + records, 0),
    findings: [...audits.flatMap(({ findings }) => findings), ...sameNumberFindings(last)],
  };
}

function foldersOf(folder: string): string[] {
  try {
    const inside = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isDirectory());
    return [folder, ...inside.flatMap(({ name }) => foldersOf(join(folder, name)))];
  } catch (error) {
    throw new TemperbookError('The folder cannot be read', {
      file: folder,
      found: error instanceof Error ? error.message : String(error),
    });
  }
}

/** A file that says it is a record; `record` where it can be read as one. */
interface Seen {
  readonly file: string;
  readonly name: string;
  readonly edition: number;
  readonly record?: DecisionRecord;
  readonly problems: readonly string[];
}

function auditOne(folder: string): Audit & { readonly seen: readonly Filed[] } {
  const files = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isFile());
  const names = files.map(({ name }) => name);
  const seen = names.flatMap((name) => (/^[^.].*\.json$/.test(name) ? look(join(folder, name), name) : []));
  const byName = new Map<string, Seen[]>();
  for (const one of seen) byName.set(one.name, [...(byName.get(one.name) ?? []), one]);
  return {
    editions: seen.length,
    records: byName.size,
    seen: [...byName.values()].flatMap(lastOf),
    findings: [
      ...seen.flatMap((one) =>
        [...one.problems, ...pageProblems(one)].map((problem) => ({ file: one.file, problem })),
      ),
      ...[...byName.values()].flatMap(chainFindings),
      ...names.flatMap((name) => loosePage(folder, name, names)),
      ...leftovers(folder).map((file) => ({
        file,
        problem: 'A write that was stopped left this. The next record written here takes it away.',
      })),
    ],
  };
}

function look(file: string, fileName: string): Seen[] {
  const text = readFileSync(file, 'utf8');
  const { name, edition } = partsOfName(fileName.slice(0, -'.json'.length));
  const isEmptied = /-record$/.test(name) && text.trim() === '';
  if (!text.slice(0, HEAD).includes(ANY_FORM) && !isEmptied) return [];
  const seen = { file, name, edition };
  try {
    const record = checkRecord(JSON.parse(text));
    const broken = brokenParts(record);
    const problems = [
      ...(broken.length > 0 ? [`Changed after it was written: ${broken.join(', ')}.`] : []),
      ...(record.edition === edition ? [] : [`It is edition ${record.edition}, its name says ${edition}.`]),
    ];
    return [{ ...seen, record, problems }];
  } catch (error) {
    const what = error instanceof Error ? error.message : String(error);
    return [{ ...seen, problems: [error instanceof SyntaxError ? `Cut short or damaged: ${what}.` : what] }];
  }
}

/** The last edition of a record that can be read. */
function lastOf(editions: readonly Seen[]): Filed[] {
  const [last] = [...editions].sort((a, b) => b.edition - a.edition);
  return last?.record ? [{ file: last.file, record: last.record }] : [];
}

function pageProblems({ file, record }: Seen): string[] {
  if (!record) return [];
  const page = file.replace(/\.json$/, '.html');
  if (!existsSync(page)) return ['Its page is missing. Writing the record again makes it.'];
  return readFileSync(page, 'utf8').includes(record.hash) ? [] : ['The page beside it is of another record.'];
}

function chainFindings(editions: readonly Seen[]): AuditFinding[] {
  const sorted = [...editions].sort((a, b) => a.edition - b.edition);
  return sorted.flatMap(({ file, edition, record }, i) => {
    const last = sorted[i - 1];
    if (edition !== (last?.edition ?? 0) + 1)
      return [{ file, problem: `Edition ${edition - 1}, which it follows, is missing.` }];
    if (!last?.record || !record || record.before === last.record.hash) return [];
    return [
      { file, problem: `It does not follow edition ${last.edition} as that stands now: another hash.` },
    ];
  });
}

function loosePage(folder: string, name: string, names: readonly string[]): AuditFinding[] {
  if (!/^[^.].*\.html$/.test(name) || names.includes(name.replace(/\.html$/, '.json'))) return [];
  const file = join(folder, name);
  const isRecord = readFileSync(file, 'utf8').slice(0, HEAD).includes(ANY_FORM);
  return isRecord ? [{ file, problem: 'The JSON file of this page is missing.' }] : [];
}
