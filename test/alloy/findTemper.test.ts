import { describe, expect, it } from 'vitest';
import { findTemper, loadAlloy, propertyAt } from '../../lib/alloy';
import { TemperbookError } from '../../lib/quantity';

describe('findTemper', () => {
  const card = loadAlloy('6061');

  it.each([
    ['T6', 'T6'],
    [' t6 ', 'T6'],
    ['T651', 'T6'],
    ['T6511', 'T6'],
    ['T6510', 'T6'],
    ['T451', 'T4'],
    ['O', 'O'],
  ])('reads %j as %s', (asked, name) => {
    expect(findTemper(card, asked).name).toBe(name);
  });

  it('prefers a temper the card names: T51 of a casting is a temper of its own', () => {
    expect(findTemper(loadAlloy('356.0'), 'T51').name).toBe('T51');
    expect(findTemper(loadAlloy('A356.0'), 'T61').name).toBe('T61');
  });

  it.each(['T9', 'T66511', 'toString', ''])('refuses %j and lists what there is', (asked) => {
    expect(() => findTemper(card, asked)).toThrow(TemperbookError);
    expect(() => findTemper(card, asked)).toThrow(/O, T4, T6/);
  });
});

describe('propertyAt', () => {
  const table = { tempC: [0, 100, 300], value: [10, 20, 0], source: 'invented' };
  it.each([
    [-50, 10],
    [0, 10],
    [50, 15],
    [100, 20],
    [200, 10],
    [300, 0],
    [400, 0],
  ])('at %d °C is %d', (tempC, value) => {
    expect(propertyAt(table, tempC)).toBe(value);
  });
});
