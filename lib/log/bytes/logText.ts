import { isUtf8 } from 'node:buffer';
import { TemperbookError } from '../../quantity';
import type { ReadOptions } from '../readOptions';

/**
 * A log's text as bytes in which every ASCII character is one byte: UTF-8, or Windows-1252 as it came. So
 * digits, delimiters and line ends can be read straight from `bytes`; only names and words are decoded.
 */
export interface LogText {
  readonly bytes: Buffer;
  /** Text of bytes [from, to). */
  readonly decode: (from: number, to: number) => string;
  readonly notes: readonly string[];
}

/**
 * Finds the encoding: byte-order mark, else zero bytes in every other place (UTF-16), else valid UTF-8, else
 * Windows-1252, of which Latin-1 is a part. Zero bytes at the end (power lost while writing) are cut off.
 * @throws TemperbookError on bytes that are no text.
 */
export function logText(raw: Buffer, file: string, forced?: ReadOptions['encoding']): LogText {
  const notes: string[] = [];
  const encoding = forced ?? guess(raw);
  if (encoding === 'utf-16le' || encoding === 'utf-16be') {
    notes.push(`The file is text in ${encoding.toUpperCase()}.`);
    return utf8(cutZeros(fromUtf16(raw, encoding), notes), file, notes);
  }
  const bytes = cutZeros(raw, notes);
  if (encoding === 'utf-8') return utf8(bytes, file, notes);
  notes.push(
    'The file is not UTF-8; names and words are read as Windows-1252 (Latin-1), so that a degree sign is a degree sign.',
  );
  requireText(bytes, file);
  const decoder = new TextDecoder('windows-1252');
  return { bytes, decode: (from, to) => decoder.decode(bytes.subarray(from, to)), notes };
}

function guess(raw: Buffer): NonNullable<ReadOptions['encoding']> {
  if (raw[0] === 0xff && raw[1] === 0xfe) return 'utf-16le';
  if (raw[0] === 0xfe && raw[1] === 0xff) return 'utf-16be';
  const zeros = [0, 0];
  const looked = Math.min(raw.length, 1024) & ~1;
  for (let i = 0; i < looked; i++) if (raw[i] === 0) zeros[i & 1]!++;
  if (looked >= 4 && zeros[1]! > 0.3 * looked && zeros[0] === 0) return 'utf-16le';
  if (looked >= 4 && zeros[0]! > 0.3 * looked && zeros[1] === 0) return 'utf-16be';
  return isUtf8(raw) ? 'utf-8' : 'windows-1252';
}

function fromUtf16(raw: Buffer, encoding: 'utf-16le' | 'utf-16be'): Buffer {
  const even = raw.subarray(0, raw.length & ~1);
  const littleEndian = encoding === 'utf-16le' ? even : Buffer.from(even).swap16();
  return Buffer.from(littleEndian.toString('utf16le'), 'utf8');
}

function utf8(bytes: Buffer, file: string, notes: readonly string[]): LogText {
  const hasMark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  const text = hasMark ? bytes.subarray(3) : bytes;
  requireText(text, file);
  return { bytes: text, decode: (from, to) => text.toString('utf8', from, to), notes };
}

function cutZeros(bytes: Buffer, notes: string[]): Buffer {
  let end = bytes.length;
  while (end > 0 && bytes[end - 1] === 0) end--;
  if (end < bytes.length)
    notes.push(
      `The file ends in ${bytes.length - end} zero bytes, as when power is lost while writing; they are cut off, and the last line may be half written.`,
    );
  return bytes.subarray(0, end);
}

/** A few stray control characters are a damaged log; many are not a log at all. */
function requireText(bytes: Buffer, file: string): void {
  const looked = Math.min(bytes.length, 4096);
  let control = 0;
  let blank = 0;
  for (let i = 0; i < looked; i++) {
    const byte = bytes[i]!;
    if (byte <= 32) {
      if (byte === 32 || (byte >= 9 && byte <= 13)) blank++;
      else control++;
    } else if (byte === 127) control++;
  }
  if (looked === blank)
    throw new TemperbookError('The file holds no text', {
      file,
      row: 1,
      found: looked === 0 ? 'nothing but zero bytes' : 'blank lines',
      remedy: 'Export the log again',
    });
  if (control > 0.05 * looked)
    throw new TemperbookError('This is not a text file', {
      file,
      row: 1,
      found: `${control} control characters in the first ${looked} bytes`,
      remedy: 'Ask the logger for its data as text or CSV',
    });
}
