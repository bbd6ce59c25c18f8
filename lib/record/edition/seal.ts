import { createHash } from 'node:crypto';
import type { DecisionRecord } from '../decisionRecord';
import { canonicalJson } from './canonicalJson';

/** A record before its hashes are worked out. */
export type UnsealedRecord = Omit<DecisionRecord, 'hash' | 'partHashes'>;

/** SHA-256 of a text in UTF-8, in hexadecimal. */
const hashOf = (text: string | Buffer): string => createHash('sha256').update(text).digest('hex');

/**
 * The record with its hashes: `partHashes` holds one for every other part, so that it can be told which was changed;
 * `hash` is that of everything else. A seal shows a slip or a quiet change; it is no signature, because whoever
 * knows how can make another.
 */
export function sealRecord(unsealed: UnsealedRecord): DecisionRecord {
  const texts = canonicalParts(unsealed);
  const partHashes = hashesOf(texts);
  return { ...unsealed, partHashes, hash: hashOfWhole(texts, partHashes) };
}

/** Names of the parts that are not as they were sealed, 'job' or 'decision'; empty when the record is as written. */
export function brokenParts(record: DecisionRecord): string[] {
  const { hash, partHashes, ...parts } = record;
  const texts = canonicalParts(parts);
  const now = hashesOf(texts);
  const names = new Set([...Object.keys(partHashes), ...Object.keys(now)]);
  const broken = [...names].filter((name) => now[name] !== partHashes[name]);
  if (broken.length > 0) return broken;
  return hashOfWhole(texts, partHashes) === hash ? [] : ['hash'];
}

type Texts = ReadonlyMap<string, Buffer>;

/** Every part as canonical JSON in UTF-8, by its name. */
function canonicalParts(parts: object): Texts {
  const said = Object.entries(parts).filter(([, part]) => part !== undefined);
  return new Map(said.map(([name, part]) => [name, Buffer.from(canonicalJson(part))]));
}

const hashesOf = (texts: Texts): Record<string, string> =>
  Object.fromEntries(Array.from(texts, ([name, text]) => [name, hashOf(text)]));

/** Hash of the canonical JSON of all parts with their hashes, put together from the texts there are. */
function hashOfWhole(texts: Texts, partHashes: Readonly<Record<string, string>>): string {
  const all = new Map(texts).set('partHashes', Buffer.from(canonicalJson(partHashes)));
  const hash = createHash('sha256');
  for (const [i, name] of [...all.keys()].sort().entries())
    hash.update(`${i === 0 ? '{' : ','}${JSON.stringify(name)}:`).update(all.get(name)!);
  return hash.update('}').digest('hex');
}
