import { describe, expect, it } from 'vitest';
import { compareScenarios, exposureOf, judge } from '../../lib/decision';
import { readLog } from '../../lib/log';
import { considerRecovery, type SeenPlace, type SoftZoneOptions, softZone } from '../../lib/planning';
import { buildRecord, exposureOfRecord } from '../../lib/record';
import { strengthAfter } from '../../lib/strength';
import { inFull } from '../setup/extent';
import { fc } from '../setup/fc';
import { drawError } from './drawError';
import { AIR_C, type Course, csv } from './logs';

const METALS = [
  { alloy: 'A356.0', temper: 'T6' },
  { alloy: '6061', temper: 'T6' },
] as const;
type Curve = (t: number) => number;
/** Up in a straight line and back with a time constant: a corner, wherever it falls between two readings. */
const corner =
  (peakC: number, tauS: number, upKPerS: number, startS = 60): Curve =>
  (t) => {
    const topS = startS + (peakC - AIR_C) / upKPerS;
    if (t <= startS) return AIR_C;
    return t < topS ? AIR_C + upKPerS * (t - startS) : AIR_C + (peakC - AIR_C) * Math.exp(-(t - topS) / tauS);
  };
/** A smooth top, after a rise with a time constant of its own. */
const round = (peakC: number, riseS: number): Curve => {
  const shape = (t: number): number => Math.exp(-t / 60) - Math.exp(-t / riseS);
  const topS = Math.log(60 / riseS) / (1 / riseS - 1 / 60);
  return (t) => (t < 60 ? AIR_C : AIR_C + ((peakC - AIR_C) * shape(t - 60)) / shape(topS));
};
const threePasses =
  (peakC: number): Curve =>
  (t) =>
    Math.max(...[0, 1, 2].map((k) => corner(peakC - 5 * k, 70, 12, 60 + 77.3 * k)(t)));

const course = fc.oneof(
  fc
    .record({
      peakC: fc.integer({ min: 230, max: 330 }),
      tauS: fc.constantFrom(30, 60, 120),
      upKPerS: fc.constantFrom(5, 8, 12, 20),
    })
    .map(({ peakC, tauS, upKPerS }) => ({
      of: `corner ${peakC} ${tauS} ${upKPerS}`,
      curve: corner(peakC, tauS, upKPerS),
    })),
  fc
    .record({ peakC: fc.integer({ min: 230, max: 330 }), riseS: fc.constantFrom(4, 10, 25) })
    .map(({ peakC, riseS }) => ({ of: `round ${peakC} ${riseS}`, curve: round(peakC, riseS) })),
  fc.integer({ min: 230, max: 330 }).map((peakC) => ({ of: `three ${peakC}`, curve: threePasses(peakC) })),
);
/** Every so many of the readings, from the first, the second … on. */
const thinning = fc
  .constantFrom(2, 3, 4, 6)
  .chain((everyS) => fc.record({ everyS: fc.constant(everyS), fromS: fc.nat({ max: everyS - 1 }) }));

const logOf = (curve: Course, { everyS, fromS }: { everyS: number; fromS: number }) =>
  readLog(Buffer.from(csv({ TC1: curve }, { toS: 900, everyS, fromS })), { name: 'mast-foot.csv' });

describe('every 2nd, 3rd, 4th, 6th reading', () => {
  it('never raises the low end, and never clears', () => {
    fc.assert(
      fc.property(fc.constantFrom(...METALS), course, thinning, (metal, { curve }, thinned) => {
        const of = (sampling: { everyS: number; fromS: number }) =>
          strengthAfter(
            exposureOf(logOf(curve, sampling), 'TC1', { ...metal, attachment: 'welded wires' }),
            metal,
            { draws: 400, endOnly: true },
          );
        const [more, less] = [of({ everyS: 1, fromS: 0 }), of(thinned)];
        if (more.word !== 'kept') expect(less.word).not.toBe('kept');
        // Of a blind record low is that of the recorded part only, and labelled so.
        if (less.chanceKept !== null)
          expect(less.yieldKeptFraction.low).toBeLessThanOrEqual(
            more.yieldKeptFraction.low + drawError(more.yieldKeptFraction),
          );
      }),
      { numRuns: inFull ? 200 : 10, endOnFailure: true },
    );
  });

  it.each(METALS)('leaves one band at every door ($alloy)', (metal) => {
    const log = logOf(corner(240, 60, 14), { everyS: 4, fromS: 0 });
    const options = { ...metal, attachment: 'welded wires', ambientC: AIR_C } as const;
    const exposure = exposureOf(log, 'TC1', options);
    const verdict = judge(log, options);
    const { low, high } = verdict.channels[0]!.yieldKeptFraction;
    const [scenario] = compareScenarios([{ name: 'read', history: exposure }], metal);
    const zone = (history: SeenPlace['history'], fittedTo?: SoftZoneOptions['fittedTo']) =>
      softZone(
        [10, 20].map((distanceMm) => ({ distanceMm, history })),
        { ...metal, ambientC: AIR_C, ...(fittedTo ? { fittedTo } : {}) },
      ).points[0]!.kept.asWelded;
    for (const kept of [
      strengthAfter(exposure, metal).yieldKeptFraction,
      scenario!.verdict.yieldKeptFraction,
      considerRecovery(exposure, metal)[0]!.yieldKeptFraction,
      zone(exposure),
      zone(log.channels[0]!.history, { attachment: 'welded wires' }),
    ])
      expect(kept).toMatchObject({ low, high });
    // A record holds hundredths of a kelvin: with 200 kJ/mol at 240 °C that is 0.001 of the clock, so less of what is lost.
    const recorded = exposureOfRecord(buildRecord({ verdict, log, figures: [] }), 'TC1');
    const again = strengthAfter(recorded, metal).yieldKeptFraction.low;
    expect(Math.abs(again - low)).toBeLessThan(0.001 * (1 - low));
  });

  it('clears no soft zone whose probe is blind', () => {
    const log = logOf(corner(150, 60, 14), { everyS: 20, fromS: 0 });
    const history = exposureOf(log, 'TC1', { ...METALS[0], attachment: 'welded wires' });
    const places = [10, 20].map((distanceMm) => ({ distanceMm, history }));
    const { points, notes } = softZone(places, { ...METALS[0], ambientC: AIR_C });
    expect(points[0]!.chanceKept).toEqual({ asWelded: null, rested: null, reaged: null });
    expect(notes.join(' ')).toMatch(/At 10 mm: .*20 s apart: a weld pass can come and go unseen/);
  });
});
