import { isUtf8 } from 'node:buffer';
import { createHash } from 'node:crypto';
import { readFileSync, statSync } from 'node:fs';
import { freemem } from 'node:os';
import { basename } from 'node:path';
import { TemperbookError } from '../../quantity';
import { type FileBytes, heldBytes, OpenFile, WINDOW_BYTES } from './fileBytes';

/** A file as it lies on the disk. */
export interface SourceBytes {
  readonly name: string;
  readonly bytes: FileBytes;
  readonly sha256: string;
  /** Are all its bytes valid UTF-8? */
  readonly isUtf8: boolean;
}

/** From this size on a file is not held in memory. */
export const LONG_BYTES = 16 * WINDOW_BYTES;

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
 * Opens a log's bytes, takes their SHA-256, and gives them to `use`, while which a long file stays open.
 * @throws TemperbookError when the file cannot be opened, is empty, is of a kind that is not text, or is changed
 * while it is in use.
 */
export function withSourceBytes<T>(
  source: string | Uint8Array,
  name: string | undefined,
  use: (source: SourceBytes) => T,
): T {
  const file = name ?? (typeof source === 'string' ? basename(source) : 'log');
  const bytes = typeof source === 'string' ? open(source, file) : heldBytes(asBuffer(source, file));
  try {
    const result = use(sourceBytes(bytes, file));
    if (bytes instanceof OpenFile) bytes.requireUnchanged();
    return result;
  } finally {
    if (bytes instanceof OpenFile) bytes.close();
  }
}

function sourceBytes(bytes: FileBytes, file: string): SourceBytes {
  if (bytes.length === 0)
    throw new TemperbookError('The file is empty', {
      file,
      found: '0 bytes',
      remedy: 'Export the log again and check that the logger had stopped recording',
    });
  const head = bytes.piece(0, 8);
  for (const { starts, what, remedy } of NOT_TEXT)
    if (starts.every((byte, i) => head[i] === byte))
      throw new TemperbookError('This is not a text file', { file, row: 1, found: what, remedy });
  return { name: file, bytes, ...lookedThrough(bytes) };
}

/** One look at every byte. */
function lookedThrough(bytes: FileBytes): Pick<SourceBytes, 'sha256' | 'isUtf8'> {
  const hash = createHash('sha256');
  let isValid = true;
  for (let from = 0; from < bytes.length; ) {
    let piece = bytes.piece(from, from + WINDOW_BYTES);
    if (from + piece.length < bytes.length) piece = piece.subarray(0, characterEnd(piece));
    hash.update(piece);
    isValid &&= isUtf8(piece);
    from += piece.length;
  }
  return { sha256: hash.digest('hex'), isUtf8: isValid };
}

/** Before the last byte that begins a character of UTF-8, which has at most four. */
function characterEnd(piece: Buffer): number {
  let end = piece.length - 1;
  while (end > piece.length - 4 && (piece[end]! & 0xc0) === 0x80) end--;
  return end;
}

function asBuffer(source: unknown, file: string): Buffer {
  if (source instanceof Uint8Array) return Buffer.from(source.buffer, source.byteOffset, source.byteLength);
  throw new TemperbookError('A log is read from a file path or from the bytes of a file', {
    file,
    found: typeof source,
  });
}

function open(path: string, file: string): FileBytes {
  try {
    const { size } = statSync(path);
    refuseTooLarge(size, availableMemory(), file);
    return size < LONG_BYTES ? heldBytes(readFileSync(path)) : new OpenFile(path, file);
  } catch (cause) {
    if (cause instanceof TemperbookError) throw cause;
    throw new TemperbookError('The file cannot be opened', {
      file,
      found: cause instanceof Error ? cause.message : String(cause),
      remedy: 'Check the path, and that the file is a file of under 2 GB you may read',
    });
  }
}

/** Numbers as doubles with a place and a mark each, and a time axis of its own for each channel that lost readings. */
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
