import { describe, expect, it } from 'vitest';
import published from '../../../data/published/eurocode9-haz.json';
import { hazExtent, hazExtentUs, hazKnockDown, KNOCK_DOWN_TABLE } from '../../../lib/section';

const supported = <T extends { supported: boolean }>(answer: T) => {
  expect(answer.supported).toBe(true);
  return answer as Extract<T, { supported: true }>;
};

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
  it('holds the published rows and no others', () => {
    expect(KNOCK_DOWN_TABLE).toHaveLength(published.strengths.rows.length);
  });
  it.each(published.strengths.rows)('$alloy $form $temper $thickness mm', (row) => {
    const thicknessMm = Number(/[\d.]+$/.exec(row.thickness)![0]);
    const temper = row.temper.split(/[/,]/)[0]!;
    const form = row.form as 'profile' | 'sheet';
    // MIG within 15 mm is the table itself; thicker rows are asked at 15 mm or just above their lower edge.
    const over = Number(/^([\d.]+)</.exec(row.thickness)?.[1] ?? 0);
    const answer = supported(
      hazKnockDown({
        alloy: row.alloy,
        temper,
        form,
        process: 'MIG',
        thicknessMm: Math.min(thicknessMm, Math.max(15, over + 0.1)),
      }),
    );
    expect(answer).toMatchObject({
      rhoProof: row.rhoProof,
      rhoUltimate: row.rhoUltimate,
      proofHazMPa: row.proofHazMPa,
      ultimateHazMPa: row.ultimateHazMPa,
    });
    expect(answer.row).toMatchObject({
      proofMPa: row.proofMPa,
      ultimateMPa: row.ultimateMPa,
      known: row.known,
    });
    // The factors are printed to two digits beside the strengths they come from, rounded to 5 MPa.
    expect(Math.abs(answer.row.proofHazMPa / answer.row.proofMPa - answer.rhoProof)).toBeLessThan(0.006);
    expect(Math.abs(answer.row.ultimateHazMPa / answer.row.ultimateMPa - answer.rhoUltimate)).toBeLessThan(
      0.006,
    );
  });
  it('TIG above 6 mm on 6061-T6: 175 × 0.8 × 0.8 = 112 MPa', () => {
    const { tig } = published;
    const answer = supported(hazKnockDown({ ...tig, form: 'profile', process: 'TIG' }));
    expect(answer.ultimateHazMPa).toBeCloseTo(tig.ultimateHazMPa, 9);
  });
});

it('one inch each side in the United States', () => {
  expect(supported(hazExtentUs('6061')).extentMm).toBe(published.oneInch.extentMm);
});
