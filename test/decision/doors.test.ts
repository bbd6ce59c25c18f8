import { describe, expect, it } from 'vitest';
import { compareScenarios, exposureOf, judge } from '../../lib/decision';
import { isothermal } from '../../lib/history';
import { readLog } from '../../lib/log';
import { allowedPeak, considerRecovery, probePlacement, softZone, strengthMap } from '../../lib/planning';
import { TemperbookError } from '../../lib/quantity';
import { type WallChart, wallChartHtml } from '../../lib/record';
import { strengthAfter } from '../../lib/strength';

const csv = (temp: (s: number) => number): Uint8Array =>
  new TextEncoder().encode(
    ['Time (s),Hinge (°C)', ...Array.from({ length: 300 }, (_, s) => `${s},${temp(s).toFixed(1)}`)].join(
      '\n',
    ),
  );
const log = readLog(csv((s) => 20 + 100 * Math.min(s / 60, Math.max(0, 1 - (s - 60) / 200))));
const metal = { alloy: 'A356.0', temper: 'T6' };
const warm = isothermal(120, 60);
const places = [10, 20].map((distanceMm) => ({ distanceMm, history: warm }));
const probe = { ...metal, limitC: 227, ambientC: 20, critical: warm };

/** Every door, by what it is given and its options: called as someone without a compiler would. */
type Door = (given: unknown, options: unknown) => unknown;
const call = (door: unknown): Door => door as Door;
const call3 = (door: unknown) => door as (a: unknown, b: unknown, c: unknown) => unknown;
const DOORS: Record<string, { open: Door; given: unknown; options: object }> = {
  judge: { open: call(judge), given: log, options: metal },
  exposureOf: {
    open: (given, options) => call3(exposureOf)(given, 'Hinge', options),
    given: log,
    options: metal,
  },
  compareScenarios: {
    open: call(compareScenarios),
    given: [{ name: 'as it ran', history: warm }],
    options: metal,
  },
  strengthAfter: {
    open: (given, options) => call3(strengthAfter)(given, metal, options),
    given: warm,
    options: { draws: 10 },
  },
  'the metal of strengthAfter': { open: call(strengthAfter), given: warm, options: metal },
  softZone: { open: call(softZone), given: places, options: { ...metal, ambientC: 20 } },
  allowedPeak: { open: call(allowedPeak), given: warm, options: { ...metal, ambientC: 20 } },
  considerRecovery: { open: call(considerRecovery), given: warm, options: metal },
  probePlacement: { open: call(probePlacement), given: places, options: probe },
};

describe.each(Object.entries(DOORS))('%s', (_, { open, given, options }) => {
  it('opens', () => {
    expect(open(given, options)).toBeDefined();
  });

  it.each([
    ['a misspelt option', { alowanceFraction: 0.1 }, /"alowanceFraction"/],
    ['an option in other letters', { Allowancefraction: 0.1 }, /"Allowancefraction"/],
    ['an allowance in percent', { allowanceFraction: 10 }, /as a fraction|does not know/],
  ])('refuses %s', (_, extra, message) => {
    expect(() => open(given, { ...options, ...extra })).toThrow(TemperbookError);
    expect(() => open(given, { ...options, ...extra })).toThrow(message);
  });

  it.each([
    ['null', null],
    ['nothing', undefined],
    ['a number', 7],
    ['an empty object', {}],
    ['an empty list', []],
    ['a history without a sample', { timeS: new Float64Array(0), tempC: new Float64Array(0) }],
    ['a log without a channel', { ...log, channels: [] }],
    ['a list with null', [null]],
  ])('refuses %s for what it is about', (_, wrong) => {
    expect(() => open(wrong, options)).toThrow(TemperbookError);
  });

  it.each([
    ['null', null],
    ['a word', 'T6'],
    ['a list', [metal]],
  ])('refuses %s for its options', (_, wrong) => {
    expect(() => open(given, wrong)).toThrow(TemperbookError);
  });
});

describe.each(Object.entries(DOORS).filter(([, { options }]) => 'alloy' in options))(
  '%s',
  (_, { open, given, options }) => {
    it.each([
      ['no alloy', { alloy: undefined }],
      ['an alloy of null', { alloy: null }],
      ['no temper', { temper: undefined }],
      ['a temper of null', { temper: null }],
      ['an alloy nobody knows', { alloy: 'A365.0' }],
      ['a temper the alloy has not', { temper: 'T66' }],
    ])('refuses %s', (_, wrong) => {
      expect(() => open(given, { ...options, ...wrong })).toThrow(TemperbookError);
    });
  },
);

describe('limits', () => {
  const peak = (limitC: number | string) => judge(log, { ...metal, limitC }).channels[0]!.limits[0]!.limitC;
  const stop = (limitC: number | string) => probePlacement(places, { ...probe, limitC }).best.readingAtLimitC;

  it('mean the same in °C and with their unit at every door', () => {
    expect(peak('440F')).toBeCloseTo((440 - 32) / 1.8, 9);
    expect(peak('227 °C')).toBe(227);
    expect(stop('227 °C')).toEqual(stop(227));
    expect(stop('440 °F').nominal).toBeCloseTo(stop((440 - 32) / 1.8).nominal, 9);
  });

  it.each([
    ['°F that nobody named', 440, /If you mean °F, write '440F'/],
    ['a number as a word', '440', /with its unit/],
    ['no number', Number.NaN, /is not a temperature/],
  ])('refuse %s', (_, wrong, message) => {
    expect(() => peak(wrong)).toThrow(message);
    expect(() => stop(wrong)).toThrow(message);
  });
});

describe('strengthMap and the wall chart', () => {
  it('refuse what they do not know', () => {
    expect(() => strengthMap({ ...metal, row: 3 } as never)).toThrow(/Did you mean "rows"/);
    expect(() => strengthMap(null as never)).toThrow(TemperbookError);
    expect(() => wallChartHtml({ titel: 'x' } as unknown as WallChart)).toThrow(/Did you mean "title"/);
    expect(() => wallChartHtml(null as never)).toThrow(TemperbookError);
    expect(() => wallChartHtml({ title: 'x', notes: [] } as unknown as WallChart)).toThrow(TemperbookError);
  });
});
