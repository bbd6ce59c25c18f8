import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { readLog, type ThermalLog } from '../../lib/log';
import { heldBytes } from '../../lib/log/bytes/fileBytes';
import { lineAt, wholeLines } from '../../lib/log/bytes/lines';
import { LONG_BYTES, refuseTooLarge } from '../../lib/log/bytes/sourceBytes';
import { TemperbookError } from '../../lib/quantity';
import { fc } from '../setup/fc';
import { lines, rows } from './write';

describe('a file larger than memory', () => {
  it('is refused before it is read, with the size that would do', () => {
    expect(() => refuseTooLarge(250e6, 1e9, 'week.csv')).not.toThrow();
    const refuse = () => refuseTooLarge(251e6, 1e9, 'week.csv');
    expect(refuse).toThrow(TemperbookError);
    expect(refuse).toThrow(
      /week\.csv.*251 MB, with 1000 MB of memory free.*at most 250 MB.*Cut the log into parts/s,
    );
  });
});

afterEach(() => {
  vi.restoreAllMocks();
});

/** Arrays compared by their hash: element by element takes long. */
const sha = (values: Float64Array | Uint32Array) =>
  createHash('sha256')
    .update(Buffer.from(values.buffer, values.byteOffset, values.byteLength))
    .digest('hex');
const toldOf = ({ channels, ...log }: ThermalLog) => ({
  ...log,
  channels: channels.map(({ history, rows: lineOf, faults, ...channel }) => ({
    ...channel,
    ...{ time: sha(history.timeS), temp: sha(history.tempC), lines: sha(lineOf) },
    gaps: [...(history.gapAfter ?? [])],
    faults: JSON.stringify(faults),
  })),
});

describe('a file too long to be held in memory', () => {
  let folder: string;
  let file: string;
  beforeAll(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'long-'));
    file = path.join(folder, 'long.csv');
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  /** 18 MB with all that makes lines differ: line ends, quotes, words, faults, a comment, a date that tells nothing. */
  const row = (i: number) => {
    const s = Math.floor(i / 4);
    const two = (n: number) => String(n).padStart(2, '0');
    const stamp = `05/06/2031 ${two(10 + Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}.${(i % 4) * 25}`;
    const temps = [22 + (i % 100) / 8, 40 + (i % 70) / 8, 60 + (i % 50) / 8].map((t) => t.toFixed(3));
    if (i % 997 === 5) temps[1] = 'OPEN';
    if (i % 997 === 6 || i % 997 === 7) temps[2] = '';
    const comment = i % 5000 === 4999 ? '# °C by the second logger\r\n' : '';
    const line = i % 101 === 3 ? `"${stamp}",${temps.join(',')}` : `${stamp},${temps.join(',')}`;
    return comment + line;
  };
  const ROWS = 28_000;
  const text = `Time,TC1 (°C),TC2 (°C),TC3 (°C),${'note '.repeat(20)}\r\n${Array.from({ length: ROWS }, (_, i) => `${row(i)},${'-'.repeat(600)}`).join('\r\n')}`;

  it('is read from the disk in pieces as its bytes are at once', () => {
    const bytes = Buffer.from(text);
    expect(bytes.length).toBeGreaterThan(LONG_BYTES);
    writeFileSync(file, bytes);
    const log = readLog(file);
    expect(toldOf(log)).toEqual(toldOf(readLog(bytes, { name: 'long.csv' })));
    expect(log.rows).toMatchObject({ read: ROWS, rejected: 0 });
    expect(log.channels.map(({ faults }) => faults.length)).toEqual([0, 29, 29]);
    expect(log.channels[1]!.faults[28]).toMatchObject({ value: 'OPEN', row: 997 * 28 + 5 + 2 + 5 });
  });

  it('is refused when it is written over meanwhile', () => {
    writeFileSync(file, text);
    let nowMs = 0;
    vi.spyOn(Date, 'now').mockImplementation(() => {
      nowMs += 100;
      return nowMs;
    });
    expect(() => readLog(file, { onProgress: () => truncateSync(file, 1000) })).toThrow(
      /long\.csv: the file was changed while it was read/i,
    );
  });
});

it('lines are the same in pieces as in one, whatever they end in', () => {
  const part = fc.constantFrom('a', 'b,', '\r', '\n', '\r\n', 'x'.repeat(509), 'y'.repeat(40_000));
  fc.assert(
    fc.property(fc.array(part, { minLength: 1, maxLength: 30 }), (parts) => {
      const whole = parts.join('');
      const bytes = heldBytes(Buffer.from(whole));
      const wanted = [...whole.matchAll(/([^\r\n]*)(\r\n|\r|\n|$)/g)].slice(0, -1).map(([, line]) => line);
      const found: string[] = [];
      for (let at = 0; at < bytes.length; ) {
        const line = lineAt(bytes, at, 0);
        found.push(whole.slice(line.from, line.to));
        at = line.next;
      }
      // After a line end at the very end there is no further line.
      expect(found).toEqual(wanted);
      let at = 0;
      for (let piece = wholeLines(bytes, 0); piece.length > 0; piece = wholeLines(bytes, at)) {
        at += piece.length;
        expect(whole.slice(at - 1, at)).toMatch(/[\r\n]/);
        expect(whole.slice(at - 1, at + 1)).not.toBe('\r\n');
      }
      expect(whole.slice(at)).not.toMatch(/[\r\n]/);
    }),
    { numRuns: 200, endOnFailure: true },
  );
});

describe('how far reading has come', () => {
  /** 4 MB: some hundred chunks of the reader. */
  const bytes = lines(
    'Time (s),TC1 (°C)',
    rows(200_000, (i) => `${i},${(22 + (i % 100) / 10).toFixed(3)}`),
  );

  it('is told on a slow machine, ascending, at most twice a second', () => {
    let nowMs = 0;
    // Every look at the clock finds a tenth of a second gone.
    vi.spyOn(Date, 'now').mockImplementation(() => {
      nowMs += 100;
      return nowMs;
    });
    const told: [share: number, atMs: number][] = [];
    readLog(bytes, { onProgress: (share) => told.push([share, nowMs]) });
    expect(told.length).toBeGreaterThan(3);
    told.forEach(([share, atMs], k) => {
      expect(share).toBeGreaterThan(0);
      expect(share).toBeLessThanOrEqual(1);
      expect(atMs).toBeGreaterThan(2000);
      if (k === 0) return;
      expect(share).toBeGreaterThanOrEqual(told[k - 1]![0]);
      expect(atMs - told[k - 1]![1]).toBeGreaterThanOrEqual(500);
    });
  });

  it('is not told where reading is quick, and changes nothing', () => {
    vi.spyOn(Date, 'now').mockImplementation(() => 0);
    const told: number[] = [];
    const log = readLog(bytes, { onProgress: (share) => told.push(share) });
    expect(told).toEqual([]);
    expect(toldOf(log)).toEqual(toldOf(readLog(bytes)));
  });
});
