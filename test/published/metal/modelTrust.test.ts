import { describe, expect, it } from 'vitest';
import { trustSummary } from '../../../lib/validation';
import { everyTrust, everyVerdict, everyWeldZone } from '../../setup/trust';

/** Every row names its source in data/published/overageing.json and ageing.json. */
const rows = everyTrust().filter(({ model }) => model === 'precipitate model, published set');
const verdicts = everyVerdict();
const published = (alloy: string) =>
  rows.filter(({ fact }) => fact.alloy === alloy && fact.dataSet === 'over-ageing');

/** Facts outside the band of the verdict, each with its reason. */
const outside: Readonly<Record<string, string>> = {
  '6063-390F-16h':
    'Below 0.804 after 16 h at 199 °C, yet not after 2 h at 218 °C: a quarter of a point under the band of a new lot.',
  '6082-190C-14h-more':
    'One of three rows of 6082, one and a half points above the band: this lot softens later than 6082 does among the plausible metals.',
  '6082-two-stage-bar':
    'A bar as hard after 170 °C 2 h and 220 °C 1 h as after a full age; three points above the band.',
  'A356-sand-T6-T71':
    'Recalled typical values of two tempers, not a pair of one lot; the curve was fitted to the seen pair of 356, which loses less.',
};

describe('the band of the verdict, for a well fixed probe, holds what was measured', () => {
  it.each(verdicts.map((row) => ({ alloy: row.fact.alloy, id: row.fact.id, row })))(
    '$alloy: $id',
    ({ id, row }) => {
      expect(row.insideBand).toBe(!(id in outside));
    },
  );

  // Ten bands in eleven that hold may be luck or width: half of them are narrower than a fifth of the yield.
  it('and is not right by being wide', () => {
    const widths = verdicts.map(({ low, high }) => high! - low!);
    expect(widths.filter((width) => width < 0.2).length).toBeGreaterThan(widths.length / 2);
  });
});

describe('the clock of the published precipitate model', () => {
  // Independent solver against the extrusions of Cal Poly 2015: 54 h modelled to 0.87 at 199 °C against 8 to 16 h
  // measured, that is 3.4 to 6.8 times too slow; with the other brackets taken as 3 to 7.
  it('6061 over-ages 3 to 7 times too slowly', () => {
    const { nominal, low, high } = trustSummary(published('6061')).clock!;
    expect(nominal).toBeGreaterThan(3);
    expect(nominal).toBeLessThan(7);
    const bracket = published('6061').filter(({ fact }) => fact.id.startsWith('6061-390F'));
    // Within 5 % of 54/16 and 54/8: the start is anchored to 276 MPa here, the solver's own 284 MPa there.
    expect(
      Math.abs(bracket.find(({ fact }) => fact.kind === 'below')!.timeFactor!.low! / (54 / 16) - 1),
    ).toBeLessThan(0.05);
    expect(
      Math.abs(bracket.find(({ fact }) => fact.kind === 'atLeast')!.timeFactor!.high! / (54 / 8) - 1),
    ).toBeLessThan(0.05);
    expect(low).toBeLessThan(3.4);
    expect(high).toBeGreaterThan(5);
  });

  // Known difference: the same tests of 6063 ask for more than the 7 that reviews of the model give.
  it('6063 is a little beyond: 5.7 to 10', () => {
    const { nominal, low } = trustSummary(published('6063')).clock!;
    expect(nominal).toBeGreaterThan(7);
    expect(low).toBeLessThan(7);
  });

  // Mrowka-Nowotnik 2009 and the two-stage bar: a factor of 1 to 2, at most 3.
  it('6082 is at most 3 times too slow', () => {
    expect(trustSummary(published('6082')).clock!.high).toBeLessThan(3);
  });

  // S. Wisutmethangoon et al., Mater. Sci. Eng. A 532 (2012): peaks at 165 °C 18 h and 195 °C 3 h. An independent
  // solver with the published set peaks at 52.7 and 5.0 h. The peaks are flat: the 0.18 MPa that the steps of the
  // model are good for is reached 20 % in time before them and more after, so 20 %.
  it.each([
    ['A356-165C-peak', 52.7 / 18],
    ['A356-195C-peak', 5 / 3],
  ])('%s comes too late by %d', (id, factor) => {
    const row = rows.find(({ fact }) => fact.id === id && fact.alloy === 'A356.0')!;
    expect(Math.abs(row.timeFactor!.nominal! / factor - 1)).toBeLessThan(0.2);
  });
});

describe('the soft zone of a welded T6 profile', () => {
  const rows = everyWeldZone();
  const code = { '6061': 115, '6063': 65, '6082': 125 };

  // EN 1999-1-1:2007 table 3.2 (6082 from memory): characteristic proof stress after 3 days, what 95 parts in 100 reach.
  // It is printed in steps of 5 MPa, so it is good for half a step.
  it.each(rows)('$alloy: the 5 % line is no kinder than the code’s $codeMPa MPa', (row) => {
    expect(row.codeMPa).toBe(code[row.alloy as keyof typeof code]);
    expect(row.lowLessCodeMPa).toBeLessThanOrEqual(2.5);
  });

  // What 95 in 100 reach, a typical part reaches. Known difference: typical 6061 and 6082 read 112 and 110 MPa where the code
  // grants 115 and 125. The model takes the weakest place for wholly dissolved and three days on the shelf. GTA joints of 6061
  // broke at 34 % of the yield, 94 MPa (Dewan et al. 2015), so 6061 lies between code and measurement; 6082 the code grants
  // more than its own T4 (110 MPa): strength that dissolved metal does not have (fibrous grain, dispersoids, a zone that
  // never dissolves whole). The kit errs to the careful side there.
  it.each(rows)('$alloy: typical metal against the code', ({ alloy, nominalLessCodeMPa }) => {
    if (alloy === '6063') expect(nominalLessCodeMPa).toBeGreaterThanOrEqual(0);
    else expect(nominalLessCodeMPa).toBeLessThan(0);
    expect(nominalLessCodeMPa).toBeGreaterThan(-20);
  });
});
