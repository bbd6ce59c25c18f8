import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { JudgeOptions, Verdict } from '../../lib/decision';
import { exactly } from '../../lib/exposure';
import { thermalHistory } from '../../lib/history';
import { drawMetals, runDraws } from '../../lib/strength';
import { drawError } from './drawError';
import { type Course, csv, judged, pass } from './logs';

const weld = fc.record({ peakC: fc.integer({ min: 60, max: 380 }), tauS: fc.integer({ min: 40, max: 200 }) });
const TO_S = 1200;
const fileOf = (course: Course, everyS = 1): string => csv({ TC1: course }, { toS: TO_S, everyS });

/** Knowing less never clears, and never promises more. */
function notKinder(less: Verdict, more: Verdict): void {
  if (more.verdict !== 'kept') expect(less.verdict).not.toBe('kept');
  const [a, b] = [less.channels[0]!.yieldKeptFraction, more.channels[0]!.yieldKeptFraction];
  expect(a.low).toBeLessThanOrEqual(b.low + drawError(b));
}
describe('less knowledge is never kinder', () => {
  it('a looser or unstated fixing', () => {
    fc.assert(
      fc.property(weld, ({ peakC, tauS }) => {
        const file = fileOf(pass(60, peakC, tauS));
        const by = (attachment: JudgeOptions['attachment']) => judged(file, { attachment });
        const [tight, loose, untold] = [by('welded wires'), by('taped'), by(undefined)];
        notKinder(loose, tight);
        notKinder(untold, loose);
      }),
      { numRuns: 4 },
    );
  });

  it('readings lost, and a stretch that is not recorded', () => {
    fc.assert(
      fc.property(
        weld,
        fc.integer({ min: 20, max: 600 }),
        fc.integer({ min: 2, max: 400 }),
        (w, fromS, forS) => {
          const course = pass(60, w.peakC, w.tauS);
          const lost: Course = (t) => (t > fromS && t < fromS + forS ? '' : course(t));
          const [less, more] = [judged(fileOf(lost)), judged(fileOf(course))];
          if (more.verdict !== 'kept') expect(less.verdict).not.toBe('kept');
          // Of a blind record low is that of the recorded part only, and labelled so.
          if (less.chanceKept !== null) notKinder(less, more);
        },
      ),
      { numRuns: 6 },
    );
  });

  it('a probe that gave up altogether', () => {
    const two = csv({ TC1: pass(60, 150), TC2: pass(60, 420, 400) }, { toS: TO_S });
    const one = csv({ TC1: pass(60, 150), TC2: () => '' }, { toS: TO_S });
    expect(judged(two).verdict).not.toBe('kept');
    expect(judged(one).verdict).not.toBe('kept');
  });

  it('a slower logger', () => {
    fc.assert(
      fc.property(weld, fc.constantFrom(2, 4, 20, 60), ({ peakC, tauS }, everyS) => {
        const course = pass(60, peakC, tauS);
        const [less, more] = [judged(fileOf(course, everyS)), judged(fileOf(course))];
        if (more.verdict !== 'kept') expect(less.verdict).not.toBe('kept');
      }),
      { numRuns: 6 },
    );
  });
});

describe('more heat', () => {
  it('never strengthens a metal at its peak, metal by metal', () => {
    const metals = drawMetals({ alloy: '6061', temper: 'T6' }, 60);
    const atPeak = metals.metals.map(({ kind }) => kind === 'peak-aged');
    expect(atPeak.some(Boolean)).toBe(true);
    fc.assert(
      fc.property(fc.integer({ min: 150, max: 290 }), fc.integer({ min: 1, max: 20 }), (tempC, hotterK) => {
        const kept = (top: number) =>
          runDraws([exactly(thermalHistory([0, 30, 630, 900], [22, top, top, 22]))], metals).yieldKept;
        const [cooler, hotter] = [kept(tempC), kept(tempC + hotterK)];
        atPeak.forEach((is, i) => {
          if (is) expect(hotter[i]!).toBeLessThanOrEqual(cooler[i]! + 1e-9);
        });
      }),
      { numRuns: 10 },
    );
  });

  it('noise of the size of the readings’ own moves a chance by 0.02 at most', () => {
    const course = pass(60, 285, 60);
    const again: Course = (t) => course(t) + 0.2 * Math.sin(t * 5.3);
    const [a, b] = [judged(fileOf(course)), judged(fileOf(again))];
    expect(Math.abs(a.chanceKept! - b.chanceKept!)).toBeLessThanOrEqual(0.02);
    expect(a.chanceKept).toBeGreaterThan(0.02);
  });
});
