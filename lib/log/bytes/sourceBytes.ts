import { createHash } from 'node:crypto';
import { readFileSync, statSync } from 'node:fs';
import { freemem } from 'node:os';
import { basename } from 'node:path';
import { TemperbookError } from '../../quantity';

/** A file as it lies on the disk. */
export interface SourceBytes {
  readonly name: string;
  readonly bytes: Buffer;
  readonly sha256: string;
}

/** Files that are not text but are often handed in for it, by their first bytes. */
const NOT_TEXT: readonly {
  readonly starts: readonly number[];
  readonly what: string;
  readonly remedy: string;
}[] = [
  {
    starts: [0x50, 0x4b, 0x03, 0x04],
    what: 'a spreadsheet workbook or a zip archive',
    remedy: 'Open it in a spreadsheet and save the sheet as CSV, or unpack it',
  },
  {
    starts: [0xd0, 0xcf, 0x11, 0xe0],
    what: 'an old spreadsheet workbook',
    remedy: 'Open it in a spreadsheet and save the sheet as CSV',
  },
  { starts: [0x1f, 0x8b], what: 'a gzip-compressed file', remedy: 'Unpack it first' },
  { starts: [0x25, 0x50, 0x44, 0x46], what: 'a PDF', remedy: 'Ask the logger for its data as text or CSV' },
  {
    starts: [0x89, 0x50, 0x4e, 0x47],
    what: 'a picture',
    remedy: 'Ask the logger for its data as text or CSV',
  },
];

/**
 * Reads a log's bytes and their SHA-256.
 * @throws TemperbookError when the file cannot be opened, is empty, or is of a kind that is not text.
 */
export function sourceBytes(source: string | Uint8Array, name?: string): SourceBytes {
  const file = name ?? (typeof source === 'string' ? basename(source) : 'log');
  const bytes = typeof source === 'string' ? open(source, file) : asBuffer(source, file);
  if (bytes.length === 0)
    throw new TemperbookError('The file is empty', {
      file,
      found: '0 bytes',
      remedy: 'Export the log again and check that the logger had stopped recording',
    });
  for (const { starts, what, remedy } of NOT_TEXT)
    if (starts.every((byte, i) => bytes[i] === byte))
      throw new TemperbookError('This is not a text file', { file, row: 1, found: what, remedy });
  return { name: file, bytes, sha256: createHash('sha256').update(bytes).digest('hex') };
}

function asBuffer(source: unknown, file: string): Buffer {
  if (source instanceof Uint8Array) return Buffer.from(source.buffer, source.byteOffset, source.byteLength);
  throw new TemperbookError('A log is read from a file path or from the bytes of a file', {
    file,
    found: typeof source,
  });
}

function open(path: string, file: string): Buffer {
  try {
    refuseTooLarge(statSync(path).size, availableMemory(), file);
    return readFileSync(path);
  } catch (cause) {
    if (cause instanceof TemperbookError) throw cause;
    throw new TemperbookError('The file cannot be opened', {
      file,
      found: cause instanceof Error ? cause.message : String(cause),
      remedy: 'Check the path, and that the file is a file of under 2 GB you may read',
    });
  }
}

/** The file, its numbers as doubles with a place and a mark each, and a second copy while channels are compacted. */
const BYTES_PER_BYTE = 4;
const MEGA = 1e6;

/**
 * Refuses a file that cannot be read in the memory there is, before it is read.
 * @throws TemperbookError with the size that would do.
 */
export function refuseTooLarge(bytes: number, availableBytes: number, file: string): void {
  if (bytes * BYTES_PER_BYTE <= availableBytes) return;
  const mega = (n: number) => `${Math.floor(n / MEGA)} MB`;
  throw new TemperbookError('The file is too large for the memory there is', {
    file,
    found: `${mega(bytes)}, with ${mega(availableBytes)} of memory free`,
    expected: `at most ${mega(availableBytes / BYTES_PER_BYTE)}`,
    remedy: 'Cut the log into parts and read them one by one, or export it at a longer interval',
  });
}

function availableMemory(): number {
  const limit = process.constrainedMemory?.() ?? 0;
  const own = limit > 0 && limit < Number.MAX_SAFE_INTEGER ? limit - process.memoryUsage.rss() : freemem();
  return Math.min(own, freemem());
}
