import { createHash } from 'node:crypto';
import { TemperbookError } from '../../quantity';
import type { DecisionRecord } from '../decisionRecord';

/** Letters of a name taken from a job; a longer one is cut. */
const LONGEST = 60;
/** A name given outright may be as long as any file system takes with what the kit adds, bytes. */
const MOST_BYTES = 180;

/**
 * "j-1042-record": from the job's number, else the part, else the log's name. Where letters are lost (another script,
 * a long name) eight digits of its SHA-256 keep two jobs apart.
 */
export function recordName({ job, log }: Pick<DecisionRecord, 'job' | 'log'>): string {
  const from = String(job.job ?? job.part ?? log?.name.replace(/\.[^.]*$/, '') ?? 'temper').normalize('NFC');
  const latin = from.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
  const plain = latin.replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '');
  const isWhole = !/[^a-z0-9\P{L}]|[^0-9\P{N}]/u.test(latin) && plain.length <= LONGEST;
  if (isWhole) return `${plain || 'temper'}-record`;
  const mark = createHash('sha256').update(from).digest('hex').slice(0, 8);
  return `${plain.slice(0, LONGEST).replace(/-+$/, '')}-${mark}-record`.replace(/^-/, 'job-');
}

/** @throws TemperbookError for a name that is not safe as a file's, or that an edition would have. */
export function checkName(name: string): void {
  const isSafe = /^[\p{L}\p{N}](?:[\p{L}\p{N}\p{M}._ -]*[\p{L}\p{N}\p{M}_-])?$/u.test(name);
  const isShort = Buffer.byteLength(name) <= MOST_BYTES;
  if (isSafe && isShort && !EDITION.test(name)) return;
  throw new TemperbookError('A record cannot have this name', {
    found: JSON.stringify(name),
    expected: `letters, digits, points, hyphens; at most ${MOST_BYTES} bytes, no "edition" at its end`,
  });
}

const EDITION = /\.edition-(\d+)$/;

/** "j-1042-record" for the first edition, "j-1042-record.edition-2" for the second. */
export const editionName = (name: string, edition: number): string =>
  edition === 1 ? name : `${name}.edition-${edition}`;

/** The name and the number in `editionName`. */
export function partsOfName(file: string): { readonly name: string; readonly edition: number } {
  const [ending, edition] = EDITION.exec(file) ?? ['', '1'];
  return { name: file.slice(0, file.length - ending.length), edition: Number(edition) };
}
