import { describe, expect, it } from 'vitest';
import { loadAlloy } from '../../lib/alloy';
import { compareScenarios, judge } from '../../lib/decision';
import {
  condense,
  type Exposure,
  editExposure,
  exactly,
  fixingDoubt,
  USUAL_WIRE,
  wireDoubts,
} from '../../lib/exposure';
import { insertWait, isothermal, resample, type ThermalHistory, thermalHistory } from '../../lib/history';
import { membersHash, weldCycle } from '../../lib/kinetics';
import { considerRecovery, softZone, strengthMap } from '../../lib/planning';
import { drawMetals, lotDraws, MOST_DRAWS, ROUTINE_DRAWS, strengthAfter } from '../../lib/strength';
import { inFull } from '../setup/extent';
import { fc } from '../setup/fc';

const METALS = [
  { alloy: 'A356.0', temper: 'T6' },
  { alloy: '6061', temper: 'T6' },
] as const;
const TUBE = METALS[1];

/** A history as a well fixed probe would have read it. */
const read = (history: ThermalHistory): Exposure => ({
  ...exactly(history),
  doubts: [...wireDoubts(history, USUAL_WIRE), fixingDoubt(history, 'peened hole', 20)],
});
const cycle = (peakC: number, nearPeakS: number): Exposure => read(weldCycle({ peakC, nearPeakS }));
const heats = fc.record({
  peakC: fc.double({ min: 180, max: 420, noNaN: true }),
  nearPeakS: fc.double({ min: 1, max: 120, noNaN: true }),
});

describe('one exposure, one strength', () => {
  it.each(METALS)('$alloy: the same band and chance at every door', (metal) => {
    fc.assert(
      fc.property(heats, ({ peakC, nearPeakS }) => {
        const exposure = cycle(peakC, nearPeakS);
        const { yieldKeptFraction: few } = strengthAfter(exposure, metal, { draws: 400, endOnly: true });
        const all = strengthAfter(exposure, metal);
        const judged = judge(exposure, metal).channels[0]!;
        const [scenario] = compareScenarios([{ name: 'as it ran', history: exposure }], metal);
        for (const door of [judged, scenario!.verdict]) {
          expect(door.chanceKept).toBe(all.chanceKept);
          expect(door.yieldKeptFraction.nominal).toBe(all.yieldKeptFraction.nominal);
          expect(door.yieldKeptFraction.low).toBe(all.yieldKeptFraction.low);
        }
        // The soft zone makes exposures of its own: the history as the heat flow gives it.
        const bare = strengthAfter(exactly(exposure.history), metal, {
          draws: 400,
          endOnly: true,
        }).yieldKeptFraction;
        const [place] = softZone(
          [
            { distanceMm: 10, history: exposure.history },
            { distanceMm: 20, history: isothermal(20, 10) },
          ],
          { ...metal, ambientC: 20 },
        ).points;
        expect(place!.kept.asWelded.nominal).toBe(bare.nominal);
        expect(place!.kept.asWelded.low).toBe(bare.low);
        // More draws refine the same answer: they go on in one sequence.
        expect(Math.abs(few.low - all.yieldKeptFraction.low)).toBeLessThan(0.02);
      }),
      { numRuns: 3, endOnFailure: true },
    );
  });

  it('lots and a yield measured before weigh alike at every door', () => {
    const lots = fc.record({ power: fc.double({ min: -3, max: 3, noNaN: true }), isSharp: fc.boolean() });
    const yields = fc.option(fc.double({ min: 0.9, max: 1.1, noNaN: true }), { nil: undefined });
    fc.assert(
      fc.property(
        fc.constantFrom(...METALS),
        heats,
        lots,
        yields,
        (metal, { peakC, nearPeakS }, lot, share) => {
          const { metals } = drawMetals(metal, MOST_DRAWS);
          const weights = Float64Array.from(metals, ({ startYieldMPa }, i) =>
            lot.isSharp && i % 3 > 0 ? 0 : (startYieldMPa / 200) ** (10 * lot.power),
          );
          const typicalMPa = loadAlloy(metal.alloy).tempers.T6!.yieldMPa.value;
          const given = {
            ...metal,
            lots: [{ name: 'lot', membersHash: membersHash(), weights, because: [] }],
            ...(share === undefined ? {} : { measuredYieldMPa: share * typicalMPa }),
          };
          const exposure = cycle(peakC, nearPeakS);
          const all = strengthAfter(exposure, given);
          const judged = judge(exposure, given).channels[0]!;
          const [scenario] = compareScenarios([{ name: 'as it ran', history: exposure }], given);
          for (const door of [judged, scenario!.verdict]) {
            expect(door.chanceKept).toBe(all.chanceKept);
            expect(door.yieldKeptFraction.low).toBe(all.yieldKeptFraction.low);
          }
          const history = weldCycle({ peakC, nearPeakS });
          const { count } = lotDraws(given.lots, ROUTINE_DRAWS);
          const bare = strengthAfter(exactly(history), given, { draws: count }).yieldKeptFraction;
          const [place] = softZone(
            [
              { distanceMm: 10, history },
              { distanceMm: 20, history: isothermal(20, 10) },
            ],
            { ...given, ambientC: 20 },
          ).points;
          const [asIs] = considerRecovery(history, given);
          for (const door of [place!.kept.asWelded, asIs!.yieldKeptFraction])
            expect([door.low, door.nominal, door.high]).toEqual([bare.low, bare.nominal, bare.high]);
          const { count: few } = lotDraws(given.lots, 100);
          const ofMap = strengthAfter(history, given, { draws: few }).yieldKeptFraction;
          const map = strengthMap({
            ...given,
            kind: 'weld-like',
            tempC: [peakC, peakC + 10],
            timeS: [nearPeakS, 2 * nearPeakS],
            rows: 2,
            columns: 2,
          });
          expect([map.keptLow, map.keptFraction, map.keptHigh].map(([row]) => row![0])).toEqual([
            ofMap.low,
            ofMap.nominal,
            ofMap.high,
          ]);
        },
      ),
      { numRuns: inFull ? 20 : 2, endOnFailure: true },
    );
  });

  it('an edit of a history keeps its doubts', () => {
    const exposure = cycle(290, 20);
    const { timeS } = exposure.history;
    const same = editExposure(exposure, (history) => resample(history, 0.5));
    const longer = editExposure(exposure, (history) =>
      insertWait(
        history,
        { atS: timeS[timeS.length - 1]!, waitS: 600 },
        { ambientC: 20, timeConstantS: 300 },
      ),
    );
    for (const edited of [same, longer]) {
      expect(edited.doubts.map(({ kind }) => kind)).toEqual(exposure.doubts.map(({ kind }) => kind));
      const [before, after] = [exposure, edited].map((one) => strengthAfter(one, TUBE, { draws: 400 }));
      expect(Math.abs(before!.chanceKept! - after!.chanceKept!)).toBeLessThanOrEqual(0.02);
      expect(Math.abs(before!.yieldKeptFraction.low - after!.yieldKeptFraction.low)).toBeLessThan(0.01);
    }
  });

  it.each(METALS)(
    '$alloy: resampling, splitting and the order of doubts move the chance by at most 0.02',
    (metal) => {
      fc.assert(
        fc.property(heats, fc.double({ min: 0.1, max: 0.9, noNaN: true }), ({ peakC, nearPeakS }, share) => {
          const { history } = cycle(peakC, nearPeakS);
          const chance = (exposure: Exposure, earlier: Exposure[] = []): number =>
            strengthAfter(exposure, metal, { draws: 400, earlier, endOnly: true }).chanceKept!;
          const whole = chance(read(history));
          // Heated 20 K in a fifth of the time near its peak, metal gains at most 0.5 K in half such a step: what a grid misses.
          const even = resample(history, nearPeakS / 100);
          expect(Math.abs(chance(read(even)) - whole)).toBeLessThanOrEqual(0.02);
          const turned = read(history);
          const reversed = chance({ ...turned, doubts: [...turned.doubts].reverse() });
          expect(Math.abs(reversed - whole)).toBeLessThanOrEqual(1 / 400 + 1e-9);
          const cut = Math.floor(share * (history.timeS.length - 2)) + 1;
          const part = (from: number, to: number): Exposure =>
            read(thermalHistory(history.timeS.slice(from, to), history.tempC.slice(from, to)));
          const split = chance(part(cut, history.timeS.length), [part(0, cut + 1)]);
          expect(Math.abs(split - whole)).toBeLessThanOrEqual(0.02);
        }),
        { numRuns: 3, endOnFailure: true },
      );
    },
  );

  it('the order of channels changes nothing', () => {
    const channel = (name: string, peakC: number) => ({
      name,
      unit: '°C' as const,
      sourceUnit: '°C',
      history: resample(weldCycle({ peakC, nearPeakS: 10 }), 0.5),
      faults: [],
    });
    const log = (channels: ReturnType<typeof channel>[]) => ({
      source: { name: 'made up', bytes: 0, sha256: '' },
      channels: channels.map((one) => ({
        ...one,
        rows: Uint32Array.from(one.history.timeS, (_, i) => i + 1),
      })),
      leftAside: [],
      rows: { read: 0, kept: 0, flagged: 0, rejected: 0 },
      rowFaults: [],
      intervalS: 0.5,
      notes: [],
      openReadings: [],
      statements: {},
    });
    const [a, b] = [channel('a', 250), channel('b', 310)];
    const options = { ...TUBE, attachment: 'peened hole' } as const;
    const [one, other] = [judge(log([a, b]), options), judge(log([b, a]), options)];
    expect(other.chanceKept).toBe(one.chanceKept);
    expect(other.channels[1]).toEqual(one.channels[0]);
  });

  it('a plan keeps what it keeps, whatever number of points it is drawn with', () => {
    const plan = thermalHistory([0, 30, 60, 200, 800], [20, 280, 280, 120, 30]);
    const [few, many] = [plan, resample(plan, 1)].map((history) =>
      judge(history, { ...TUBE, attachment: 'welded wires' }),
    );
    expect(Math.abs(few!.chanceKept! - many!.chanceKept!)).toBeLessThanOrEqual(0.02);
    const low = (verdict: typeof few): number => verdict!.channels[0]!.yieldKeptFraction.low;
    expect(Math.abs(low(few) - low(many))).toBeLessThan(0.005);
  });

  it('eight bakes, each harmless, are not harmless together', () => {
    const bake = isothermal(200, 40 * 60);
    const after = Array.from({ length: 8 }, (_, before) =>
      strengthAfter(bake, TUBE, { earlier: new Array(before).fill(bake), draws: 400, endOnly: true }),
    );
    for (let k = 1; k < after.length; k++) {
      expect(after[k]!.yieldKeptFraction.nominal).toBeLessThan(after[k - 1]!.yieldKeptFraction.nominal);
      expect(after[k]!.chanceKept!).toBeLessThanOrEqual(after[k - 1]!.chanceKept!);
    }
    // One after the other is one long bake: a history may be split, and the yield moves by no more than 1e-3.
    const once = strengthAfter(isothermal(200, 8 * 40 * 60), TUBE, { draws: 400, endOnly: true });
    expect(Math.abs(after[7]!.yieldKeptFraction.nominal - once.yieldKeptFraction.nominal)).toBeLessThan(1e-3);
  });
});

describe('condense', () => {
  // In short every sixth of the hour's readings, at the same rate.
  const hourS = inFull ? 3600 : 600;
  it('moves the chance of a noisy hour at 10 Hz by at most 0.02', () => {
    let seed = 1;
    const noise = (): number => {
      seed = (seed * 16_807) % 2_147_483_647;
      return seed / 2_147_483_647 - 0.5;
    };
    const timeS = Float64Array.from({ length: 10 * hourS }, (_, i) => i / 10);
    const smooth = timeS.map((t) => 20 + 240 * Math.exp(-(((t / hourS - 0.5) * 7.2) ** 2)));
    const noisy = thermalHistory(
      timeS,
      smooth.map((temp) => temp + 4 * noise()),
    );
    const chance = (history: ThermalHistory): number =>
      strengthAfter(read(history), TUBE, { draws: 400, endOnly: true }).chanceKept!;
    const short = condense(noisy);
    expect(short.timeS.length).toBeLessThan(timeS.length / 9);
    expect(Math.abs(chance(short) - chance(noisy))).toBeLessThanOrEqual(0.02);
    expect(Math.abs(chance(short) - chance(thermalHistory(timeS, smooth)))).toBeLessThanOrEqual(0.02);
  });
});
