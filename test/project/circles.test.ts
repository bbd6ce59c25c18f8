import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const lib = path.join(__dirname, '../../lib');

/** What each file of lib imports or hands on, types included. */
function importsByFile(): Map<string, string[]> {
  const files = readdirSync(lib, { recursive: true, encoding: 'utf8' }).filter((file) =>
    file.endsWith('.ts'),
  );
  const known = new Set(files);
  return new Map(
    files.map((file) => {
      const source = readFileSync(path.join(lib, file), 'utf8');
      const targets = [...source.matchAll(/(?:from |import\()'(\.\.?(?:\/[^']*)?)'/g)].flatMap(
        ([, specifier]) => {
          const target = path.join(path.dirname(file), specifier!);
          return [`${target}.ts`, path.join(target, 'index.ts')].filter((name) => known.has(name));
        },
      );
      return [file, targets];
    }),
  );
}

/** Groups of files that reach each other: strongly connected components of more than one file (Tarjan 1972). */
function circles(imports: ReadonlyMap<string, readonly string[]>): string[][] {
  const order = new Map<string, number>();
  const low = new Map<string, number>();
  const path: string[] = [];
  const found: string[][] = [];
  const visit = (file: string): void => {
    order.set(file, order.size);
    low.set(file, order.get(file)!);
    path.push(file);
    for (const target of imports.get(file) ?? []) {
      if (!order.has(target)) visit(target);
      if (path.includes(target)) low.set(file, Math.min(low.get(file)!, low.get(target)!));
    }
    if (low.get(file) !== order.get(file)) return;
    const group = path.splice(path.indexOf(file));
    if (group.length > 1) found.push(group.sort());
  };
  for (const file of imports.keys()) if (!order.has(file)) visit(file);
  return found;
}

describe('the files of lib', () => {
  const imports = importsByFile();

  it('are found with their imports', () => {
    expect(imports.get('index.ts')!.length).toBeGreaterThan(10);
    expect(imports.get(path.join('decision', 'judge.ts'))).toContain(path.join('alloy', 'index.ts'));
  });

  it('the detector finds a circle', () => {
    const some = new Map([
      ['a', ['b']],
      ['b', ['c']],
      ['c', ['b']],
    ]);
    expect(circles(some)).toEqual([['b', 'c']]);
  });

  it('never import each other in a circle, types included', () => {
    expect(circles(imports).map((group) => group.join(' ⇄ '))).toEqual([]);
  });
});
