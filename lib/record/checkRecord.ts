import { existsSync, readFileSync, statSync } from 'node:fs';
import { basename } from 'node:path';
import { dataCheck, refuseProblems, TemperbookError } from '../quantity';
import { ANY_FORM, type DecisionRecord, HEAD, RECORD_FORM } from './decisionRecord';
import { brokenParts } from './edition/seal';
import { impossibilities } from './impossibilities';
import { recordSchema } from './recordSchema';

const problemsOfForm = dataCheck(recordSchema, 'the record');

/**
 * The value as a decision record, if it is one and says nothing that cannot be.
 * @throws TemperbookError that lists every place that is not as `recordSchema` says, or names what contradicts itself.
 */
export function checkRecord(value: unknown, file?: string): DecisionRecord {
  refuseOtherForm(value, file);
  refuseProblems('This decision record', problemsOfForm(value), { file });
  const record = value as DecisionRecord;
  const [impossible] = impossibilities(record);
  if (impossible === undefined) return record;
  throw new TemperbookError('This record says what cannot be', { file, ...impossible });
}

/** Parts of a record of this form that were changed by hand, whatever they say now; none where it has no hashes to tell by. */
export function changedParts(value: unknown): string[] {
  const { form, partHashes } = Object(value) as Partial<DecisionRecord>;
  const isSealed = form === RECORD_FORM && typeof partHashes === 'object' && partHashes !== null;
  return isSealed ? brokenParts(value as DecisionRecord) : [];
}

/** The record itself when its hashes fit. @throws TemperbookError naming every part that was changed. */
export function checkSeal(record: DecisionRecord, file?: string): DecisionRecord {
  refuseChanged(brokenParts(record), file);
  return record;
}

function refuseChanged(broken: readonly string[], file: string | undefined): void {
  if (broken.length === 0) return;
  throw new TemperbookError('This record was changed after it was written', {
    file,
    found: `changed by hand: ${broken.join(', ')}`,
    expected: 'what its hash was worked out from',
    remedy:
      'Bring back the file as it was written; to correct a record make a new edition (temperbook amend, amendRecord)',
  });
}

/**
 * Reads a record's JSON file.
 * @throws TemperbookError when the file cannot be read, is not a record, says what cannot be, or was changed by hand:
 * the message names the parts.
 */
export function readRecord(path: string): DecisionRecord {
  const text = textOf(path);
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    if (text.trimStart().startsWith('<'))
      throw new TemperbookError('This is a page, and a record’s data stand in the .json file beside it', {
        file: path,
        remedy: `Give ${basename(path).replace(/\.html?$/i, '')}.json`,
      });
    const isOther = text.trim() !== '' && !text.slice(0, HEAD).includes(ANY_FORM);
    if (isOther) refuseOtherForm(undefined, path);
    throw new TemperbookError('The record cannot be read', {
      file: path,
      found: error instanceof Error ? error.message : String(error),
      expected: 'a whole record: this one is cut short or damaged',
      remedy: 'Bring it back from a copy',
    });
  }
  // That it was changed by hand says more than that it cannot be what it says now.
  refuseChanged(changedParts(value), path);
  return checkRecord(value, path);
}

function textOf(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    const isThere = existsSync(path);
    if (isThere && statSync(path).isDirectory())
      throw new TemperbookError('This is a folder, not a record', {
        file: path,
        remedy: 'Name the .json file of one record in it',
      });
    throw new TemperbookError(isThere ? 'The record cannot be opened' : 'There is no such record', {
      file: path,
      ...(isThere ? { found: (error as Error).message } : { remedy: 'Check its name and folder' }),
    });
  }
}

/** The number of a form; those of another have other parts, so nothing can be worked out from them anew. */
const NUMBERED = /^(temperbook decision record) (\d+)$/;

/** Says at once what stands there instead of a record of this form. */
function refuseOtherForm(value: unknown, file: string | undefined): void {
  const form = typeof value === 'object' && value !== null && 'form' in value ? value.form : undefined;
  if (form === RECORD_FORM) return;
  const [, kind, number] = NUMBERED.exec(String(form)) ?? [];
  const ours = Number(NUMBERED.exec(RECORD_FORM)![2]);
  if (kind === undefined)
    throw new TemperbookError('This is not a decision record', {
      file,
      found: typeof form === 'string' ? `"${form}"` : undefined,
      expected: `a file whose form is "${RECORD_FORM}"`,
      remedy: 'Records are called …-record.json and stand where the review put them',
    });
  const isEarlier = Number(number) < ours;
  throw new TemperbookError(
    `This decision record is of ${isEarlier ? 'an earlier' : 'a later'} form, which this version cannot add to`,
    {
      file,
      found: `"${form}"`,
      expected: `"${RECORD_FORM}"`,
      remedy: isEarlier
        ? 'It is left as it is, and its page can still be read: move its two files to a folder of their own, then review the log again for a record of this form'
        : 'It is left as it is: bring the kit up to date',
    },
  );
}
