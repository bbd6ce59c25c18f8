import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
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
    return readFileSync(path);
  } catch (cause) {
    throw new TemperbookError('The file cannot be opened', {
      file,
      found: cause instanceof Error ? cause.message : String(cause),
      remedy: 'Check the path, and that the file is a file of under 2 GB you may read',
    });
  }
}
