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

/** The line that starts at `from`; lines end in LF, CR LF or CR. */
export function lineAt(bytes: Uint8Array, from: number, row: number): LineSpan {
  let to = from;
  while (to < bytes.length && bytes[to] !== LF && bytes[to] !== CR) to++;
  const next = bytes[to] === CR && bytes[to + 1] === LF ? to + 2 : Math.min(to + 1, bytes.length);
  return { row, from, to, next };
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
export function sampleLines({ bytes, decode }: LogText): SampleLine[] {
  const lines: SampleLine[] = [];
  const take = (from: number, firstRow: number, most: number): LineSpan => {
    let line: LineSpan = { row: firstRow - 1, from, to: from, next: from };
    for (let k = 0; k < most && line.next < bytes.length; k++) {
      line = lineAt(bytes, line.next, firstRow === 0 ? 0 : firstRow + k);
      if (line.to > line.from) {
        const text = decode(line.from, Math.min(line.to, line.from + LONGEST_LOOKED_AT));
        if (text.trim() !== '') lines.push({ row: line.row, text });
      }
    }
    return line;
  };
  let read = take(0, 1, HEAD_LINES).next;
  for (const share of WINDOWS_AT) {
    const at = Math.max(read, Math.floor(bytes.length * share));
    read = take(lineAt(bytes, at, 0).next, 0, WINDOW_LINES).next;
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
