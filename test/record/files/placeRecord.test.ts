import fs, { mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { auditFolder, readRecord, recordHtml, writeRecord } from '../../../lib/record';
import { filesIn } from '../../setup/filesIn';
import { sampleRecord } from '../samples';

/** What happens at one step of a write: each call that changes the disk is a step. */
const disk = { step: 0, at: -1, happens: (_write: () => void): void => undefined };
const real = {
  linkSync: fs.linkSync,
  renameSync: fs.renameSync,
  rmSync: fs.rmSync,
  writeFileSync: fs.writeFileSync,
};

/** The file system with a step before each change; a write that is stopped has written half. */
function stepped<Args extends unknown[]>(call: (...args: Args) => void, half?: (...args: Args) => void) {
  return (...args: Args): void => {
    if (disk.step++ === disk.at) disk.happens(() => half?.(...args));
    call(...args);
  };
}

beforeAll(() => {
  Object.assign(fs, {
    linkSync: stepped(real.linkSync),
    renameSync: stepped(real.renameSync),
    rmSync: stepped(real.rmSync),
    writeFileSync: stepped(real.writeFileSync, (path, text) =>
      real.writeFileSync(path, String(text).slice(0, String(text).length / 2)),
    ),
  });
  syncBuiltinESMExports();
});
afterAll(() => {
  Object.assign(fs, real);
  syncBuiltinESMExports();
});

/** Two writes, a link, a rename, two looks for what is left, and the shelf's note. */
const STEPS = 7;
/** No system gives a process this number. */
const NO_PROCESS = 2 ** 30;

const record = sampleRecord();
const ourPid = process.pid;
let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'place-'));
});
afterEach(() => {
  runAs(ourPid);
  real.rmSync(folder, { recursive: true });
});

function runAs(pid: number): void {
  Object.defineProperty(process, 'pid', { value: pid });
  disk.step = 0;
  disk.at = -1;
}

/** From this step on the process does nothing any more: what it was writing is half written. */
function killAt(step: number): void {
  disk.at = step;
  disk.happens = (half) => {
    half();
    disk.at = disk.step;
    disk.happens = () => {
      disk.at = disk.step;
      throw new Error('killed');
    };
    throw new Error('killed');
  };
}

describe('a write that is stopped at every step', () => {
  it('has so many steps', () => {
    runAs(ourPid);
    writeRecord(record, folder);
    expect(disk.step).toBe(STEPS);
  });

  it.each(Array.from({ length: STEPS }, (_, step) => step))(
    'killed at step %i: whole or absent, then whole',
    (step) => {
      runAs(NO_PROCESS);
      killAt(step);
      try {
        writeRecord(record, folder);
      } catch {
        // The process is gone.
      }
      runAs(ourPid);
      const visible = readdirSync(folder).filter((file) => !file.startsWith('.'));
      expect([[], ['m-0412-record.json'], ['m-0412-record.html', 'm-0412-record.json']]).toContainEqual(
        visible,
      );
      if (visible.length > 0) expect(readRecord(join(folder, 'm-0412-record.json'))).toEqual(record);
      const { html, json } = writeRecord(record, folder);
      expect(filesIn(folder)).toEqual(['m-0412-record.html', 'm-0412-record.json']);
      expect(readRecord(json)).toEqual(record);
      expect(readFileSync(html, 'utf8')).toBe(recordHtml(record));
      expect(auditFolder(folder).findings).toEqual([]);
    },
  );

  it.each([0, 1, 2, 3])(
    'an error at step %i (full disk, locked file): nothing was written, one message',
    (step) => {
      runAs(ourPid);
      disk.at = step;
      disk.happens = (half) => {
        half();
        throw Object.assign(new Error('ENOSPC: no space left on device'), { code: 'ENOSPC' });
      };
      expect(() => writeRecord(record, folder)).toThrow(/nothing was.*ENOSPC.*Check that the folder/s);
      expect(filesIn(folder)).toEqual([]);
    },
  );
});

describe('two writers at once', () => {
  const other = sampleRecord({ decision: { disposition: 'reject', reason: 'Too soft.' } });

  it.each([0, 1, 2, 3, 4, 5, 6])('the other comes in at step %i: two editions, one chain', (step) => {
    runAs(ourPid);
    disk.at = step;
    disk.happens = () => {
      const { step: ours } = disk;
      runAs(process.ppid);
      writeRecord(other, folder);
      runAs(ourPid);
      disk.step = ours;
    };
    writeRecord(record, folder);
    expect(auditFolder(folder)).toEqual({ editions: 2, records: 1, findings: [] });
    const decisions = ['m-0412-record.json', 'm-0412-record.edition-2.json'].map(
      (file) => readRecord(join(folder, file)).decision?.disposition,
    );
    expect(decisions.sort()).toEqual(['accept with condition', 'reject']);
  });
});

describe('a folder that knows no links', () => {
  it('takes the record all the same, and never over another', () => {
    const without = () => {
      disk.at = 2;
      disk.happens = () => {
        throw Object.assign(new Error('EPERM'), { code: 'EPERM' });
      };
    };
    runAs(ourPid);
    without();
    const { json } = writeRecord(record, folder);
    expect(readRecord(json)).toEqual(record);
    runAs(ourPid);
    without();
    expect(writeRecord(sampleRecord({ job: { job: 'M-0412' } }), folder).edition).toBe(2);
    expect(auditFolder(folder)).toEqual({ editions: 2, records: 1, findings: [] });
  });
});
