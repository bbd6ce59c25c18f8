import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { judge } from '../../lib/decision';
import { figureInUsUnits, verdictFigure } from '../../lib/figure';
import { readLog } from '../../lib/log';
import { formatTemp } from '../../lib/quantity';
import {
  buildRecord,
  compareHtml,
  compareWelds,
  namesIn,
  readRecord,
  readShelf,
  recordHtml,
  shelfHtml,
  weldOfRecord,
  writeRecord,
} from '../../lib/record';
import { metricAlone, wordsOfPage } from '../setup/metricAlone';
import { unwrapped } from '../setup/unwrapped';
import { sampleParts, sampleRecord } from './samples';

const log = readLog('data/demo/mast-foot-two-probes.csv');
const judged = buildRecord({
  log,
  verdict: judge(log, { alloy: 'A356.0', temper: 'T6', attachment: 'peened hole' }),
  job: { part: 'HB-09', thicknessMm: 25, thinnestWallMm: 3, preheatC: 120, filler: '4043, 2.4 mm' },
});

describe('pages in US units', () => {
  it.each([
    ['a judged log', judged],
    ['a filled-in job', sampleRecord()],
  ])('leave no number of a record in °C, MPa or mm alone: %s', (_, record) => {
    const names = namesIn(record);
    expect(metricAlone(wordsOfPage(recordHtml(record), names))).not.toEqual([]);
    expect(metricAlone(wordsOfPage(recordHtml(record, 'us'), names))).toEqual([]);
  });

  it('put °F before °C wherever both stand, and keep names', () => {
    const page = unwrapped(recordHtml(judged, 'us'));
    expect(wordsOfPage(page, namesIn(judged))).not.toMatch(/\d °C \(\d+ °F\)/);
    expect(page).toMatch(/\d °F \(\d+ °C\)/);
    for (const { name } of judged.verdict.channels) expect(page).toContain(name);
    expect(page).toContain('0.98 in (25 mm)');
    expect(page).toContain('248 °F (120 °C)');
    expect(page).toContain('4043, 2.4 mm');
  });

  it('change the page and not the data, either way', () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'us-'));
    const first = writeRecord(judged, folder, 'r');
    const page = readFileSync(first.html, 'utf8');
    const data = readFileSync(first.json, 'utf8');
    const again = writeRecord(judged, folder, 'r', 'us');
    expect([again.isNew, again.edition]).toEqual([false, 1]);
    expect(readFileSync(again.html, 'utf8')).toBe(recordHtml(readRecord(again.json), 'us'));
    expect(readFileSync(again.json, 'utf8')).toBe(data);
    writeRecord(judged, folder, 'r');
    expect(readFileSync(first.html, 'utf8')).toBe(page);
  });

  it('hold for a shelf and for welds side by side', () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'us-'));
    writeRecord(judged, folder, 'r');
    const shelf = readShelf(folder);
    const page = unwrapped(shelfHtml({ title: 'Shelf', shelf, parts: shelf.parts, since: new Map() }, 'us'));
    expect(page).toMatch(/\d °F \(\d+ °C\)/);
    expect(page).not.toMatch(/\d °C \(\d+ °F\)/);
    const compared = unwrapped(
      compareHtml(compareWelds([weldOfRecord('a', judged), weldOfRecord('b', judged)]), 'us'),
    );
    expect(compared).not.toMatch(/\d °C \(\d+ °F\)/);
  });

  it('label a peak with the °F that a table says of it', () => {
    const { log: sample, verdict } = sampleParts();
    for (const tempC of [362.6, 363.4, 100.5]) {
      const channels = sample!.channels.map((one) => ({
        ...one,
        history: { timeS: Float64Array.of(0, 60, 120), tempC: Float64Array.of(20, tempC, 30) },
      }));
      const { layout } = figureInUsUnits(verdictFigure({ ...sample!, channels }, verdict));
      const labels = layout.annotations!.filter(({ text, yref }) => yref === 'y' && /\d °F$/.test(text));
      expect(labels.length).toBeGreaterThan(0);
      for (const { text } of labels) expect(formatTemp(tempC)).toContain(`(${/\d+ °F$/.exec(text)![0]})`);
    }
  });

  it('number the left axis of a trace in °F, at the same places', () => {
    const { log: sample, verdict } = sampleParts();
    const figure = verdictFigure(sample!, verdict);
    const us = figureInUsUnits(figure);
    expect(us.layout.yaxis!.ticktext).toEqual(figure.layout.yaxis2!.ticktext);
    expect(us.layout.yaxis!.tickvals).toEqual(figure.layout.yaxis2!.tickvals);
    expect(us.layout.yaxis2!.ticktext).toBeUndefined();
    const heading = (of: typeof figure, x: number) =>
      of.layout.annotations!.find((note) => /^°[CF]$/.test(note.text) && note.x === x)!.text;
    expect([heading(us, 0), heading(us, 1)]).toEqual(['°F', '°C']);
    expect(us.layout.annotations!.some(({ text }) => /\d °C$/.test(text))).toBe(false);
  });
});
