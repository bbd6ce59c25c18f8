import { readFileSync } from 'node:fs';
import { type Node, type ParseError, parseTree, printParseErrorCode } from 'jsonc-parser';
import { TemperbookError } from './error';

/**
 * What a JSON file says that people write by hand: comments and a comma after the last entry are welcome.
 * @param what what the file is, 'The job file'.
 * @throws TemperbookError for a file that cannot be opened, is cut short or is no JSON, and for a key that stands
 * twice, of which one would be lost; it names the row.
 */
export function readUserJson(file: string, what: string): unknown {
  const text = textOf(file, what);
  const errors: ParseError[] = [];
  const tree = parseTree(text, errors, { allowTrailingComma: true });
  const rowOf = (offset: number): number => text.slice(0, offset).split('\n').length;
  const [first] = errors;
  if (first || !tree) {
    const end = text.trimEnd().length;
    const isInText = first && printParseErrorCode(first.error) === 'UnexpectedEndOfString';
    const isCut = (first?.offset ?? 0) + (isInText ? first.length : 0) >= end;
    throw new TemperbookError(isCut ? `${what} is cut short` : `${what} is no JSON`, {
      file,
      row: rowOf(Math.min(first?.offset ?? 0, text.length)),
      found: isCut ? 'the end of the file' : `"${lineAt(text, first!.offset)}"`,
      expected: first ? EXPECTED[printParseErrorCode(first.error)] : 'an object { … }',
      remedy: isCut
        ? 'Close what is open, or bring the file back from a copy'
        : 'Look for a missing comma, quote or bracket at this line or the one before',
    });
  }
  const twice = keyTwice(tree);
  if (twice)
    throw new TemperbookError(`${what} says one thing twice`, {
      file,
      row: rowOf(twice.offset),
      found: `the key "${twice.value}" a second time`,
      expected: 'each key once',
      remedy: 'Take one of the two away',
    });
  return dataOf(tree);
}

/** What the parser missed, in words. */
const EXPECTED: Readonly<Record<string, string>> = {
  CommaExpected: 'a comma',
  ColonExpected: 'a colon',
  ValueExpected: 'a value',
  PropertyNameExpected: 'a key in quotes',
  CloseBraceExpected: 'a closing }',
  CloseBracketExpected: 'a closing ]',
  UnexpectedEndOfString: 'a closing quote',
  UnexpectedEndOfComment: 'the end of the comment, */',
  EndOfFileExpected: 'nothing after the last }',
};

function textOf(file: string, what: string): string {
  try {
    return readFileSync(file, 'utf8').replace(/^\uFEFF/, '');
  } catch (error) {
    throw new TemperbookError(`${what} cannot be opened`, {
      file,
      found: error instanceof Error ? error.message : String(error),
      remedy: 'Check the path',
    });
  }
}

function lineAt(text: string, offset: number): string {
  const line = text.slice(text.lastIndexOf('\n', offset - 1) + 1).split('\n')[0]!;
  return line.trim().slice(0, 60);
}

/** The second node of a key that stands twice in one object. */
function keyTwice(node: Node): Node | undefined {
  const seen = new Set<unknown>();
  for (const child of node.children ?? []) {
    if (child.type === 'property') {
      const key = child.children![0]!;
      if (seen.has(key.value)) return key;
      seen.add(key.value);
    }
    const inside = keyTwice(child);
    if (inside) return inside;
  }
  return undefined;
}

function dataOf(node: Node): unknown {
  switch (node.type) {
    case 'object':
      return Object.fromEntries(
        (node.children ?? []).map(({ children }) => [children![0]!.value, dataOf(children![1]!)]),
      );
    case 'array':
      return (node.children ?? []).map(dataOf);
    default:
      return node.value;
  }
}
