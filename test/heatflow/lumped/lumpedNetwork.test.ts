import { describe, expect, it } from 'vitest';
import { bulkRise, type LumpedJob, lumpedNetwork } from '../../../lib/heatflow';
import { tempAt } from '../../../lib/history';
import { TemperbookError } from '../../../lib/quantity';
import { fc } from '../../setup/fc';

const casting = { name: 'casting', massKg: 0.6, specificHeatJPerKgK: 963, startC: 20 };
const fixture = { name: 'fixture', massKg: 4, specificHeatJPerKgK: 480, startC: 20 };
const job: LumpedJob = {
  parts: [
    { ...casting, surface: { areaMm2: 40_000, filmWPerM2K: 8, emissivity: 0.15 } },
    { ...fixture, surface: { areaMm2: 90_000, filmWPerM2K: 8, emissivity: 0.6 } },
  ],
  links: [{ between: ['casting', 'fixture'], conductanceWPerK: 1.5 }],
  pulses: [
    { part: 'casting', fromS: 60, toS: 100, powerW: 1300 },
    { part: 'casting', fromS: 400, toS: 440, powerW: 1300 },
  ],
  surroundingsC: 20,
  untilS: 4 * 3600,
};

describe('lumpedNetwork', () => {
  it('two bodies in contact: the difference decays exponentially, the mean stays', () => {
    const hot = { ...casting, startC: 300 };
    const run = lumpedNetwork(
      { parts: [hot, fixture], links: job.links!, surroundingsC: 20, untilS: 2000 },
      1e-3,
    );
    const [c1, c2] = [0.6 * 963, 4 * 480];
    const mean = (c1 * 300 + c2 * 20) / (c1 + c2);
    const rate = 1.5 * (1 / c1 + 1 / c2);
    for (const t of [10, 100, 500, 2000]) {
      const decay = 280 * Math.exp(-rate * t);
      expect(tempAt(run.histories.casting!, t)).toBeCloseTo(mean + (decay * c2) / (c1 + c2), 1);
      expect(tempAt(run.histories.fixture!, t)).toBeCloseTo(mean - (decay * c1) / (c1 + c2), 1);
    }
    expect(run.timeStepErrorK).toBeLessThan(0.05);
  });

  it('radiation alone follows T⁻³ = T₀⁻³ + 3 ε σ A t / C', () => {
    const surface = { areaMm2: 40_000, filmWPerM2K: 0, emissivity: 1 };
    const run = lumpedNetwork(
      { parts: [{ ...casting, startC: 500, surface }], surroundingsC: -100, untilS: 3000 },
      1e-3,
    );
    // Surroundings of 173 K give back (173/773)⁴ = 0.25 % at the start: compare with that flow added to the lost.
    const a = (5.670374419e-8 * 0.04) / (0.6 * 963);
    const free = (773.15 ** -3 + 3 * a * 60) ** (-1 / 3) - 273.15;
    const returned = a * 173.15 ** 4 * 60;
    expect(tempAt(run.histories.casting!, 60) - free).toBeGreaterThan(0);
    expect(tempAt(run.histories.casting!, 60) - free).toBeLessThan(returned);
  });

  it('without loss a pulse warms the part by its heat over its heat capacity', () => {
    const run = lumpedNetwork({ parts: [casting], pulses: job.pulses!, surroundingsC: 20, untilS: 500 });
    const rise = bulkRise({ netHeatJ: 2 * 40 * 1300, massKg: 0.6, specificHeatJPerKgK: 963 });
    expect(run.histories.casting!.tempC.at(-1)).toBeCloseTo(20 + rise, 8);
    expect(run.energy.pulsesJ).toBeCloseTo(104_000, 6);
  });

  it('an afternoon of passes: interpass temperatures, cooling, balance to rounding', () => {
    const run = lumpedNetwork(job);
    const at = (t: number) => tempAt(run.histories.casting!, t);
    expect(at(100)).toBeGreaterThan(at(60) + 80);
    expect(at(440)).toBeGreaterThan(at(100));
    expect(at(4 * 3600)).toBeLessThan(30);
    expect(run.energy.imbalance).toBeLessThan(1e-12);
    expect(run.timeStepErrorK).toBeLessThan(0.2);
    // Pulses are never stepped across: their edges are samples.
    for (const edge of [60, 100, 400, 440]) expect(run.histories.casting!.timeS).toContain(edge);
  });

  it('flags a body hotter than any shop makes it', () => {
    expect(lumpedNetwork(job).notes).toEqual([]);
    const pulses = [{ part: 'casting', fromS: 0, toS: 60, powerW: 1e6 }];
    expect(lumpedNetwork({ ...job, pulses }).notes[0]).toMatch(
      /^casting reaches \d{4,} °C .*check the power/,
    );
  });

  it('its error falls with the tolerance', () => {
    const [coarse, fine] = [lumpedNetwork(job, 0.5), lumpedNetwork(job, 0.005)];
    expect(fine.timeStepErrorK).toBeLessThan(coarse.timeStepErrorK / 10);
  });

  it('keeps heat, and temperatures between those present, in any network', () => {
    const body = fc.record({
      massKg: fc.double({ min: 0.01, max: 50, noNaN: true }),
      startC: fc.double({ min: 0, max: 600, noNaN: true }),
      areaMm2: fc.double({ min: 0, max: 1e6, noNaN: true }),
      emissivity: fc.double({ min: 0, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.array(body, { minLength: 2, maxLength: 4 }),
        fc.double({ min: 0, max: 500, noNaN: true }),
        (bodies, g) => {
          const parts = bodies.map(({ massKg, startC, areaMm2, emissivity }, i) => ({
            name: `part ${i}`,
            massKg,
            specificHeatJPerKgK: 900,
            startC,
            surface: { areaMm2, filmWPerM2K: 8, emissivity },
          }));
          const links = parts
            .slice(1)
            .map((p) => ({ between: ['part 0', p.name] as const, conductanceWPerK: g }));
          const run = lumpedNetwork({ parts, links, surroundingsC: 20, untilS: 1000 });
          expect(run.energy.imbalance).toBeLessThan(1e-9);
          const low = Math.min(20, ...bodies.map((b) => b.startC)) - 0.1;
          const high = Math.max(20, ...bodies.map((b) => b.startC)) + 0.1;
          for (const history of Object.values(run.histories))
            expect(history.tempC.every((t) => t > low && t < high)).toBe(true);
        },
      ),
      { numRuns: 40 },
    );
  });

  it.each([
    ['no parts', { parts: [], links: [], pulses: [] }, /at least one part/],
    ['a name used twice', { parts: [casting, casting] }, /Two parts are called "casting"/],
    [
      'a link to nobody',
      { links: [{ between: ['casting', 'table'] as const, conductanceWPerK: 1 }] },
      /No part is called "table".*casting, fixture/,
    ],
    [
      'a link to itself',
      { links: [{ between: ['casting', 'casting'] as const, conductanceWPerK: 1 }] },
      /to itself/,
    ],
    [
      'a pulse that ends before it starts',
      { pulses: [{ part: 'casting', fromS: 5, toS: 5, powerW: 1 }] },
      /no time to act/,
    ],
    ['a mass of nothing', { parts: [{ ...casting, massKg: 0 }, fixture] }, /mass of casting/],
    [
      'an emissivity above one',
      { parts: [{ ...casting, surface: { areaMm2: 1, filmWPerM2K: 1, emissivity: 2 } }, fixture] },
      /emissivity of casting/,
    ],
    ['no time', { untilS: 0 }, /untilS/],
  ])('says what is wrong with %s', (_, change, message) => {
    const run = () => lumpedNetwork({ ...job, ...change });
    expect(run).toThrow(TemperbookError);
    expect(run).toThrow(message);
  });

  it.each<[string, Record<string, unknown>, RegExp]>([
    ['no list of parts', { parts: undefined }, /the job: found nothing, expected the key "parts"/],
    [
      'a link between nobody',
      { links: [{ conductanceWPerK: 3 }] },
      /links\[0\]: found nothing, expected the key "between"/,
    ],
    [
      'a skin without film',
      { parts: [{ ...casting, surface: { areaMm2: 4e4 } }, fixture] },
      /parts\[0\]\.surface: found nothing, expected the key "filmWPerM2K"/,
    ],
    [
      'a skin without area',
      { parts: [{ ...casting, surface: { filmWPerM2K: 8 } }, fixture] },
      /parts\[0\]\.surface: found nothing, expected the key "areaMm2"/,
    ],
    ['a misspelt key', { pulse: [] }, /pulse: found a key .*did you mean pulses\?/],
  ])('tells the place of a slip in the keys: %s', (_, change, message) => {
    const run = () => lumpedNetwork({ ...job, ...change } as unknown as LumpedJob);
    expect(run).toThrow(TemperbookError);
    expect(run).toThrow(message);
  });

  it('and refuses what is no job at all', () => {
    expect(() => lumpedNetwork(undefined as unknown as LumpedJob)).toThrow(/the job: found nothing/);
  });
});
