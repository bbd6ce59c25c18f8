import { createHash } from 'node:crypto';
import type { DecisionRecord } from '../decisionRecord';
import { canonicalJson } from './canonicalJson';

/** A record before its hashes are worked out. */
export type UnsealedRecord = Omit<DecisionRecord, 'hash' | 'partHashes'>;

/** SHA-256 of a value's canonical JSON, in hexadecimal. */
export const hashOf = (value: unknown): string =>
  createHash('sha256').update(canonicalJson(value)).digest('hex');

/**
 * The record with its hashes: `partHashes` holds one for every other part, so that it can be told which was changed;
 * `hash` is that of everything else. A seal shows a slip or a quiet change; it is no signature, because whoever
 * knows how can make another.
 */
export function sealRecord(unsealed: UnsealedRecord): DecisionRecord {
  const partHashes = hashesOf(unsealed);
  return { ...unsealed, partHashes, hash: hashOf({ ...unsealed, partHashes }) };
}

/** Names of the parts that are not as they were sealed, 'job' or 'decision'; empty when the record is as written. */
export function brokenParts(record: DecisionRecord): string[] {
  const { hash, partHashes, ...parts } = record;
  const now = hashesOf(parts);
  const names = new Set([...Object.keys(partHashes), ...Object.keys(now)]);
  const broken = [...names].filter((name) => now[name] !== partHashes[name]);
  if (broken.length > 0) return broken;
  return hashOf({ ...parts, partHashes }) === hash ? [] : ['hash'];
}

function hashesOf(parts: object): Record<string, string> {
  const said = Object.entries(parts).filter(([, part]) => part !== undefined);
  return Object.fromEntries(said.map(([name, part]) => [name, hashOf(part)]));
}
