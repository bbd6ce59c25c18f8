import { inspect } from 'node:util';
import { describe, expect, it } from 'vitest';
import {
  celsiusToFahrenheit,
  fahrenheitToCelsius,
  formatDuration,
  formatPercent,
  formatTemp,
  formatTempSpan,
  judged,
  ksiToMpa,
  mpaToKsi,
  requireNumber,
  TemperbookError,
} from '../../lib/quantity';

describe('units', () => {
  // ITS-90 and the definition of the Fahrenheit scale: fixed points are exact.
  it.each([
    [0, 32],
    [100, 212],
    [-40, -40],
  ])('%d °C is %d °F', (tempC, tempF) => {
    expect(celsiusToFahrenheit(tempC)).toBe(tempF);
    expect(fahrenheitToCelsius(tempF)).toBeCloseTo(tempC, 12);
  });

  it('converts the handbook yield of 6061-T6, 40 ksi, to the handbook 276 MPa within its rounding', () => {
    // Aluminum Association typical values are printed to whole MPa and whole ksi.
    expect(Math.round(ksiToMpa(40))).toBe(276);
    expect(mpaToKsi(276)).toBeCloseTo(40, 1);
  });
});

describe('formats', () => {
  it.each([
    [0.25, '0.25 s'],
    [45, '45 s'],
    [600, '10 min'],
    [9000, '2.5 h'],
    [86_400 * 21, '21 d'],
    [-90, '−90 s'],
  ])('%d s reads %s', (seconds, text) => expect(formatDuration(seconds)).toBe(text));

  it('turns a difference into °F without the zero point', () =>
    expect(formatTempSpan(39)).toBe('39 °C (70 °F)'));
  it('shows °C with °F beside it', () => expect(formatTemp(226.67)).toBe('227 °C (440 °F)'));
  it('shows a fraction as a percentage', () => expect(formatPercent(0.873)).toBe('87 %'));
});

describe('judged', () => {
  it('sorts its bounds so that low ≤ nominal ≤ high', () => {
    expect(judged(1, [2, 0.5], 'MPa', [])).toEqual({
      nominal: 1,
      low: 0.5,
      high: 2,
      unit: 'MPa',
      because: [],
    });
  });
});

describe('TemperbookError', () => {
  it('says where, what was found, what is expected and what to do', () => {
    const error = new TemperbookError('The time does not read as a clock', {
      file: 'weld.csv',
      row: 12,
      column: 'Time',
      found: '"noon"',
      expected: 'h:m:s',
      remedy: 'Give the clock format in the options',
    });
    expect(error.message).toBe(
      'weld.csv, row 12, column "Time": The time does not read as a clock. Found: "noon". Expected: h:m:s. Give the clock format in the options.',
    );
  });

  it('shows the message first, in a notebook and a terminal, and no lines of Node or the kit', () => {
    const error = new TemperbookError('The log is empty', { file: 'weld.csv' });
    error.stack = [
      'TemperbookError: …',
      '    at readLog (/shop/node_modules/temperbook/dist/log/readLog.js:1:1)',
      '    at evalmachine.<anonymous>:3:9',
      '    at Script.runInThisContext (node:vm:122:12)',
    ].join('\n');
    expect(inspect(error)).toBe(
      'TemperbookError: weld.csv: The log is empty.\n    at evalmachine.<anonymous>:3:9',
    );
  });

  it('refuses numbers that are not finite or out of range, naming the range', () => {
    expect(() => requireNumber(Number.NaN, 'thicknessMm')).toThrow(/thicknessMm.*NaN/);
    expect(() => requireNumber(-1, 'thicknessMm', { low: 0 })).toThrow(/from 0 to/);
    expect(requireNumber(3, 'thicknessMm', { low: 0, high: 5 })).toBe(3);
  });
});
