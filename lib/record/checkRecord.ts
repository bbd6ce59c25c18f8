import { readFileSync } from 'node:fs';
import Ajv, { type ErrorObject } from 'ajv';
import { TemperbookError } from '../quantity';
import { type DecisionRecord, RECORD_FORM } from './decisionRecord';
import { brokenParts } from './edition/seal';
import { impossibilities } from './impossibilities';
import { recordSchema } from './recordSchema';

const isRecord = new Ajv().compile<DecisionRecord>(recordSchema);

/**
 * The value as a decision record, if it is one and says nothing that cannot be.
 * @throws TemperbookError naming the first place that is not as `recordSchema` says, or what contradicts itself.
 */
export function checkRecord(value: unknown, file?: string): DecisionRecord {
  if (!isRecord(value)) {
    const first = isRecord.errors?.[0];
    throw new TemperbookError('This is not a decision record', {
      file,
      column: first?.instancePath.replace(/^\//, '').replace(/\//g, '.'),
      found: formOf(value),
      expected: first && expectation(first),
    });
  }
  const [impossible] = impossibilities(value);
  if (impossible === undefined) return value;
  throw new TemperbookError('This record says what cannot be', { file, ...impossible });
}

/** The record itself when its hashes fit. @throws TemperbookError naming every part that was changed. */
export function checkSeal(record: DecisionRecord, file?: string): DecisionRecord {
  const broken = brokenParts(record);
  if (broken.length === 0) return record;
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
  let value: unknown;
  try {
    value = JSON.parse(readFileSync(path, 'utf8'));
  } catch (error) {
    throw new TemperbookError('The record cannot be read', {
      file: path,
      found: error instanceof Error ? error.message : String(error),
      remedy: 'Where a file is cut short, bring it back from a copy',
    });
  }
  return checkSeal(checkRecord(value, path), path);
}

/** Records of an earlier form are told as such. */
function formOf(value: unknown): string | undefined {
  const form = typeof value === 'object' && value !== null && 'form' in value ? value.form : undefined;
  return typeof form === 'string' && form !== RECORD_FORM ? `"${form}"` : undefined;
}

function expectation({ message = '', params }: ErrorObject): string {
  if ('allowedValues' in params) return `one of ${params.allowedValues.join(', ')}`;
  if ('additionalProperty' in params) return `nothing named ${params.additionalProperty}`;
  return message.replace(/^must /, 'it to ');
}
