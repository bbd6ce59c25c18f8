import { resolve } from 'node:path';
import { inspect } from 'node:util';
import type * as TypeScript from '@tslab/typescript-for-tslab';
import { TemperbookError } from '../quantity';
import { type Cell, hasTag, joinLines, type Notebook } from './notebookFile';

/** What a parameter may be set to; `json` is anything else: lists, objects, null. */
export type ParameterKind = 'text' | 'number' | 'yes/no' | 'json';

/** A variable that the notebook's cell tagged `parameters` declares. */
export interface Parameter {
  readonly name: string;
  readonly kind: ParameterKind;
  /** Its default begins with `./` or `../`: a value given by the user is a path too. */
  readonly isPath: boolean;
  readonly constant: boolean;
}

/** Values by the name of their variable. */
export type ParameterValues = { readonly [name: string]: unknown };

/** The parameters of a notebook, in the order of their cell (papermill's convention: the tag `parameters`). */
export function declaredParameters(notebook: Notebook): Parameter[] {
  const cell = notebook.cells.find((c) => c.cell_type === 'code' && hasTag(c, 'parameters'));
  if (cell === undefined) return [];
  // The compiler takes half a second to load: only those who set parameters pay for it.
  const ts: typeof TypeScript = require('@tslab/typescript-for-tslab');
  const file = ts.createSourceFile('parameters.ts', joinLines(cell.source), ts.ScriptTarget.ES2022, true);
  return file.statements.filter(ts.isVariableStatement).flatMap(({ declarationList }) =>
    declarationList.declarations.map((declaration) => {
      const text = declaration.initializer?.getText() ?? '';
      return {
        name: declaration.name.getText(),
        kind: kindOf(declaration.type?.getText() ?? text),
        isPath: /^['"`]\.\.?\//.test(text),
        constant: (declarationList.flags & ts.NodeFlags.Const) !== 0,
      };
    }),
  );
}

/** The kind that a type (`number | undefined`) or, where none is written, a default value shows. */
function kindOf(typeOrDefault: string): ParameterKind {
  if (/^(string\b(?!\[)|['"`])/.test(typeOrDefault)) return 'text';
  if (/^(number\b(?!\[)|[-+]?[\d.])/.test(typeOrDefault)) return 'number';
  if (/^(boolean\b(?!\[)|true\b|false\b)/.test(typeOrDefault)) return 'yes/no';
  return 'json';
}

/**
 * Reads `name=value` settings as typed on a command line. The parameter's own kind decides how a value is
 * read, so an alloy called 6061 stays text; paths are resolved against `folder`, where the user stands.
 * @throws TemperbookError for an unknown name, listing the known ones, or a value of the wrong kind.
 */
export function parseSettings(
  notebook: Notebook,
  settings: readonly string[],
  folder: string,
): ParameterValues {
  const known = declaredParameters(notebook);
  return Object.fromEntries(
    settings.map((setting) => {
      const [, name, text] = /^([^=]*)=(.*)$/s.exec(setting) ?? [];
      if (name === undefined || text === undefined) {
        throw new TemperbookError(`"${setting}" sets nothing`, {
          expected: 'name=value, such as alloy=A356.0',
        });
      }
      return [name, parseValue(find(known, name), text, folder)];
    }),
  );
}

function parseValue({ name, kind, isPath }: Parameter, text: string, folder: string): unknown {
  if (kind === 'text') return isPath ? resolve(folder, text) : text;
  try {
    const value: unknown = JSON.parse(text);
    if (fits(value, kind)) return value;
  } catch {
    // not JSON: told below in the words of the kind
  }
  throw wrongKind(name, kind, `"${text}"`);
}

function find(known: readonly Parameter[], name: string): Parameter {
  const parameter = known.find((p) => p.name === name);
  if (parameter !== undefined) return parameter;
  throw new TemperbookError(`the notebook has no parameter "${name}"`, {
    expected: known.length > 0 ? `one of ${known.map((p) => p.name).join(', ')}` : undefined,
    remedy: known.length > 0 ? undefined : 'None of its cells is tagged "parameters"',
  });
}

function fits(value: unknown, kind: ParameterKind): boolean {
  if (kind === 'json') return value !== undefined;
  if (kind === 'number') return Number.isFinite(value);
  return typeof value === (kind === 'text' ? 'string' : 'boolean');
}

function wrongKind(name: string, kind: ParameterKind, found: string): TemperbookError {
  const expected = {
    text: 'text',
    number: 'a number such as 0.15, with a decimal point',
    'yes/no': 'true or false',
    json: 'a value in JSON, such as [1, 2] or {"a": 1}',
  };
  return new TemperbookError(`parameter "${name}" cannot take this value`, {
    found,
    expected: expected[kind],
  });
}

/**
 * A copy of the notebook with a cell tagged `injected-parameters`, which sets the given values, right after
 * the one tagged `parameters`; one left by an earlier run is replaced.
 * @throws TemperbookError for an unknown name, listing the known ones, or a value of the wrong kind.
 */
export function injectParameters(notebook: Notebook, values: ParameterValues): Notebook {
  const names = Object.keys(values);
  if (names.length === 0) return notebook;
  const known = declaredParameters(notebook);
  const lines = names.map((name) => {
    const parameter = find(known, name);
    if (!fits(values[name], parameter.kind)) {
      throw wrongKind(name, parameter.kind, inspect(values[name]));
    }
    if (parameter.constant) {
      throw new TemperbookError(`parameter "${name}" cannot be set: the notebook declares it with const`, {
        remedy: 'Declare it with let in the cell tagged "parameters"',
      });
    }
    return `  ${name} = ${literal(values[name])};\n`;
  });
  const injected: Cell = {
    cell_type: 'code',
    execution_count: null,
    ...(notebook.nbformat_minor >= 5 ? { id: 'injected-parameters' } : {}),
    metadata: { tags: ['injected-parameters'] },
    outputs: [],
    // In a block, since the value of a cell's last expression would be shown.
    source: `{\n${lines.join('')}}`,
  };
  const cells = notebook.cells.filter((cell) => !hasTag(cell, 'injected-parameters'));
  const at = cells.findIndex((cell) => cell.cell_type === 'code' && hasTag(cell, 'parameters'));
  return { ...notebook, cells: [...cells.slice(0, at + 1), injected, ...cells.slice(at + 1)] };
}

/** A value as code; the two line ends of Unicode would end the line of code as well. */
const literal = (value: unknown): string =>
  JSON.stringify(value)
    .replace(/\u2028/g, '\\u2028')
    .replace(/\u2029/g, '\\u2029');
