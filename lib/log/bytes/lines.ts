import type { FileBytes } from './fileBytes';
import type { LogText } from './logText';

/** Line feed. */
export const LF = 10;
/** Carriage return. */
export const CR = 13;

/** One line of the file: [from, to) without its line end, `next` where the following line starts. */
export interface LineSpan {
  readonly row: number;
  readonly from: number;
  readonly to: number;
  readonly next: number;
}

/** Longer than most lines. */
const LINE_BYTES = 512;

/** Where the line that starts at `from` ends; lines end in LF, CR LF or CR. */
export function lineEnd(bytes: Uint8Array, from: number): number {
  let to = from;
  while (to < bytes.length && bytes[to] !== LF && bytes[to] !== CR) to++;
  return to;
}

/** Where the line after one that ends at `to` starts. */
export const nextLine = (bytes: Uint8Array, to: number): number =>
  bytes[to] === CR && bytes[to + 1] === LF ? to + 2 : Math.min(to + 1, bytes.length);

/** The line that starts at `from`. */
export function lineAt(text: FileBytes, from: number, row: number): LineSpan {
  let length = 0;
  for (let looked = LINE_BYTES; ; looked *= 8) {
    const bytes = text.piece(from, from + looked);
    length = lineEnd(bytes, length);
    // Whether a line feed follows a carriage return must be in sight.
    if (length + 1 < bytes.length || from + bytes.length === text.length)
      return { row, from, to: from + length, next: from + nextLine(bytes, length) };
  }
}

/** Bytes of whole lines from `from` on, some 32 KB of them; none where the last line has no end. */
export function wholeLines(text: FileBytes, from: number): Buffer {
  for (let looked = 32_768; ; looked *= 8) {
    const bytes = text.piece(from, from + looked);
    const isWhole = from + bytes.length === text.length;
    // A carriage return that ends the piece may have its line feed in the next.
    let end = isWhole ? bytes.length : bytes.length - 1;
    while (end > 0 && bytes[end - 1] !== LF && bytes[end - 1] !== CR) end--;
    if (end < bytes.length && bytes[end] === LF && bytes[end - 1] === CR) end++;
    if (end > 0 || isWhole) return bytes.subarray(0, end);
  }
}

/** A line looked at before the file is read through. */
export interface SampleLine {
  /** 1-based; unknown (0) for lines from the middle of a large file. */
  readonly row: number;
  readonly text: string;
}

const HEAD_LINES = 120;
const WINDOW_LINES = 40;
const WINDOWS_AT = [0.25, 0.5, 0.75, 0.98];
/** A line longer than any logger writes is looked at only so far. */
const LONGEST_LOOKED_AT = 65_536;

/**
 * Lines to decide the layout from: the first 120 and four windows further in, so that a long header or a late
 * decimal mark is not missed. Blank lines are left out.
 */
export function sampleLines(text: LogText): SampleLine[] {
  const lines: SampleLine[] = [];
  const take = (from: number, firstRow: number, most: number): LineSpan => {
    let line: LineSpan = { row: firstRow - 1, from, to: from, next: from };
    for (let k = 0; k < most && line.next < text.length; k++) {
      line = lineAt(text, line.next, firstRow === 0 ? 0 : firstRow + k);
      if (line.to > line.from) {
        const own = text.decode(line.from, Math.min(line.to, line.from + LONGEST_LOOKED_AT));
        if (own.trim() !== '') lines.push({ row: line.row, text: own });
      }
    }
    return line;
  };
  let read = take(0, 1, HEAD_LINES).next;
  for (const share of WINDOWS_AT) {
    const at = Math.max(read, Math.floor(text.length * share));
    read = take(lineAt(text, at, 0).next, 0, WINDOW_LINES).next;
  }
  return lines;
}

/**
 * Splits a line into trimmed fields. Quotes count at the start of a field only; a doubled quote inside is a
 * quote; an unclosed one ends with the line. The delimiter ' ' stands for runs of spaces and tabs.
 */
export function splitFields(line: string, delimiter: string): string[] {
  const text = delimiter === ' ' ? line.trim() : line;
  if (!text.includes('"'))
    return delimiter === ' ' ? text.split(/[ \t]+/) : text.split(delimiter).map((field) => field.trim());
  const fields: string[] = [];
  const isDelimiter = (c: string | undefined) => c === delimiter || (delimiter === ' ' && c === '\t');
  const skipBlank = (from: number): number => {
    let at = from;
    while (
      at < text.length &&
      (text[at] === ' ' || text[at] === '\t') &&
      (delimiter === ' ' || !isDelimiter(text[at]))
    )
      at++;
    return at;
  };
  let at = 0;
  for (;;) {
    at = skipBlank(at);
    let field = '';
    if (text[at] === '"') {
      at++;
      while (at < text.length && !(text[at] === '"' && text[at + 1] !== '"')) {
        if (text[at] === '"') at++;
        field += text[at++] ?? '';
      }
      at++;
    }
    const from = at;
    while (at < text.length && !isDelimiter(text[at])) at++;
    fields.push((field + text.slice(from, at)).trim());
    if (at >= text.length) return fields;
    at++;
  }
}
