import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { type JudgeOptions, judge } from '../../lib/decision';
import { isothermal, join, resample, thermalHistory } from '../../lib/history';
import { readLog } from '../../lib/log';
import { inFull } from '../setup/extent';
import { fc } from '../setup/fc';

const a356: JudgeOptions = { alloy: 'A356.0', temper: 'T6', attachment: 'welded wires' };
const only = (history: Parameters<typeof judge>[0], options: JudgeOptions = a356) =>
  judge(history, options).channels[0]!;

/** Up and down at 10 K/s round a soak, as one history. */
const soak = (tempC: number, durationS: number) =>
  join([
    thermalHistory([0, (tempC - 20) / 10], [20, tempC]),
    isothermal(tempC, durationS),
    thermalHistory([0, (tempC - 20) / 10], [tempC, 20]),
  ]);

describe('judge', () => {
  it('keeps the temper of a part that stayed in the shop for a day', () => {
    const { verdict, yieldKeptFraction, limits } = only(isothermal(20, 86_400));
    expect(verdict).toBe('kept');
    expect(yieldKeptFraction.nominal).toBeCloseTo(1, 3);
    expect(limits[0]!.crossed).toBe(false);
  });

  it('calls the temper lost after an hour at 400 °C', () => {
    const { verdict, sentence, settle } = only(soak(400, 3600));
    expect(verdict).toBe('lost');
    expect(sentence).toMatch(/the chance that it keeps the 90 % you asked for is < 1 %/);
    expect(settle).toEqual([]);
  });

  it('is uncertain where the band straddles the allowance, and says what would settle it', () => {
    const { verdict, yieldKeptFraction, settle } = only(soak(227, 8 * 3600));
    expect(yieldKeptFraction.low).toBeLessThan(0.9);
    expect(yieldKeptFraction.high).toBeGreaterThan(0.9);
    expect(verdict).toBe('uncertain');
    expect(settle.join(' ')).toMatch(/Brinell/);
  });

  it('says how long the record was above the shop rule, with the probe’s doubt as a band', () => {
    const { limits } = only(soak(240, 600));
    const [shop] = limits;
    expect(shop!.limitC).toBeCloseTo(226.67, 1); // 440 °F: common practice, no source
    expect(shop!.known).toBe('practice');
    // 600 s of soak and the two flanks of 13.3 K at 10 K/s.
    expect(shop!.timeAboveS.nominal).toBeCloseTo(602.7, 0);
    expect(shop!.timeAboveS.low).toBeLessThan(shop!.timeAboveS.nominal);
  });

  it('widens its band when nobody says how the probe was fixed', () => {
    const told = only(soak(280, 300));
    const untold = only(soak(280, 300), { alloy: 'A356.0', temper: 'T6' });
    expect(untold.yieldKeptFraction.low).toBeLessThan(told.yieldKeptFraction.low);
    expect(untold.peakC.high).toBeGreaterThan(told.peakC.high);
  });

  it('starts from a measured yield when given one, which narrows the yield now', () => {
    const typical = only(soak(227, 3600));
    const measured = only(soak(227, 3600), { ...a356, measuredYieldMPa: 190 });
    const width = ({ low, high }: { low: number; high: number }): number => high - low;
    expect(width(measured.yieldMPa)).toBeLessThan(width(typical.yieldMPa));
    expect(measured.yieldMPa.because[0]).toMatch(/190 MPa measured/);
  });

  it('does not clear a spot whose probe stopped while the others were hot', () => {
    const log = logOf({ steady: resample(soak(230, 1200), 1), gone: thermalHistory([0, 10], [20, 120]) });
    const [steady, gone] = judge(log, a356).channels;
    expect(steady!.uncoveredS).toBe(0);
    expect(gone!.verdict).toBe('uncertain');
    expect(gone!.sentence).toMatch(/no trusted reading/);
    expect(gone!.uncoveredS).toBeGreaterThan(1200);
  });

  it('forgives a gap while everything was cool', () => {
    const gappy = thermalHistory([0, 100, 103, 1000], [20, 25, 25, 22], [1]);
    expect(only(gappy).verdict).toBe('kept');
    expect(only(gappy).uncoveredS).toBe(3);
  });

  it('does not clear five minutes that nobody saw', () => {
    const gappy = thermalHistory([0, 100, 400, 1000], [20, 25, 25, 22], [1]);
    expect(only(gappy)).toMatchObject({ verdict: 'uncertain', chanceKept: null, uncoveredS: 300 });
  });

  it('leaves less budget after heat, and none beyond the allowance', () => {
    const before = only(isothermal(20, 60)).budget.timeAtLimitS;
    const after = only(soak(227, 3 * 3600)).budget.timeAtLimitS;
    expect(after.nominal).toBeLessThan(before.nominal);
    expect(only(soak(400, 3600)).budget.timeAtLimitS.nominal).toBe(0);
  });

  it('gives one answer per channel and the worst for the log', () => {
    const log = logOf({ cool: resample(isothermal(20, 3600), 5), hot: soak(420, 3600 - 80) });
    const verdict = judge(log, a356);
    expect(verdict.channels.map((c) => c.verdict)).toEqual(['kept', 'lost']);
    expect(verdict.verdict).toBe('lost');
    expect(verdict.sentence).toMatch(/hot/);
  });

  it('holds low ≤ nominal ≤ high everywhere, whatever the history', () => {
    const histories = fc
      .array(
        fc.record({ stepS: fc.integer({ min: 1, max: 600 }), tempC: fc.integer({ min: 0, max: 520 }) }),
        {
          minLength: 2,
          maxLength: 12,
        },
      )
      .map((steps) => {
        let t = 0;
        return thermalHistory(
          steps.map(({ stepS }) => (t += stepS)),
          steps.map(({ tempC }) => tempC),
        );
      });
    fc.assert(
      fc.property(histories, fc.constantFrom('A356.0', '6061', '6063', '6082'), (history, alloy) => {
        const c = only(history, { alloy, temper: 'T6' });
        for (const { nominal, low, high } of [
          c.yieldKeptFraction,
          c.yieldMPa,
          c.peakC,
          c.budget.timeAtLimitS,
        ]) {
          expect(low).toBeLessThanOrEqual(nominal);
          expect(nominal).toBeLessThanOrEqual(high);
          expect(Number.isFinite(low + high)).toBe(true);
        }
        c.track.nominal.forEach((kept, i) => {
          expect(c.track.low[i]!).toBeLessThanOrEqual(kept);
          expect(c.track.high[i]!).toBeGreaterThanOrEqual(kept);
        });
      }),
      { numRuns: inFull ? 40 : 15 },
    );
  });

  it.each([
    [{ ...a356, alloy: 'A999' }, /alloy card/],
    [{ ...a356, temper: 'T99' }, /T99/],
    [{ ...a356, allowanceFraction: 10 }, /0\.1 for 10 %/],
    [{ ...a356, byChannel: { nowhere: {} } }, /"nowhere".*"history"/],
    [{ ...a356, attachment: 'glued' as 'taped' }, /attaching/],
  ] as const)('refuses what it cannot judge: %j', (options, message) => {
    expect(() => judge(isothermal(20, 60), options)).toThrow(message);
  });
});

describe('judge on the demo log', () => {
  const log = readLog(path.join(__dirname, '../../data/demo/mast-foot-weld.csv'));
  const verdict = judge(log, {
    alloy: 'A356.0',
    temper: 'T6',
    attachment: 'peened hole',
    byChannel: { 'TC4 tube 25 mm': { alloy: '6061' } },
  });

  it('finds the three passes and the repair on every probe that ran to the end', () => {
    for (const c of verdict.channels.filter(({ name }) => !name.startsWith('TC2'))) {
      expect(c.passes).toHaveLength(4);
      expect(c.passShare.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 2);
    }
  });

  it('cannot clear the block where the probe let go', () => {
    expect(verdict.channels.find(({ name }) => name.startsWith('TC2'))!.verdict).toBe('uncertain');
    expect(verdict.verdict).toBe('uncertain');
  });
});

function logOf(channels: Record<string, ReturnType<typeof isothermal>>): ReturnType<typeof readLog> {
  return {
    source: { name: 'made up', bytes: 0, sha256: '' },
    channels: Object.entries(channels).map(([name, history]) => ({
      name,
      unit: '°C',
      sourceUnit: '°C',
      history,
      rows: Uint32Array.from(history.timeS, (_, i) => i + 1),
      faults: [],
    })),
    leftAside: [],
    rows: { read: 0, kept: 0, flagged: 0, rejected: 0 },
    rowFaults: [],
    openReadings: [],
    statements: {},
    intervalS: 1,
    notes: [],
  };
}

describe('judge at the edges of what the models know', () => {
  it('says that metal melts', () => {
    expect(only(isothermal(600, 60)).sentence).toMatch(/begins to melt/);
  });

  it('cannot clear a log that starts in the heat or ends in it, nor take hot metal for the air', () => {
    const log = readLog(path.join(__dirname, '../../data/demo/mast-foot-weld.csv'));
    const channel = log.channels.find(({ name }) => name.startsWith('TC4'))!;
    const { timeS, tempC } = channel.history;
    const part = (from: number, to: number) =>
      judge(
        {
          ...log,
          lastRowS: timeS[to - 1]!,
          channels: [{ ...channel, history: thermalHistory(timeS.slice(from, to), tempC.slice(from, to)) }],
        },
        { alloy: '6061', temper: 'T6', attachment: 'welded wires' },
      );
    const top = tempC.indexOf(Math.max(...tempC));
    const late = part(top - 2, tempC.length);
    expect(late.channels[0]!.sentence).toMatch(/starts at \d+ °C.*not recorded/);
    expect(late.channels[0]!.verdict).not.toBe('kept');
    expect(late.assumptions.find(({ name }) => name.startsWith('Air'))!.value).toBe('20 °C (68 °F)');
    const cut = part(0, top - 1);
    expect(cut.channels[0]!.sentence).toMatch(/still rising/);
    expect(cut.channels[0]!.budget.sentence).toMatch(/count on none/);
  });

  it('draws the band it judges by, at the end of the track', () => {
    const { track, yieldKeptFraction } = only(soak(250, 30));
    expect(track.low.at(-1)).toBe(yieldKeptFraction.low);
    expect(track.high.at(-1)).toBe(yieldKeptFraction.high);
  });

  it('takes a hardness for the start, and refuses nonsense in plain words', () => {
    const six = { alloy: '6061', attachment: 'welded wires' } as const;
    expect(
      only(soak(220, 600), { ...six, temper: 'T6', measuredHardnessHV: 107 }).yieldMPa.because[0],
    ).toMatch(/276 MPa measured/);
    expect(() => judge(soak(220, 600), six)).toThrow(/[Tt]emper/);
    expect(() => judge(soak(220, 600), { ...six, temper: 'T6', ambientC: -400 })).toThrow(
      /air round the part/,
    );
  });
});
