import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { brokenParts, canonicalJson } from '../../../lib/record';
import { fc } from '../../setup/fc';
import { sampleRecord } from '../samples';

describe('canonicalJson', () => {
  // RFC 8785, sections 3.2.2 and 3.2.4: the sample object and its canonical form (from memory).
  it('writes the sample of RFC 8785 as that does', () => {
    const sample = JSON.parse(
      '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}',
    );
    expect(canonicalJson(sample)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
  });

  // RFC 8785, section 3.2.3: names are sorted by their UTF-16 units (from memory).
  it('sorts names by UTF-16 units, as RFC 8785 has them', () => {
    const names = ['\u20ac', '\r', '\ufb33', '1', '\ud83d\ude00', '\u0080', '\u00f6'];
    const text = canonicalJson(Object.fromEntries(names.map((name) => [name, 0])));
    expect(Object.keys(JSON.parse(text))).toEqual([
      '1',
      '\r',
      '\u0080',
      '\u00f6',
      '\u20ac',
      '\ud83d\ude00',
      '\ufb33',
    ]);
  });

  it('says the same whatever the order of the keys, and loses nothing', () => {
    const turned = (value: unknown): unknown =>
      typeof value !== 'object' || value === null
        ? value
        : Array.isArray(value)
          ? value.map(turned)
          : Object.fromEntries(
              Object.entries(value)
                .reverse()
                .map(([key, item]) => [key, turned(item)]),
            );
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const plain = JSON.parse(JSON.stringify(value));
        expect(canonicalJson(turned(plain))).toBe(canonicalJson(plain));
        expect(JSON.parse(canonicalJson(plain))).toEqual(plain);
      }),
      { seed: 8 },
    );
  });
});

describe('the seal of a record', () => {
  const record = sampleRecord();

  it('is SHA-256 of the canonical JSON of all else', () => {
    const { hash, ...rest } = record;
    expect(createHash('sha256').update(canonicalJson(rest)).digest('hex')).toBe(hash);
    expect(brokenParts(record)).toEqual([]);
  });

  it('tells every part that was changed, added or taken away, and a hash that was made up', () => {
    const { decision: _, ...undecided } = record;
    expect(brokenParts(undecided)).toEqual(['decision']);
    expect(brokenParts({ ...record, writtenAt: 'later', job: {} })).toEqual(['job', 'writtenAt']);
    expect(brokenParts({ ...record, hash: 'a'.repeat(64) })).toEqual(['hash']);
  });
});
