import { execFileSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { runNotebook } from '../../dist/notebook';
import { inFull } from '../setup/extent';
import { ranNotebook } from '../setup/ranNotebook';

/** Jupyter's own check of its open format, from the Python that Debian's Jupyter runs in. */
const VALIDATE = `
import sys, warnings, nbformat
warnings.simplefilter("error")
for file in sys.argv[1:]:
    nbformat.validate(nbformat.read(file, as_version=nbformat.NO_CONVERT))
`;
const complaints = (files: readonly string[]) =>
  execFileSync('/usr/bin/python3', ['-c', VALIDATE, ...files], { encoding: 'utf8' });

const names = readdirSync('notebooks').filter((file) => file.endsWith('.ipynb'));
const chosen = inFull ? names : names.filter((name) => /^(01|09)-/.test(name));

describe('the notebook format, nbformat 4.5', () => {
  it('is kept by every notebook of the kit', () => {
    expect(complaints(names.map((name) => path.join('notebooks', name)))).toBe('');
  });

  it('is kept by what a run saves, with values set too', async () => {
    const folders = await Promise.all(chosen.map(ranNotebook));
    const set = await runNotebook('test/notebook/fixtures/ok.ipynb', {
      parameters: { startC: 300 },
      outFolder: path.join(folders[0]!, 'set'),
    });
    expect(complaints([...folders.map((folder, i) => path.join(folder, chosen[i]!)), set.notebookPath])).toBe(
      '',
    );
  }, 600_000);
});
