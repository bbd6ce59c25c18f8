import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { type AlloyCard, cardProblems, listAlloys, loadAlloy } from '../../lib/alloy';
import { TemperbookError } from '../../lib/quantity';

const folder = mkdtempSync(path.join(tmpdir(), 'alloy-card-'));
afterAll(() => rmSync(folder, { recursive: true }));

type Loose = { [key: string]: Loose } & { [key: string]: unknown };
/** A 6061 card to spoil. */
const spoiled = (spoil: (card: Loose) => void): AlloyCard => {
  const card = structuredClone(loadAlloy('6061')) as unknown as Loose;
  spoil(card);
  return card as unknown as AlloyCard;
};
const messageOf = (action: () => unknown): string => {
  try {
    action();
  } catch (error) {
    expect(error).toBeInstanceOf(TemperbookError);
    return (error as Error).message;
  }
  throw new Error('expected an error');
};

describe('loadAlloy by name', () => {
  it.each([
    ['A356.0', 'A356.0'],
    ['a356', 'A356.0'],
    ['AlSi7Mg0.3', 'A356.0'],
    ['EN AC-42100', 'A356.0'],
    ['356', '356.0'],
    ['356.0', '356.0'],
    ['LM25', '356.0'],
    ['6061', '6061'],
    ['EN AW-6061', '6061'],
    ['aa6061', '6061'],
    ['AW 6063', '6063'],
    ['AlSi1MgMn', '6082'],
    ['en aw-6082', '6082'],
  ])('reads %s as %s', (name, designation) => {
    expect(loadAlloy(name).designation).toBe(designation);
  });

  it('lists the cards of the kit', () => {
    expect(listAlloys()).toEqual(['356.0', '6061', '6063', '6082', 'A356.0']);
  });

  it('says what it knows when asked for something else, and takes a temper out of the name', () => {
    expect(messageOf(() => loadAlloy('7075'))).toMatch(/"7075".*356\.0, 6061, 6063, 6082, A356\.0/);
    expect(messageOf(() => loadAlloy('6061-T6'))).toMatch(/alloy "6061", temper "T6"/);
  });

  it('gives every caller the same frozen card', () => {
    const card = loadAlloy('6061');
    expect(loadAlloy('EN AW-6061')).toBe(card);
    expect(loadAlloy(card)).toBe(card);
    expect(() => Object.assign(card.tempers.T6!, { underAged: true })).toThrow(TypeError);
  });
});

describe('a shop’s own card', () => {
  it('is read from its file', () => {
    const file = path.join(folder, 'own.json');
    const text = JSON.stringify(spoiled((card) => Object.assign(card, { designation: 'OUR-6061' })));
    writeFileSync(file, `\uFEFF${text}`);
    expect(loadAlloy(file).designation).toBe('OUR-6061');
  });

  it('is taken as an object without being changed', () => {
    const own = spoiled((card) => Object.assign(card, { designation: 'OUR-6061' }));
    expect(loadAlloy(own).designation).toBe('OUR-6061');
    expect(Object.isFrozen(own)).toBe(false);
  });

  it('names the file and the line of a slip in the JSON', () => {
    const file = path.join(folder, 'slip.json');
    writeFileSync(file, '{\n "designation": "X",\n "family" "wrought"\n}');
    const message = messageOf(() => loadAlloy(file));
    expect(message).toContain('slip.json, row 3');
    expect(message).toContain('not valid JSON');
  });

  it('names a file that is not there', () => {
    expect(messageOf(() => loadAlloy('nowhere/card.json'))).toContain(
      'nowhere/card.json: No such alloy card',
    );
  });

  it.each<[string, (card: Loose) => void, RegExp]>([
    [
      'a unit that does not fit',
      (c) => Object.assign(c.tempers!.T6!.yieldMPa!, { unit: 'ksi' }),
      /tempers\.T6\.yieldMPa\.unit: found "ksi", expected "MPa"/,
    ],
    [
      'a value outside its band',
      (c) => Object.assign(c.tempers!.T6!.yieldMPa!, { value: 999 }),
      /tempers\.T6\.yieldMPa: found low 241, value 999, high 310, expected low ≤ value ≤ high/,
    ],
    [
      'a number given as text',
      (c) => Object.assign(c.thermal!.solidusC!, { value: '582' }),
      /thermal\.solidusC\.value: found "582", expected a number/,
    ],
    [
      'a misspelt key',
      (c) => Object.assign(c, { matrixwtpct: 1 }),
      /matrixwtpct: found a key the kit does not know/,
    ],
    ['a missing key', (c) => delete c.matrixNote, /the card: found nothing, expected the key "matrixNote"/],
    [
      'a source left out',
      (c) => delete c.tempers!.T6!.yieldMPa!.source,
      /tempers\.T6\.yieldMPa: found nothing, expected the key "source"/,
    ],
    [
      'a way of knowing that does not exist',
      (c) => Object.assign(c.tempers!.T6!.yieldMPa!, { known: 'rumour' }),
      /tempers\.T6\.yieldMPa\.known: found "rumour", expected one of "seen", "memory"/,
    ],
    [
      'a temper that is none',
      (c) => Object.assign(c.tempers!, { Q9: c.tempers!.T6 }),
      /tempers: found "Q9", expected a temper like F, O, T4/,
    ],
    [
      'a negative strength',
      (c) => Object.assign(c.tempers!.O!.yieldMPa!, { low: -5 }),
      /tempers\.O\.yieldMPa: found low -5.*a positive quantity/,
    ],
    [
      'a composition upside down',
      (c) => Object.assign(c.compositionWtPct!.Mg!, { min: 2 }),
      /compositionWtPct\.Mg: found min 2, nominal 1, max 1\.2, expected min ≤ nominal ≤ max/,
    ],
    [
      'a curve for a temper the card does not have',
      (c) => delete c.tempers!.T6,
      /overageing\.curves\.T6: found a curve, expected the temper T6 under "tempers" too/,
    ],
    [
      'a table with unequal columns',
      (c) => (c.thermal!.conductivityTable!.value as unknown as number[]).pop(),
      /thermal\.conductivityTable: found 8 temperatures and 7 values/,
    ],
    [
      'a table that goes back',
      (c) => (c.thermal!.specificHeatTable!.tempC as unknown as number[]).reverse(),
      /thermal\.specificHeatTable\.tempC: .*temperatures that ascend/,
    ],
  ])('is refused for %s', (_, spoil, expected) => {
    expect(messageOf(() => loadAlloy(spoiled(spoil)))).toMatch(expected);
  });

  it('is refused with all its problems at once', () => {
    const bad = spoiled((card) => {
      Object.assign(card.tempers!.T6!.yieldMPa!, { unit: 'ksi' });
      Object.assign(card.thermal!.solidusC!, { value: null });
      delete card.limits;
    });
    expect(cardProblems(bad)).toHaveLength(3);
    expect(messageOf(() => loadAlloy(bad))).toContain('3 problems');
  });

  it.each([null, 42, 'text', [], {}])('is refused when it is %j', (nonsense) => {
    expect(cardProblems(nonsense).length).toBeGreaterThan(0);
  });
});

describe('the JSON Schema', () => {
  it('is the one an editor finds beside the cards', () => {
    const schema = path.join(__dirname, '../../data/alloys/alloy-card.schema.json');
    const { required } = JSON.parse(readFileSync(schema, 'utf8')) as { required: string[] };
    for (const key of required) expect(loadAlloy('6061')).toHaveProperty([key]);
  });
});
