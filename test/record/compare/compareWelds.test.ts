import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { judge } from '../../../lib/decision';
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

const log = readLog('data/demo/mast-foot-two-probes.csv');
const verdictAt = (share: number) =>
  judge(
    {
      ...log,
      channels: log.channels.map((one) => ({
        ...one,
        history: { ...one.history, tempC: one.history.tempC.map((t) => 20 + share * (t - 20)) },
      })),
    },
    { alloy: 'A356.0', temper: 'T6', attachment: 'peened hole' },
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
    expect(layout.annotations?.some(({ text }) => /^1 \d+ °C$/.test(text))).toBe(true);
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
