import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { TemperbookError } from '../../quantity';
import { evidenceHash } from '../evidence';
import { DRAW_COLUMNS, type DrawColumn, type MemberDraw } from './memberDraw';

/** The members as they are kept: one list per constant, draw by draw. */
export interface MemberTable {
  readonly title: string;
  /** Hash of the evidence they were fitted to; see `evidenceHash`. */
  readonly evidenceHash: string;
  readonly seed: number;
  readonly count: number;
  readonly columns: Readonly<Record<string, readonly number[]>>;
}

/** Where the committed members lie. */
export const MEMBERS_FILE = path.join(__dirname, '../../../data/models/plausibleMetals.json');

let own: MemberTable | undefined;

/**
 * The committed members, the only ones the kit uses.
 * @throws TemperbookError when they were fitted to other evidence than the kit now holds.
 */
export function memberTable(): MemberTable {
  own ??= checkMembers(JSON.parse(readFileSync(MEMBERS_FILE, 'utf8')) as MemberTable);
  return own;
}

/** @throws TemperbookError when members and evidence do not belong together or a column is missing. */
export function checkMembers(table: MemberTable, hash = evidenceHash()): MemberTable {
  if (table.evidenceHash !== hash)
    throw new TemperbookError('The plausible metals were fitted to other evidence', {
      file: MEMBERS_FILE,
      found: `members of evidence ${table.evidenceHash}`,
      expected: `members of evidence ${hash}`,
      remedy: 'Fit them again with npm run fit and look at what moved',
    });
  const short = DRAW_COLUMNS.find((column) => table.columns[column]?.length !== table.count);
  if (short)
    throw new TemperbookError('The plausible metals lack values', {
      file: MEMBERS_FILE,
      column: short,
      found: `${table.columns[short]?.length ?? 0} values`,
      expected: `${table.count}`,
      remedy: 'Fit them again with npm run fit',
    });
  return table;
}

let hash: string | undefined;

/** Tells one fit of the members from another, 16 hex digits of the SHA-256 of their file: what was weighed with them belongs to no others. */
export function membersHash(): string {
  hash ??= createHash('sha256').update(readFileSync(MEMBERS_FILE)).digest('hex').slice(0, 16);
  return hash;
}

/** Draw i of a table. */
export const drawOfTable = ({ columns }: MemberTable, i: number): MemberDraw =>
  Object.fromEntries(DRAW_COLUMNS.map((column) => [column, columns[column]![i]!])) as Record<
    DrawColumn,
    number
  >;

const ownDraws: MemberDraw[] = [];

/** The first `count` of the committed members, draw by draw; default all. */
export function memberDraws(count = memberTable().count): readonly MemberDraw[] {
  const table = memberTable();
  for (let i = ownDraws.length; i < count; i++) ownDraws.push(drawOfTable(table, i));
  return ownDraws.slice(0, count);
}

/** The text of a table as it is kept: one line a column. */
export function memberText({ columns, ...head }: MemberTable): string {
  const lines = Object.entries(columns).map(
    ([name, values]) => `${JSON.stringify(name)}: ${JSON.stringify(values)}`,
  );
  return `${JSON.stringify(head).slice(0, -1)},\n"columns": {\n${lines.join(',\n')}\n}}\n`;
}
