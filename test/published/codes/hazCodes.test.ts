import { describe, expect, it } from 'vitest';
import published from '../../../data/published/eurocode9-haz.json';
import {
  hazExtent,
  hazExtentUs,
  hazKnockDown,
  KNOCK_DOWN_TABLE,
  type ProductForm,
} from '../../../lib/section';
import { supported } from '../../section/supported';

const FORMS: Readonly<Record<string, readonly ProductForm[]>> = {
  EP: ['open profile', 'hollow profile'],
  'EP-open': ['open profile'],
  'EP-hollow': ['hollow profile'],
  ET: ['extruded tube'],
  'ER-B': ['rod'],
  DT: ['drawn tube'],
  sheet: ['sheet'],
};
const formsOf = (codes: string): readonly ProductForm[] => codes.split('/').flatMap((code) => FORMS[code]!);

describe('EN 1999-1-1 cl. 6.1.6.3: extent of the heat-affected zone', () => {
  it.each(published.extents)(
    '$process, $thicknessMm mm: $extentMm mm ($known)',
    ({ process, thicknessMm, extentMm }) => {
      const answer = hazExtent({
        alloy: '6082',
        process: process as 'MIG' | 'TIG',
        joint: 'butt',
        heatPathsMm: [thicknessMm, thicknessMm],
      });
      expect(supported(answer).extentMm).toBe(extentMm);
    },
  );
  it.each(published.interpass)(
    '$series at $interpassC °C: times $factor',
    ({ series, interpassC, factor }) => {
      const alloy = series === '6xxx' ? '6061' : '7020';
      const answer = hazExtent({ alloy, process: 'MIG', joint: 'butt', heatPathsMm: [5, 5], interpassC });
      expect(supported(answer).extentMm).toBeCloseTo(20 * factor, 12);
    },
  );
});

describe('EN 1999-1-1 table 3.2: strength left', () => {
  const rows = [...published.strengths.rows, ...published.strengths.furtherRows];
  it('holds the published rows and no others', () => {
    expect(KNOCK_DOWN_TABLE).toHaveLength(rows.length);
    expect(published.strengths.furtherRows).toHaveLength(17);
  });
  it.each(rows)('$alloy $form $temper $thickness mm', (row) => {
    const upToMm = Number(/[\d.]+$/.exec(row.thickness)![0]);
    const overMm = Number(/^([\d.]+)</.exec(row.thickness)?.[1] ?? 0);
    // MIG within 15 mm is the table itself; thicker rows are asked at 15 mm or just above their lower edge.
    const thicknessMm = Math.min(upToMm, Math.max(15, overMm + 0.1));
    for (const form of formsOf(row.form))
      for (const temper of row.temper.split(/[/,]/).map((name) => (/^\d/.test(name) ? `H${name}` : name)))
        expectRow(
          row,
          supported(hazKnockDown({ alloy: row.alloy, temper, form, process: 'MIG', thicknessMm })),
        );
  });
  it('a drawn tube never borrows the row of an extrusion', () => {
    for (const row of rows) {
      if (row.form.includes('DT') || row.form === 'sheet') continue;
      const temper = row.temper.split(/[/,]/)[0]!;
      const answer = hazKnockDown({
        alloy: row.alloy,
        temper,
        form: 'drawn tube',
        process: 'MIG',
        thicknessMm: 3,
      });
      const own = rows.find((r) => r.alloy === row.alloy && r.temper === row.temper && r.form.includes('DT'));
      if (!own) expect(answer.supported).toBe(false);
      else expect(supported(answer).row.proofMPa).toBe(own.proofMPa);
    }
  });
  const expectRow = (
    row: (typeof rows)[number],
    answer: Extract<ReturnType<typeof hazKnockDown>, { supported: true }>,
  ): void => {
    expect(answer).toMatchObject({
      rhoProof: row.rhoProof,
      rhoUltimate: row.rhoUltimate,
      proofHazMPa: row.proofHazMPa,
      ultimateHazMPa: row.ultimateHazMPa,
    });
    expect(answer.row).toMatchObject({
      proofMPa: row.proofMPa,
      ultimateMPa: row.ultimateMPa,
      bucklingClass: row.bucklingClass,
      known: row.known,
    });
    // The factors are printed to two digits beside the strengths they come from, rounded to 5 MPa.
    expect(Math.abs(answer.row.proofHazMPa / answer.row.proofMPa - answer.rhoProof)).toBeLessThan(0.006);
    expect(Math.abs(answer.row.ultimateHazMPa / answer.row.ultimateMPa - answer.rhoUltimate)).toBeLessThan(
      0.006,
    );
  };
  it('TIG above 6 mm on 6061-T6: 175 × 0.8 × 0.8 = 112 MPa', () => {
    const { tig } = published;
    const answer = supported(hazKnockDown({ ...tig, form: 'extruded tube', process: 'TIG' }));
    expect(answer.ultimateHazMPa).toBeCloseTo(tig.ultimateHazMPa, 9);
  });
});

it('one inch each side in the United States', () => {
  expect(supported(hazExtentUs('6061')).extentMm).toBe(published.oneInch.extentMm);
});
