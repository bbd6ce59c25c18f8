import { describe, expect, it } from 'vitest';
import { type ChannelVerdict, exposureOf, type JudgeOptions } from '../../lib/decision';
import { exactly } from '../../lib/exposure';
import { thermalHistory } from '../../lib/history';
import { readLog } from '../../lib/log';
import { drawMetals, runDraws, type StrengthAfter, strengthAfter } from '../../lib/strength';
import { inFull } from '../setup/extent';
import { fc } from '../setup/fc';
import { drawError } from './drawError';
import { type Course, csv, judged, pass, USUAL } from './logs';

const weld = fc.record({ peakC: fc.integer({ min: 60, max: 380 }), tauS: fc.integer({ min: 40, max: 200 }) });
const TO_S = 1200;
const fileOf = (course: Course, everyS = 1): string => csv({ TC1: course }, { toS: TO_S, everyS });

type Answer = Pick<StrengthAfter, 'word' | 'chanceKept' | 'yieldKeptFraction'>;
/** What a file says of its one probe: in full from the verdict, in short from 400 draws of the same exposure. */
function answered(text: string, more: Partial<JudgeOptions> = {}): Answer {
  if (inFull) {
    const [{ verdict: word, chanceKept, yieldKeptFraction }] = judged(text, more).channels as [
      ChannelVerdict,
    ];
    return { word, chanceKept, yieldKeptFraction };
  }
  const log = readLog(Buffer.from(text), { name: 'mast-foot.csv' });
  const { alloy, temper } = USUAL;
  const exposure = exposureOf(log, 'TC1', { ...USUAL, ...more });
  return strengthAfter(exposure, { alloy, temper }, { draws: 400, endOnly: true });
}

/**
 * A file tells tenths of a degree: 0.05 K up in one and down in the other make 2 · 0.05 Q/(R T²) = 2.2 % of what is lost
 * (Q 200 kJ/mol, 60 °C). It shows where a thousandth is lost or less and no draw is in doubt.
 */
const rounded = (low: number): number => 0.022 * Math.min(1e-3, Math.max(0, 1 - low));

/** Knowing less never clears, and never promises more. */
function notKinder(less: Answer, more: Answer): void {
  if (more.word !== 'kept') expect(less.word).not.toBe('kept');
  const [a, b] = [less.yieldKeptFraction, more.yieldKeptFraction];
  expect(a.low).toBeLessThanOrEqual(b.low + drawError(b) + rounded(b.low));
}
describe('less knowledge is never kinder', () => {
  it('a looser or unstated fixing', () => {
    fc.assert(
      fc.property(weld, ({ peakC, tauS }) => {
        const file = fileOf(pass(60, peakC, tauS));
        const by = (attachment: JudgeOptions['attachment']) => answered(file, { attachment });
        const [tight, loose, untold] = [by('welded wires'), by('taped'), by(undefined)];
        notKinder(loose, tight);
        notKinder(untold, loose);
      }),
      { numRuns: inFull ? 20 : 4, endOnFailure: true },
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
          const [less, more] = [answered(fileOf(lost)), answered(fileOf(course))];
          if (more.word !== 'kept') expect(less.word).not.toBe('kept');
          // Of a blind record low is that of the recorded part only, and labelled so.
          if (less.chanceKept !== null) notKinder(less, more);
        },
      ),
      { numRuns: inFull ? 30 : 6, endOnFailure: true },
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
        const [less, more] = [answered(fileOf(course, everyS)), answered(fileOf(course))];
        if (more.word !== 'kept') expect(less.word).not.toBe('kept');
        if (less.chanceKept !== null) notKinder(less, more);
      }),
      { numRuns: inFull ? 30 : 6, endOnFailure: true },
    );
  });
});

/** Up at 12 K/s, back with a time constant of `tauS`; or held for ten minutes. */
const heats = {
  weld: (peakC: number, tauS: number) =>
    thermalHistory(
      Array.from({ length: 32 }, (_, k) => (k < 1 ? 0 : (peakC - 22) / 12 + ((k - 1) * tauS) / 6)),
      Array.from({ length: 32 }, (_, k) => (k < 1 ? 22 : 22 + (peakC - 22) * Math.exp((1 - k) / 6))),
    ),
  hold: (peakC: number) => thermalHistory([0, 30, 630, 900], [22, peakC, peakC, 22]),
};

describe('more heat', () => {
  it.each([
    // Below what melts precipitates into solution, from where they come back: peak-aged and over-aged metal has nothing to gain.
    { alloy: '6061', temper: 'T6', kind: 'peak-aged', heat: 'weld', highestC: 340 },
    { alloy: '6061', temper: 'T6', kind: 'peak-aged', heat: 'hold', highestC: 290 },
    { alloy: 'A356.0', temper: 'T7', kind: 'over-aged', heat: 'weld', highestC: 340 },
  ] as const)(
    'never strengthens $kind $alloy, metal by metal ($heat)',
    ({ heat, highestC, kind, ...metal }) => {
      const metals = drawMetals(metal, 60);
      expect(metals.metals.every((one) => one.kind === kind)).toBe(true);
      fc.assert(
        fc.property(
          fc.integer({ min: 150, max: highestC }),
          fc.integer({ min: 1, max: 20 }),
          fc.constantFrom(30, 100, 300),
          (tempC, hotterK, tauS) => {
            const kept = (top: number) => runDraws([exactly(heats[heat](top, tauS))], metals).yieldKept;
            const [cooler, hotter] = [kept(tempC), kept(tempC + hotterK)];
            hotter.forEach((value, i) => {
              expect(value).toBeLessThanOrEqual(cooler[i]! + 1e-9);
            });
          },
        ),
        { numRuns: 10, endOnFailure: true },
      );
    },
  );

  it('noise of the size of the readings’ own moves a chance by 0.02 at most', () => {
    const course = pass(60, 285, 60);
    const again: Course = (t) => course(t) + 0.2 * Math.sin(t * 5.3);
    const [a, b] = [answered(fileOf(course)), answered(fileOf(again))];
    expect(Math.abs(a.chanceKept! - b.chanceKept!)).toBeLessThanOrEqual(0.02);
    expect(a.chanceKept).toBeGreaterThan(0.02);
  });
});
