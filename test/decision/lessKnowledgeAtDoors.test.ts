import { describe, expect, it } from 'vitest';
import { compareScenarios, exposureOf, type JudgeOptions, judge } from '../../lib/decision';
import type { Exposure } from '../../lib/exposure';
import { resample } from '../../lib/history';
import { readLog } from '../../lib/log';
import { allowedPeak, softZone } from '../../lib/planning';
import { buildRecord, exposureOfRecord } from '../../lib/record';
import { inFull } from '../setup/extent';
import { fc } from '../setup/fc';
import { drawError } from './drawError';
import { AIR_C, cool, csv, judged, pass, USUAL } from './logs';

/** A weld in the band where the word is not settled, so that a fixing matters. */
const weld = fc.record({
  peakC: fc.integer({ min: 180, max: 300 }),
  tauS: fc.integer({ min: 40, max: 120 }),
});
const ONCE = { numRuns: 2, endOnFailure: true };
const METAL = { alloy: 'A356.0', temper: 'T6' };
type Weld = { readonly peakC: number; readonly tauS: number };

const logOf = ({ peakC, tauS }: Weld, everyS = 1) =>
  readLog(Buffer.from(csv({ TC1: pass(60, peakC, tauS) }, { toS: 900, everyS })), { name: 'mast-foot.csv' });
const seen = (w: Weld, attachment: JudgeOptions['attachment'], everyS = 1): Exposure =>
  exposureOf(logOf(w, everyS), 'TC1', { ...USUAL, attachment });
/** Less known first: an unstated fixing, a loose one, a good one. */
const FIXINGS = [undefined, 'taped', 'welded wires'] as const;

interface Answer {
  readonly verdict: string;
  readonly yieldKeptFraction: { readonly low: number; readonly nominal: number };
}
function notKinder(less: Answer, more: Answer): void {
  if (more.verdict !== 'kept') expect(less.verdict).not.toBe('kept');
  expect(less.yieldKeptFraction.low).toBeLessThanOrEqual(
    more.yieldKeptFraction.low + drawError(more.yieldKeptFraction),
  );
}
const inPairs = <T>(answers: readonly T[], check: (less: T, more: T) => void) => {
  for (let k = 1; k < answers.length; k++) check(answers[k - 1]!, answers[k]!);
};

describe('less knowledge is never kinder at any door', () => {
  it('compareScenarios', () => {
    fc.assert(
      fc.property(weld, (w) => {
        const results = compareScenarios(
          FIXINGS.map((attachment) => ({ name: String(attachment), history: seen(w, attachment) })),
          METAL,
        );
        const of = (name: unknown) => results.find((one) => one.name === String(name))!.verdict;
        inPairs(FIXINGS.map(of), notKinder);
      }),
      ONCE,
    );
  });

  it('a record that goes before the next weld', () => {
    fc.assert(
      fc.property(weld, (w) => {
        const log = logOf(w);
        const next = readLog(Buffer.from(csv({ TC1: cool }, { toS: 600 })), { name: 'next.csv' });
        const after = FIXINGS.map((attachment) => {
          const record = buildRecord({ verdict: judge(log, { ...USUAL, attachment }), log, figures: [] });
          return judge(next, { ...USUAL, earlier: [exposureOfRecord(record, 'TC1')] });
        });
        inPairs(
          after.map(({ channels }) => channels[0]!),
          notKinder,
        );
      }),
      ONCE,
    );
  });

  // Some fifty strengths of 400 draws for each peak: in short of a log with an eighth of the readings.
  it('allowedPeak', () => {
    const everyS = inFull ? 1 : 8;
    const [less, more] = [FIXINGS[0], FIXINGS[2]].map((attachment) =>
      allowedPeak(seen({ peakC: 260, tauS: 60 }, attachment, everyS), { ...METAL, ambientC: AIR_C }),
    );
    // The last bisection's step: a 24th of the way up to 555 °C, halved ten times.
    expect(less!.low).toBeLessThanOrEqual(more!.low + 533 / 24 / 2 ** 10);
  });

  it('softZone, by the probes its heat was fitted to', () => {
    const places = [300, 260, 220, 180].map((peakC, k) => ({
      distanceMm: 10 * (k + 1),
      history: logOf({ peakC, tauS: 60 }).channels[0]!.history,
    }));
    const zones = FIXINGS.map((attachment) =>
      softZone(places, { ...METAL, ambientC: AIR_C, fittedTo: { attachment } }),
    );
    inPairs(zones, (less, more) =>
      less.points.forEach((point, k) => {
        const [a, b] = [point.kept.asWelded, more.points[k]!.kept.asWelded];
        expect(a.low).toBeLessThanOrEqual(b.low + drawError(b));
      }),
    );
  });

  it('a slow logger, at judge and at compareScenarios', () => {
    fc.assert(
      fc.property(weld, fc.constantFrom(3, 5, 20), (w, everyS) => {
        const [less, more] = [everyS, 1].map((s) => judge(logOf(w, s), USUAL));
        if (more!.verdict !== 'kept') expect(less!.verdict).not.toBe('kept');
        const [slow] = compareScenarios([{ name: 'slow', history: seen(w, 'welded wires', everyS) }], METAL);
        expect(slow!.verdict.verdict).toBe(less!.channels[0]!.verdict);
        expect(slow!.verdict.yieldKeptFraction.low).toBe(less!.channels[0]!.yieldKeptFraction.low);
      }),
      ONCE,
    );
  });
});

describe('what says nothing more moves a chance by 0.02 at most', () => {
  const chanceOf = (log: Parameters<typeof judge>[0]) => judge(log, USUAL).chanceKept!;

  // A course without corners: between readings of a corner a straight line does claim to know more.
  const round =
    (peakC: number) =>
    (t: number): number =>
      t < 60 ? AIR_C : AIR_C + 1.717 * (peakC - AIR_C) * (Math.exp((60 - t) / 60) - Math.exp((60 - t) / 10));

  it('readings put between readings', () => {
    fc.assert(
      fc.property(fc.integer({ min: 270, max: 300 }), (peakC) => {
        const log = readLog(Buffer.from(csv({ TC1: round(peakC) }, { toS: 900 })), { name: 'mast-foot.csv' });
        const [channel] = log.channels;
        const denser = { ...log, channels: [{ ...channel!, history: resample(channel!.history, 0.5) }] };
        expect(Math.abs(chanceOf(denser) - chanceOf(log))).toBeLessThanOrEqual(0.02);
      }),
      { numRuns: 2 },
    );
  });

  it('noise of the size of the readings’ own', () => {
    fc.assert(
      fc.property(fc.integer({ min: 270, max: 300 }), fc.integer({ min: 1, max: 99 }), (peakC, seed) => {
        const course = pass(60, peakC);
        const noisy = csv({ TC1: (t) => course(t) + 0.2 * Math.sin(seed * 1.7 + t * 5.3) }, { toS: 900 });
        const still = csv({ TC1: course }, { toS: 900 });
        expect(Math.abs(judged(noisy).chanceKept! - judged(still).chanceKept!)).toBeLessThanOrEqual(0.02);
      }),
      { numRuns: 2 },
    );
  });
});
