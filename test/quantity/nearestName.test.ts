import { describe, expect, it } from 'vitest';
import { nearestName } from '../../lib/quantity';

describe('the name that was probably meant', () => {
  const names = ['TC1 block 12 mm', 'TC2 block 28 mm', 'lug'];
  it.each([
    ['TC1', 'TC1 block 12 mm'],
    ['tc2 block', 'TC2 block 28 mm'],
    ['lugs', 'lug'],
    ['TC2 blok 28 mm', 'TC2 block 28 mm'],
    ['TC', undefined],
    ['TC9', undefined],
  ])('of %j is %j', (word, meant) => expect(nearestName(word, names)).toBe(meant));

  it('is none where a word begins more than one', () => {
    expect(nearestName('tube', ['tube left side', 'tube right side'])).toBeUndefined();
  });
});
