import { describe, expect, it } from 'vitest';
import { keepTogether } from '../../lib/quantity';

describe('keepTogether', () => {
  it.each([
    ['91 % (82–103 %)', '91_% (82–|103_%)'],
    ['81 s above 440 °F (227 °C)', '81_s above 440_°F (227_°C)'],
    ['0.47 in (12 mm)', '0.47_in (12_mm)'],
    ['The same heat on A356-T7', 'The same heat on A356-|T7'],
    ['2 hours, 3 welds', '2 hours, 3 welds'],
    ['3 in 10 (see the annex)', '3_in 10 (see the annex)'],
  ])('%s', (text, joined) =>
    expect(keepTogether(text)).toBe(joined.replaceAll('_', '\u00a0').replaceAll('|', '\u2060')),
  );

  it('leaves a bracket that is a sentence free to part', () => {
    const text = '(12 of them lie further than an inch from the weld)';
    expect(keepTogether(text)).toBe(text);
  });
});
