import { TemperbookError } from '../../quantity';
import type { ReadOptions } from '../readOptions';
import { type FileBytes, heldBytes, partOf, WINDOW_BYTES } from './fileBytes';
import type { SourceBytes } from './sourceBytes';

/**
 * A log's text as bytes in which every ASCII character is one byte: UTF-8, or Windows-1252 as it came. So
 * digits, delimiters and line ends can be read straight from the bytes; only names and words are decoded.
 */
export interface LogText extends FileBytes {
  /** Text of bytes [from, to). */
  readonly decode: (from: number, to: number) => string;
  /** Text of a piece. */
  readonly toText: (piece: Buffer) => string;
  readonly notes: readonly string[];
}

/**
 * Finds the encoding: byte-order mark, else zero bytes in every other place (UTF-16), else valid UTF-8, else
 * Windows-1252, of which Latin-1 is a part. Zero bytes at the end (power lost while writing) are cut off.
 * @throws TemperbookError on bytes that are no text.
 */
export function logText(
  { bytes: raw, name: file, isUtf8 }: SourceBytes,
  forced?: ReadOptions['encoding'],
): LogText {
  const notes: string[] = [];
  const encoding = forced ?? wideEncoding(raw) ?? (isUtf8 ? 'utf-8' : 'windows-1252');
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
  return textOf(bytes, (piece) => decoder.decode(piece), notes);
}

/** The text of bytes, given how a piece of them is decoded. */
export const textOf = (
  bytes: FileBytes,
  toText: LogText['toText'],
  notes: readonly string[] = [],
): LogText => ({
  length: bytes.length,
  piece: (from, to) => bytes.piece(from, to),
  decode: (from, to) => toText(bytes.piece(from, to)),
  ...{ toText, notes },
});

function wideEncoding(bytes: FileBytes): 'utf-16le' | 'utf-16be' | undefined {
  const raw = bytes.piece(0, 1024);
  if (raw[0] === 0xff && raw[1] === 0xfe) return 'utf-16le';
  if (raw[0] === 0xfe && raw[1] === 0xff) return 'utf-16be';
  const zeros = [0, 0];
  const looked = raw.length & ~1;
  for (let i = 0; i < looked; i++) if (raw[i] === 0) zeros[i & 1]!++;
  if (looked >= 4 && zeros[1]! > 0.3 * looked && zeros[0] === 0) return 'utf-16le';
  if (looked >= 4 && zeros[0]! > 0.3 * looked && zeros[1] === 0) return 'utf-16be';
  return undefined;
}

function fromUtf16(raw: FileBytes, encoding: 'utf-16le' | 'utf-16be'): FileBytes {
  const even = raw.piece(0, raw.length & ~1);
  const littleEndian = encoding === 'utf-16le' ? even : Buffer.from(even).swap16();
  return heldBytes(Buffer.from(littleEndian.toString('utf16le'), 'utf8'));
}

function utf8(bytes: FileBytes, file: string, notes: readonly string[]): LogText {
  const [a, b, c] = bytes.piece(0, 3);
  const hasMark = a === 0xef && b === 0xbb && c === 0xbf;
  const text = hasMark ? partOf(bytes, 3, bytes.length) : bytes;
  requireText(text, file);
  return textOf(text, (piece) => piece.toString('utf8'), notes);
}

function cutZeros(bytes: FileBytes, notes: string[]): FileBytes {
  let end = bytes.length;
  for (let kept = 0; kept === 0 && end > 0; ) {
    const piece = bytes.piece(Math.max(0, end - WINDOW_BYTES), end);
    kept = piece.length;
    while (kept > 0 && piece[kept - 1] === 0) kept--;
    end -= piece.length - kept;
  }
  if (end < bytes.length)
    notes.push(
      `The file ends in ${bytes.length - end} zero bytes, as when power is lost while writing; they are cut off, and the last line may be half written.`,
    );
  return partOf(bytes, 0, end);
}

/** A few stray control characters are a damaged log; many are not a log at all. */
function requireText(text: FileBytes, file: string): void {
  const bytes = text.piece(0, 4096);
  const looked = bytes.length;
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
