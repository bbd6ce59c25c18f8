/** Where a fault in a file or argument was found; every part is optional and printed only when known. */
export interface ErrorPlace {
  readonly file?: string;
  /** 1-based line of the file, as a text editor counts. */
  readonly row?: number;
  readonly column?: string;
  /** What stood there. */
  readonly found?: string;
  readonly expected?: string;
  /** What the reader of the message can do about it. */
  readonly remedy?: string;
}

/** Lines of a stack in the kit, in what it runs on and in Node itself: they tell nobody what to do. */
const NOT_THEIRS = /node:|node_modules|[\\/]dist[\\/]/;
const MOST_LINES = 3;

/**
 * The one error class the kit throws on bad input. The message is a sentence a welder can act on; `place`
 * carries the same facts for a program.
 */
export class TemperbookError extends Error {
  override readonly name = 'TemperbookError';
  readonly place: ErrorPlace;

  constructor(what: string, place: ErrorPlace = {}) {
    super(describe(what, place));
    this.place = place;
  }

  /** What Node shows of it in a terminal or a notebook: the message, then the lines of the reader's own that led here. */
  [Symbol.for('nodejs.util.inspect.custom')](): string {
    const own = (this.stack ?? '')
      .split('\n')
      .filter((line) => /^\s+at /.test(line) && !NOT_THEIRS.test(line));
    return [`${this.name}: ${this.message}`, ...own.slice(0, MOST_LINES)].join('\n');
  }
}

function describe(what: string, { file, row, column, found, expected, remedy }: ErrorPlace): string {
  const where = [file, row === undefined ? undefined : `row ${row}`, column && `column "${column}"`]
    .filter((part) => part !== undefined && part !== '')
    .join(', ');
  const sentences = [
    where ? `${where}: ${what}` : what,
    found === undefined ? undefined : `Found: ${found}`,
    expected === undefined ? undefined : `Expected: ${expected}`,
    remedy,
  ];
  return sentences
    .filter((s): s is string => s !== undefined && s !== '')
    .map((s) => (/[.?]$/.test(s) ? s : `${s}.`))
    .join(' ');
}
