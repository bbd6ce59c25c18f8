// Takes outputs, counts and set parameters out of the notebooks, as they are kept in git.
//   node notebooks/clean.mjs            cleans them
//   node notebooks/clean.mjs --check    names those that are not clean and fails
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';

const check = process.argv.includes('--check');
let unclean = 0;

for (const name of readdirSync(import.meta.dirname).filter((file) => file.endsWith('.ipynb'))) {
  const path = new URL(name, import.meta.url);
  const text = readFileSync(path, 'utf8');
  const clean = cleaned(text);
  if (clean === text) continue;
  unclean += 1;
  process.stdout.write(`${name}${check ? ' holds outputs: npm run notebooks:clean' : ': cleaned'}\n`);
  if (!check) writeFileSync(path, clean);
}
if (check && unclean > 0) process.exitCode = 1;

function cleaned(text) {
  const notebook = JSON.parse(text);
  notebook.cells = notebook.cells
    .filter((cell) => !cell.metadata.tags?.includes('injected-parameters'))
    .map((cell) => (cell.cell_type === 'code' ? { ...cell, execution_count: null, outputs: [] } : cell));
  return `${JSON.stringify(notebook, null, 1)}\n`;
}
