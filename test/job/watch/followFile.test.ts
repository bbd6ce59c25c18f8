import { appendFileSync, mkdtempSync, renameSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { FollowedFile, headAndEnd, wholeLines } from '../../../lib/job';
import { fc } from '../../setup/fc';

const folder = mkdtempSync(path.join(tmpdir(), 'follow-'));
let number = 0;
const newLog = (text = ''): string => {
  const file = path.join(folder, `log-${number++}.csv`);
  writeFileSync(file, text);
  return file;
};

describe('a followed file', () => {
  it('gives what is appended, whatever the pieces', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ maxLength: 200 }), { maxLength: 30 }), (pieces) => {
        const file = newLog();
        const followed = new FollowedFile(file);
        for (const piece of pieces) {
          appendFileSync(file, piece);
          expect(followed.poll()).toEqual({ is: 'read', grew: piece !== '', beganAnew: false });
        }
        expect(followed.bytes.toString()).toBe(pieces.join(''));
      }),
      { numRuns: 20 },
    );
  });

  it('waits for a file that is not there, and keeps what it read of one that vanishes', () => {
    const file = newLog('a\n');
    rmSync(file);
    const followed = new FollowedFile(file);
    expect(followed.poll()).toEqual({ is: 'not there', grew: false });
    writeFileSync(file, 'a\n');
    followed.poll();
    rmSync(file);
    expect(followed.poll()).toEqual({ is: 'not there', grew: false });
    expect(followed.bytes.toString()).toBe('a\n');
    writeFileSync(file, 'b\n');
    expect(followed.poll()).toMatchObject({ beganAnew: true });
    expect(followed.bytes.toString()).toBe('a\nb\n');
  });

  it.each([
    [
      'another file takes its name',
      (file: string) => {
        renameSync(file, `${file}.1`);
        writeFileSync(file, 'time,TC1\n9,99\n');
      },
    ],
    [
      'it is cut off and written again',
      (file: string) => {
        truncateSync(file, 0);
        writeFileSync(file, 'time,TC1\n9,99\n');
      },
    ],
    [
      'it is written over, longer than before',
      (file: string) => writeFileSync(file, `time,TC1\n${'9,99\n'.repeat(50)}`, { flag: 'r+' }),
    ],
  ])('keeps what it read when %s', (_, change) => {
    const file = newLog('time,TC1\n0,20\n1,21');
    const followed = new FollowedFile(file);
    followed.poll();
    change(file);
    expect(followed.poll()).toMatchObject({ is: 'read', beganAnew: true });
    expect(followed.bytes.toString()).toMatch(/^time,TC1\n0,20\n1,21\ntime,TC1\n9,99\n/);
    expect(followed.restarts).toBe(1);
  });

  it('keeps the last rows of a file that another replaced or that vanished before they were looked for', () => {
    const file = newLog('a\n');
    const followed = new FollowedFile(file);
    followed.poll();
    appendFileSync(file, 'b\n');
    renameSync(file, `${file}.1`);
    writeFileSync(file, 'c\n');
    expect(followed.poll()).toEqual({ is: 'read', grew: true, beganAnew: true });
    expect(followed.bytes.toString()).toBe('a\nb\nc\n');
    appendFileSync(file, 'd\n');
    rmSync(file);
    expect(followed.poll()).toEqual({ is: 'not there', grew: true });
    expect(followed.poll()).toEqual({ is: 'not there', grew: false });
    expect(followed.bytes.toString()).toBe('a\nb\nc\nd\n');
    followed.close();
  });

  it('goes on where the whole log is saved again, longer, under its name', () => {
    const file = newLog('a\nb\n');
    const followed = new FollowedFile(file);
    followed.poll();
    writeFileSync(`${file}.new`, 'a\nb\nc\n');
    renameSync(`${file}.new`, file);
    expect(followed.poll()).toEqual({ is: 'read', grew: true, beganAnew: false });
    expect(followed.bytes.toString()).toBe('a\nb\nc\n');
    expect(followed.restarts).toBe(0);
    followed.close();
  });

  it('says why it cannot be read', () => {
    expect(new FollowedFile(folder).poll()).toEqual({ is: 'locked', because: 'it is a folder' });
  });
});

describe('lines of a log that is still being written', () => {
  it('leave out the last while it has no end', () => {
    expect(wholeLines(Buffer.from('a\nb\nhal')).toString()).toBe('a\nb\n');
    expect(wholeLines(Buffer.from('hal'))).toHaveLength(0);
    const wide = Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from('a\nb', 'utf16le')]);
    expect(wholeLines(wide).subarray(2).toString('utf16le')).toBe('a\n');
  });

  it('are the head and the end where they are many, each line whole', () => {
    const all = Array.from({ length: 50_000 }, (_, i) => `row ${i}`);
    const short = headAndEnd(Buffer.from(`${all.join('\n')}\n`))
      .toString()
      .trimEnd()
      .split('\n');
    expect(short.length).toBeLessThan(10_000);
    expect(short[0]).toBe('row 0');
    expect(short[short.length - 1]).toBe('row 49999');
    expect(short.every((line) => /^row \d+$/.test(line))).toBe(true);
  });
});
