import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const root = path.join(__dirname, '../..');
const kit: Readonly<Record<string, unknown>> = require(path.join(root, 'dist'));
const files = readdirSync(path.join(root, 'lib'), { recursive: true, encoding: 'utf8' }).filter((file) =>
  file.endsWith('.ts'),
);

interface Example {
  readonly file: string;
  readonly code: string;
  /** As printed; its digits are what is promised. */
  readonly printed: string;
}

/** Every `@example code // value` of the doc comments; code may run over several lines. */
function examplesOf(file: string): Example[] {
  const source = readFileSync(path.join(root, 'lib', file), 'utf8');
  return [...source.matchAll(/@example([\s\S]*?)(?=\n\s*\* @|\*\/)/g)].map(([, block]) => {
    const text = block!.replace(/\n\s*\* ?/g, '\n').trim();
    const at = text.lastIndexOf('// ');
    return { file, code: text.slice(0, at).trim(), printed: text.slice(at + 3).trim() };
  });
}

/** Runs the code with every name of every room, and of its own file, in reach. */
function run({ file, code }: Example): unknown {
  const own: Readonly<Record<string, unknown>> = require(path.join(root, 'dist', file.replace(/\.ts$/, '')));
  const groups = Object.values(kit).filter((value) => typeof value === 'object' && value !== null);
  const scope: Record<string, unknown> = Object.assign({}, ...groups, own);
  const end = code.lastIndexOf(';\n') + 1;
  const body = `${code.slice(0, end)}\nreturn (${code.slice(end)});`;
  return new Function(...Object.keys(scope), body)(...Object.values(scope));
}

describe('the examples of the doc comments', () => {
  const examples = files.flatMap(examplesOf);

  it('are found', () => expect(examples.length).toBeGreaterThan(25));

  it.each(examples.map((example) => [example.code.replace(/\s+/g, ' '), example] as const))(
    '%s',
    (_, example) => {
      const found = run(example);
      const { printed } = example;
      if (!/^-?[\d.]+(e-?\d+)?$/.test(printed)) return expect(found).toEqual(JSON.parse(printed));
      // Half a unit of the last printed digit.
      const digits = printed.split('.')[1]?.length ?? 0;
      expect(Math.abs((found as number) - Number(printed))).toBeLessThanOrEqual(0.5000001 * 10 ** -digits);
    },
  );

  it('stand as code, so that they can be run', () => {
    const told = files.filter((file) =>
      / \* (?:.*\. )?Examples?: /.test(readFileSync(path.join(root, 'lib', file), 'utf8')),
    );
    expect(told).toEqual([]);
  });
});
