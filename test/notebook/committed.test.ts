import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Notebook } from '../../dist/notebook';
import { ranNotebook } from '../setup/ranNotebook';

const folder = path.resolve('notebooks');
const names = readdirSync(folder).filter((file) => file.endsWith('.ipynb'));

describe.each(names)('notebooks/%s', (name) => {
  const file = path.join(folder, name);
  const notebook: Notebook = JSON.parse(readFileSync(file, 'utf8'));

  it('is of the format that has cell ids, each readable and once', () => {
    expect([notebook.nbformat, notebook.nbformat_minor]).toEqual([4, 5]);
    const ids = notebook.cells.map(({ id }) => id ?? '');
    expect(ids.filter((id) => !/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/.test(id) || /^[0-9a-f]{8}/.test(id))).toEqual(
      [],
    );
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('opens with the kernel that npm run jupyter registers, and has parameters to set', () => {
    expect(notebook.metadata.kernelspec).toMatchObject({ name: 'tslab', language: 'typescript' });
    expect(notebook.cells.filter((cell) => cell.metadata.tags?.includes('parameters'))).toHaveLength(1);
  });

  it('answers within three cells, with no function of its own and no type left open', () => {
    const code = notebook.cells.filter(({ cell_type }) => cell_type === 'code');
    const answers = code.flatMap((cell, at) => (cell.metadata.tags?.includes('answer') ? [at] : []));
    expect(answers).toHaveLength(1);
    expect(answers[0]).toBeLessThanOrEqual(3);
    const source = code.map((cell) => [cell.source].flat().join('')).join('\n');
    expect(source).not.toMatch(/\bfunction\b|\bany\b|\bunknown\b/);
    expect(source).toMatch(/^let units: 'metric' \| 'us' = 'metric';/m);
  });

  it('runs as it is, from the first cell to the last, and is saved in less than 200 KB', async () => {
    const saved = readFileSync(path.join(await ranNotebook(name), name));
    expect(saved.length).toBeLessThan(200_000);
    const run: Notebook = JSON.parse(saved.toString());
    const outputs = run.cells.flatMap((cell) => cell.outputs ?? []);
    const figures = outputs.filter((output) => 'data' in output && 'image/svg+xml' in output.data);
    const complaints = outputs.filter((output) => 'name' in output && output.name === 'stderr');
    const shows = /\bshow\(/.test(JSON.stringify(notebook.cells));
    expect(figures.length > 0).toBe(shows);
    expect(complaints).toEqual([]);
  }, 300_000);
});

describe('the notebooks', () => {
  it('are there', () => expect(names.length).toBeGreaterThan(0));

  it('are kept in git without outputs, counts and set parameters', () => {
    const check = () => execFileSync(process.execPath, [path.join(folder, 'clean.mjs'), '--check']);
    expect(check).not.toThrow();
  });
});
