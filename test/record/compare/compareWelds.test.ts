import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { judge } from '../../../lib/decision';
import { membersHash } from '../../../lib/kinetics';
import { readLog } from '../../../lib/log';
import {
  buildRecord,
  compareFigure,
  compareHtml,
  compareRows,
  compareWelds,
  type Weld,
  weldOfRecord,
  weldOfVerdict,
  writeComparison,
} from '../../../lib/record';
import { chanceBetter, weightedQuantile } from '../../../lib/statistics';
import { drawMetals, lotDraws, MOST_DRAWS, ROUTINE_DRAWS, strengthAfter } from '../../../lib/strength';

const log = readLog('data/demo/mast-foot-two-probes.csv');
const verdictAt = (share: number, more: Partial<Parameters<typeof judge>[1]> = {}) =>
  judge(
    {
      ...log,
      channels: log.channels.map((one) => ({
        ...one,
        history: { ...one.history, tempC: one.history.tempC.map((t) => 20 + share * (t - 20)) },
      })),
    },
    { alloy: 'A356.0', temper: 'T6', attachment: 'peened hole', ...more },
  );
const cool = weldOfVerdict('cool', verdictAt(0.7));
const hot = weldOfVerdict('<hot>', verdictAt(0.9));
const keptMore = (a: Weld, b: Weld) =>
  compareWelds([a, b]).places.map(({ welds }) => welds[1]!.firstKeptMore!);

describe('welds side by side', () => {
  it('count draw by draw: the cooler weld kept more in nearly all, and the two chances make one', () => {
    const coolMore = keptMore(cool, hot);
    const hotMore = keptMore(hot, cool);
    for (const [k, chance] of coolMore.entries()) {
      expect(chance).toBeGreaterThan(0.95);
      expect(chance + hotMore[k]!).toBeCloseTo(1, 12);
    }
  });

  it('find a weld no better than itself', () => {
    expect(keptMore(cool, cool)).toEqual([0.5, 0.5]);
  });

  it('take a record like the log it was made from', () => {
    const verdict = verdictAt(0.9);
    const record = buildRecord({ verdict, figures: [] });
    const [fromRecord, fromLog] = [weldOfRecord('a', record), weldOfVerdict('b', verdict)];
    expect(keptMore(cool, fromRecord)[0]!).toBeCloseTo(keptMore(cool, fromLog)[0]!, 1);
    const [row] = compareRows(compareWelds([fromRecord, cool]).places[0]!);
    const [other] = compareRows(compareWelds([fromLog, cool]).places[0]!);
    expect(row!['Strength kept']).toBe(other!['Strength kept']);
    expect(row!.Peak).toBe(other!.Peak);
  });

  it('draw of a part that was welded before this weld alone, and count both', () => {
    const { history } = log.channels[0]!;
    const before = { ...history, tempC: history.tempC.map((t) => 20 + 0.8 * (t - 20)) };
    const verdict = verdictAt(0.7, { earlier: [before] });
    const again = weldOfRecord('again', buildRecord({ verdict, figures: [] }));
    const fromLog = weldOfVerdict('again', verdict);
    for (const one of [again, fromLog]) {
      expect(one.places[0]!.exposure.history.timeS.at(-1)).toBe(
        cool.places[0]!.exposure.history.timeS.at(-1),
      );
      expect(keptMore(cool, one)[0]!).toBeGreaterThan(0.95);
    }
    // Heats in a record are kept to 500 samples: 0.02 is what the rules of the draws allow for that.
    expect(Math.abs(keptMore(hot, again)[0]! - keptMore(hot, fromLog)[0]!)).toBeLessThanOrEqual(0.02);
  });

  it('give no chance where either may hide heat', () => {
    const blind = { ...hot, places: hot.places.map((place) => ({ ...place, chanceKept: null })) };
    expect(keptMore(cool, blind)).toEqual([null, null]);
    expect(keptMore(blind, cool)).toEqual([null, null]);
  });

  it('say which places have no partner, and refuse welds that share none', () => {
    const one = { ...hot, places: hot.places.slice(0, 1) };
    expect(compareWelds([cool, one]).leftOut).toEqual(['"TC2 tube 22 mm" of cool is not in <hot>.']);
    const other = { ...hot, places: hot.places.map((place, k) => ({ ...place, name: `X${k}` })) };
    expect(() => compareWelds([cool, other])).toThrow('share no place');
    expect(() => compareWelds([cool])).toThrow();
  });

  it('lay the traces over each other from the moment they warm up', () => {
    const { data, layout } = compareFigure(compareWelds([cool, hot]).places[0]!);
    const traces = data.filter(({ mode, x }) => mode === 'lines' && (x?.length ?? 0) > 10);
    expect(traces).toHaveLength(2);
    expect(layout.yaxis2?.ticktext?.length).toBeGreaterThan(2);
    expect(layout.annotations?.some(({ text }) => /^1: \d+ °C$/.test(text))).toBe(true);
  });
});

describe('the page of welds side by side', () => {
  const comparison = compareWelds([cool, hot]);
  it('loads nothing, runs nothing, and shows names as text', () => {
    const html = compareHtml(comparison);
    expect(html).not.toMatch(/<script|\bsrc=|<link|url\(http/i);
    expect(html).toContain('&lt;hot&gt;');
    expect(html).not.toContain('<hot>');
  });

  it('goes over an older page and nothing else', () => {
    const out = path.join(mkdtempSync(path.join(tmpdir(), 'compare-')), 'page.html');
    writeComparison(comparison, out);
    writeComparison(comparison, out);
    writeFileSync(out, 'mine');
    expect(() => writeComparison(comparison, out)).toThrow('Another file stands');
    expect(readFileSync(out, 'utf8')).toBe('mine');
    expect(existsSync(path.join(path.dirname(out), 'none'))).toBe(false);
  });
});

describe('welds of lots', () => {
  const { metals } = drawMetals({ alloy: 'A356.0', temper: 'T6' }, MOST_DRAWS);
  const medianMPa = weightedQuantile(
    Float64Array.from(metals, ({ startYieldMPa }) => startYieldMPa),
    0.5,
  );
  const lot = (name: string, power: number) => ({
    name,
    membersHash: membersHash(),
    weights: Float64Array.from(metals, ({ startYieldMPa }) => (startYieldMPa / medianMPa) ** power),
    because: [],
  });

  it('are weighed by the lot they share, from a log or from its record', () => {
    const lots = [lot('lot 7', 8)];
    const [of7, hot7] = [0.7, 0.9].map((share) => weldOfVerdict('of 7', { ...verdictAt(share), lots }));
    const [{ exposure, earlier }] = hot7!.places as [Weld['places'][0]];
    const asked = { earlier, draws: lotDraws(lots, ROUTINE_DRAWS).count, endOnly: true };
    const metal = { alloy: 'A356.0', temper: 'T6', lots };
    const a = strengthAfter(of7!.places[0]!.exposure, metal, asked);
    const b = strengthAfter(exposure, metal, asked);
    expect(keptMore(of7!, hot7!)[0]).toBe(chanceBetter(a.draws.yieldKept, b.draws.yieldKept, a.weights));
    const record = buildRecord({ verdict: { ...verdictAt(0.9), lots }, figures: [] });
    // A record thins its histories, which may move a chance by 0.02 (rules of the draws).
    const byRecord = keptMore(of7!, weldOfRecord('record', record))[0]!;
    expect(Math.abs(byRecord - keptMore(of7!, hot7!)[0]!)).toBeLessThanOrEqual(0.02);
  });

  it('of two lots are two metals: no longer sure to fall together, and the two chances still make one', () => {
    const [strong, weak] = [lot('lot 7', 8), lot('lot 8', -8)];
    const same = { ...hot, lots: [strong] };
    const other = { ...hot, lots: [weak] };
    expect(keptMore(same, same)).toEqual([0.5, 0.5]);
    const chances = keptMore(same, other);
    const [a, b] = [same, other].map(({ lots, places: [place] }) => {
      const { count, weights } = lotDraws(lots, ROUTINE_DRAWS);
      const asked = { draws: count, endOnly: true };
      const { draws } = strengthAfter(place!.exposure, { alloy: 'A356.0', temper: 'T6' }, asked);
      return { kept: draws.yieldKept, weights: weights! };
    });
    let [more, all] = [0, 0];
    for (const [i, x] of a!.kept.entries())
      for (const [j, y] of b!.kept.entries()) {
        const weight = a!.weights[i]! * b!.weights[j]!;
        more += weight * (x > y ? 1 : x === y ? 0.5 : 0);
        all += weight;
      }
    expect(chances[0]).toBeCloseTo(more / all, 9);
    for (const [k, chance] of keptMore(other, same).entries()) expect(chance + chances[k]!).toBeCloseTo(1, 9);
  });

  it('weighed with other members have no chance, and say why', () => {
    const old = { ...hot, lots: [{ ...lot('lot 7', 1), membersHash: 'of old' }] };
    const [place] = compareWelds([cool, old]).places;
    expect(place!.welds[1]!.firstKeptMore).toBeNull();
    expect(Object.values(compareRows(place!)[1]!).join()).toMatch(/not known: its lot was weighed with/);
  });
});
