import { describe, expect, it } from 'vitest';
import { checkEvidence, evidenceHash, evidenceTable, frozenPredictions } from '../../../lib/kinetics';

const rows = evidenceTable();
const copy = (): Record<string, unknown>[] => structuredClone(rows) as unknown as Record<string, unknown>[];
const table = (changed: unknown[]) => ({ title: 'a', columns: {}, rows: changed });

describe('the table of evidence', () => {
  it('holds back the rows that were written down beforehand, no more and no fewer', () => {
    const heldOut = rows.filter(({ use }) => use === 'heldOut').map(({ id }) => id);
    expect(heldOut).toEqual(frozenPredictions().heldOut);
  });

  it('has a frozen prediction of every row', () => {
    expect(frozenPredictions().rows.map(({ id }) => id)).toEqual(rows.map(({ id }) => id));
  });

  it('fits neither common practice nor recalled figures', () => {
    const fitted = rows.filter(({ use }) => use === 'fit');
    expect(fitted.length).toBeGreaterThan(50);
    expect(fitted.filter(({ known }) => known === 'practice' || known === 'memory')).toEqual([]);
  });

  // MIL-HDBK-5J fig. 3.6.2.2.1(d): half an hour at 400, 450 and 500 °F; 6061-O is 0.19 to 0.20 of T6.
  it.each([
    ['204.4C-0.5h', 0.945],
    ['232.2C-0.5h', 0.836],
    ['260C-0.5h', 0.719],
  ])('carries the handbook at %s', (place, kept) => {
    expect(rows.find(({ id }) => id === `6061-handbook-yield-${place}`)?.measured.value).toBe(kept);
  });
});

describe('bad evidence is refused with its place', () => {
  it.each<[string, (changed: Record<string, unknown>[]) => void, RegExp]>([
    [
      'a strength in place of a fraction',
      (c) => {
        c[0]!.measured = { kind: 'value', value: 241, standardError: 3 };
      },
      /rows\[0\]\.measured\.value: found 241, expected a fraction/,
    ],
    [
      'no standard error',
      (c) => {
        c[0]!.measured = { kind: 'value', value: 0.9 };
      },
      /rows\[0\]\.measured: found nothing, expected the key "standardError"/,
    ],
    [
      'a value along something',
      (c) => {
        c[0]!.measured = { kind: 'value', along: 'temperature', value: 0.9, standardError: 0.03 };
      },
      /rows\[0\]\.measured\.along: found "temperature" for value, expected nothing/,
    ],
    [
      'another unit',
      (c) => {
        c[2]!.unit = 'ksi';
      },
      /rows\[2\]\.unit: found "ksi"/,
    ],
    [
      'practice as evidence',
      (c) => {
        c[0]!.known = 'practice';
      },
      /practice is never evidence/,
    ],
    [
      'an id said twice',
      (c) => {
        c[1]!.id = c[0]!.id;
      },
      /a second time/,
    ],
    [
      'a repeat of nothing',
      (c) => {
        c[0]!.use = 'repeat';
      },
      /both or neither/,
    ],
    [
      'a temperature no metal stands',
      (c) => {
        c[0]!.exposure = [{ tempC: 900, timeS: 10 }];
      },
      /rows\[0\]\.exposure\[0\]/,
    ],
  ])('%s', (_, change, message) => {
    const changed = copy();
    change(changed);
    expect(() => checkEvidence(table(changed))).toThrow(message);
  });
});

describe('the hash of the evidence', () => {
  it('moves with a fitted number and not with a note or a row that is not fitted', () => {
    const fitted = rows.findIndex(({ use }) => use === 'fit');
    const other = rows.findIndex(({ use }) => use !== 'fit');
    const changed = (at: number, part: object) =>
      rows.map((row, i) => (i === at ? { ...row, ...part } : row));
    const measured = { kind: 'value', value: 0.5, standardError: 0.03 } as const;
    expect(evidenceHash(changed(fitted, { measured }))).not.toBe(evidenceHash());
    expect(evidenceHash(changed(fitted, { note: 'read again' }))).toBe(evidenceHash());
    expect(evidenceHash(changed(other, { measured }))).toBe(evidenceHash());
  });
});
