import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ANY_FORM, HEAD } from '../decisionRecord';
import { leftovers } from './leftovers';
import { chainProblems, foldersOf, isJsonName, lookAt, type Seen } from './lookAt';
import { type Numbered, numbersOf, sameNumberFindings } from './sameNumber';

/** One thing that is wrong in a folder of records. */
export interface AuditFinding {
  readonly file: string;
  readonly problem: string;
  /** Its numbers are those of another part, and no copy would help. */
  readonly fileIsSound?: true;
}

/** What an audit of a folder of records found. */
export interface Audit {
  /** Editions that were looked at. */
  readonly editions: number;
  /** Records, each with all its editions. */
  readonly records: number;
  readonly findings: readonly AuditFinding[];
}

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

function auditOne(folder: string): Audit & { readonly seen: readonly Numbered[] } {
  const files = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isFile());
  const names = files.map(({ name }) => name);
  const seen = names.filter(isJsonName).flatMap((name) => lookAt(join(folder, name), name) ?? []);
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
      ...[...byName.values()].flatMap((editions) => chainProblems(editions.map(linkOf))),
      ...names.flatMap((name) => loosePage(folder, name, names)),
      ...leftovers(folder).map((file) => ({
        file,
        problem: 'A write that was stopped left this. The next record written here takes it away.',
      })),
    ],
  };
}

/** The last edition of a record that can be read. */
function lastOf(editions: readonly Seen[]): Numbered[] {
  const [last] = [...editions].sort((a, b) => b.edition - a.edition);
  return last?.record ? [numbersOf(last.file, last.record)] : [];
}

function pageProblems({ file, record }: Seen): string[] {
  if (!record) return [];
  const page = file.replace(/\.json$/, '.html');
  if (!existsSync(page))
    return ['Its page is missing. The next review or amendment of this record makes it.'];
  return readFileSync(page, 'utf8').includes(record.hash) ? [] : ['The page beside it is of another record.'];
}

const linkOf = ({ file, edition, record }: Seen) => ({
  file,
  edition,
  hash: record?.hash,
  before: record?.before,
});

function loosePage(folder: string, name: string, names: readonly string[]): AuditFinding[] {
  if (!/^[^.].*\.html$/.test(name) || names.includes(name.replace(/\.html$/, '.json'))) return [];
  const file = join(folder, name);
  const isRecord = readFileSync(file, 'utf8').slice(0, HEAD).includes(ANY_FORM);
  return isRecord ? [{ file, problem: 'The JSON file of this page is missing.' }] : [];
}
