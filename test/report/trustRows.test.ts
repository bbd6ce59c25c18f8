import { describe, expect, it } from 'vitest';
import { sideBySideRows } from '../../lib/report';
import { everyTrust } from '../setup/trust';

describe('rows of both precipitate sets side by side', () => {
  const trust = everyTrust().filter(({ model }) => model.startsWith('precipitate'));
  const rows = sideBySideRows(trust);

  it('hold every measurement once, with an answer of each set', () => {
    expect(rows).toHaveLength(
      new Set(trust.map(({ fact }) => `${fact.dataSet} ${fact.alloy} ${fact.id}`)).size,
    );
    for (const row of rows)
      expect(Object.keys(row)).toEqual([
        'Alloy',
        'Exposure',
        'Measured',
        'precipitate model, published set',
        'precipitate model, calibrated set',
      ]);
  });

  it('say how far off each is and which the fit has seen', () => {
    const mould = rows.find(({ Exposure }) => Exposure === '8 h at 227 °C (441 °F)')!;
    expect(mould['precipitate model, published set']).toMatch(/^\d+ (%|MPa) \(\d+\.\d\)$/);
    expect(rows.some((row) => String(row['precipitate model, calibrated set']).endsWith(' fitted'))).toBe(
      true,
    );
    expect(rows.every((row) => !String(row['precipitate model, published set']).endsWith('fitted'))).toBe(
      true,
    );
  });
});
