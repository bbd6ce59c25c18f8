import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import ts from 'typescript';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = path.join(__dirname, '../..');
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'types-'));
  mkdirSync(path.join(folder, 'node_modules'));
  symlinkSync(root, path.join(folder, 'node_modules/temperbook'));
  symlinkSync(path.join(root, 'node_modules/@types'), path.join(folder, 'node_modules/@types'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const USE = `import { judge, readLog, units, type Verdict } from 'temperbook';
const verdict: Verdict = judge(readLog('a.csv'), { alloy: 'A356.0', temper: 'T6' });
const chance: number | null = verdict.chanceKept;
const warm: number = units.fahrenheitToCelsius(440);
console.log(chance, warm);
`;
const WRONG = `import { judge } from 'temperbook';
judge(7, { alloy: 'A356.0' });
`;

/** What the compiler says of a file of another folder that uses the package. */
function complaints(name: string, text: string, options: ts.CompilerOptions): string[] {
  const file = path.join(folder, name);
  writeFileSync(file, text);
  const program = ts.createProgram([file], {
    strict: true,
    noEmit: true,
    skipLibCheck: true,
    target: ts.ScriptTarget.ES2022,
    types: ['node'],
    ...options,
  });
  return ts
    .getPreEmitDiagnostics(program)
    .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, ' '));
}

const { ModuleKind, ModuleResolutionKind } = ts;
const SYSTEMS: [string, string, ts.CompilerOptions][] = [
  [
    'require, as notebooks resolve it',
    'a.ts',
    { module: ModuleKind.CommonJS, moduleResolution: ModuleResolutionKind.Node10 },
  ],
  [
    'require, by the exports map',
    'b.cts',
    { module: ModuleKind.Node16, moduleResolution: ModuleResolutionKind.Node16 },
  ],
  [
    'import, by the exports map',
    'c.mts',
    { module: ModuleKind.NodeNext, moduleResolution: ModuleResolutionKind.NodeNext },
  ],
  [
    'import, by a bundler',
    'd.ts',
    { module: ModuleKind.ESNext, moduleResolution: ModuleResolutionKind.Bundler },
  ],
];

describe('the types of the package', () => {
  it.each(SYSTEMS)('are found with %s, and refuse what is wrong', (_, name, options) => {
    expect(complaints(name, USE, options)).toEqual([]);
    expect(complaints(name, WRONG, options).join()).toMatch(/not assignable|temper/);
  });
});
