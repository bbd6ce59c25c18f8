import { readFileSync } from 'node:fs';
import Ajv, { type ErrorObject } from 'ajv';
import { TemperbookError } from '../quantity';
import type { DecisionRecord } from './decisionRecord';
import { recordSchema } from './recordSchema';

const isRecord = new Ajv().compile<DecisionRecord>(recordSchema);

/**
 * The value as a decision record, if it is one.
 * @throws TemperbookError naming the first place that is not as `recordSchema` says.
 */
export function checkRecord(value: unknown, file?: string): DecisionRecord {
  if (isRecord(value)) return value;
  const first = isRecord.errors?.[0];
  throw new TemperbookError('This is not a decision record', {
    file,
    column: first?.instancePath.replace(/^\//, '').replace(/\//g, '.'),
    expected: first && expectation(first),
  });
}

/**
 * Reads a record's JSON file, so that its page can be written again.
 * @throws TemperbookError when the file cannot be read or is not a record.
 */
export function readRecord(path: string): DecisionRecord {
  let value: unknown;
  try {
    value = JSON.parse(readFileSync(path, 'utf8'));
  } catch (error) {
    throw new TemperbookError('The record cannot be read', {
      file: path,
      found: error instanceof Error ? error.message : String(error),
    });
  }
  return checkRecord(value, path);
}

function expectation({ message = '', params }: ErrorObject): string {
  if ('allowedValues' in params) return `one of ${params.allowedValues.join(', ')}`;
  if ('additionalProperty' in params) return `nothing named ${params.additionalProperty}`;
  return message.replace(/^must /, 'it to ');
}
