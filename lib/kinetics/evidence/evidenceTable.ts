import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type DataProblem, dataCheck, refuseProblems } from '../../quantity';
import type { EvidenceRow } from './evidenceRow';
import { EVIDENCE_SCHEMA } from './evidenceSchema';

const FILE = path.join(__dirname, '../../../data/published/evidence.json');

let own: readonly EvidenceRow[] | undefined;

/** Every measured fact about strength after heat that the kit holds, in the order of data/published/evidence.json. */
export function evidenceTable(): readonly EvidenceRow[] {
  own ??= checkEvidence(JSON.parse(readFileSync(FILE, 'utf8')), FILE);
  return own;
}

const formProblems = dataCheck(EVIDENCE_SCHEMA, 'the table');

/**
 * The rows of a table of evidence after every check: its form, units that suit what was measured, ids that are said
 * once, repeats that repeat a row, and nothing fitted that is common practice.
 * @throws TemperbookError with every problem at once.
 */
export function checkEvidence(data: unknown, file?: string): readonly EvidenceRow[] {
  const form = formProblems(data);
  const rows = form.length > 0 ? [] : (data as { readonly rows: readonly EvidenceRow[] }).rows;
  refuseProblems('This table of evidence', [...form, ...rows.flatMap((_, i) => rowProblems(rows, i))], {
    ...(file === undefined ? {} : { file }),
    remedy: 'Compare with the rows of data/published/evidence.json',
  });
  return rows;
}

/** A fraction far above this is a percentage or a strength in MPa. */
const MOST_KEPT = 2;
/** A strength in MPa below this is a fraction or in ksi. */
const LEAST_MPA = 20;

function rowProblems(rows: readonly EvidenceRow[], i: number): readonly DataProblem[] {
  const { id, unit, measured, use, known, repeats } = rows[i]!;
  const problems: DataProblem[] = [];
  const problem = (key: string, found: string, expected: string): void => {
    problems.push({ at: `rows[${i}].${key}`, found, expected });
  };
  if (rows.findIndex((other) => other.id === id) < i) problem('id', `"${id}" a second time`, 'a new id');
  if ((measured.kind === 'peak') !== (unit === '1'))
    problem('unit', `"${unit}" for ${measured.kind}`, 'unit 1 for a peak and for nothing else');
  if (measured.along !== undefined && measured.kind !== 'peak')
    problem(
      'measured.along',
      `"${measured.along}" for ${measured.kind}`,
      'nothing: only a peak lies along something',
    );
  if (unit === 'fraction' && measured.value > MOST_KEPT)
    problem('measured.value', `${measured.value}`, 'a fraction of the value before, not % or MPa');
  if (unit === 'MPa' && measured.value < LEAST_MPA)
    problem('measured.value', `${measured.value} MPa`, 'a strength in MPa, not a fraction or ksi');
  if (use === 'fit' && known === 'practice')
    problem('use', 'fit for common practice', 'check: practice is never evidence for a fit');
  if ((use === 'repeat') !== (repeats !== undefined))
    problem('repeats', `use "${use}" ${repeats ? 'with' : 'without'} repeats`, 'both or neither');
  if (repeats !== undefined && !rows.some((other) => other.id === repeats))
    problem('repeats', `"${repeats}"`, 'the id of another row');
  return problems;
}

/**
 * What fitted models of the metal rest on, as a hash (SHA-256, 16 hex digits): rows marked `fit`, without the words
 * that no fit reads. A changed number, use, lot or exposure changes it; a better note does not.
 */
export function evidenceHash(rows: readonly EvidenceRow[] = evidenceTable()): string {
  const read = rows
    .filter(({ use }) => use === 'fit')
    .map(({ form: _form, source: _source, note: _note, ...row }) => row);
  return createHash('sha256').update(JSON.stringify(read)).digest('hex').slice(0, 16);
}
