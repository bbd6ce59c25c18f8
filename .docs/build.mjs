// Builds the documentation into out/docs: runs the notebooks, fills the templates of this folder in, lets TypeDoc
// write the pages, and checks every link.   npm run docs   (--keep-notebooks takes those of the last run)
import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { brokenLinks } from './links.mjs';
import { drawnGallery, filledIn, gallery, notebookList, picturesOf, questionOf, section } from './pages.mjs';

const root = path.join(import.meta.dirname, '..');
process.chdir(root);
const pages = path.join(root, 'out/docs-pages');
const at = (...parts) => path.join(root, ...parts);
const names = readdirSync(at('notebooks'))
  .filter((file) => file.endsWith('.ipynb'))
  .map((file) => path.basename(file, '.ipynb'));

run('notebooks');
function run(folder) {
  const out = path.join(pages, folder);
  if (!process.argv.includes('--keep-notebooks')) rmSync(pages, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  for (const name of names) {
    if (existsSync(path.join(out, `${name}.html`))) continue;
    node(at('dist/cli/main.js'), 'run', at('notebooks', `${name}.ipynb`), '--out', out);
  }
}

const runs = names.map((name) => ({
  name,
  notebook: JSON.parse(readFileSync(path.join(pages, 'notebooks', `${name}.ipynb`), 'utf8')),
}));
const pictures = runs.flatMap(({ name, notebook }) => picturesOf(notebook, name));
mkdirSync(path.join(pages, 'pictures'), { recursive: true });
const kit = createRequire(import.meta.url)('../dist');
const others = drawnGallery(readFileSync(path.join(import.meta.dirname, 'gallery.md'), 'utf8'), (code) =>
  kit.figures.staticSvg(new Function('kit', 'readFileSync', code)(kit, readFileSync), { widthPx: 860 }),
);
for (const { file, svg } of [...pictures, ...others]) writeFileSync(path.join(pages, file), svg);

// `liveFigure` makes a page of one of the others.
const code = [...pictures, ...others].map((one) => one.code).join('\n');
const figures = Object.keys(kit.figures).filter((name) => /[a-z]Figure$/.test(name) && name !== 'liveFigure');
const undrawn = figures.filter((name) => !code.includes(name));
if (undrawn.length > 0) process.stderr.write(`Without a picture in the gallery: ${undrawn.join(', ')}\n`);

const [readme, developers] = ['README.md', 'DEVELOPERS.md'].map((file) => readFileSync(at(file), 'utf8'));
const write = (file, text) => writeFileSync(path.join(pages, file), text);
for (const file of ['tour.md', 'how-to.md', 'concepts.md'])
  write(
    file,
    filledIn(readFileSync(path.join(import.meta.dirname, file), 'utf8'), { readme, developers, pictures }),
  );
const page = (title, text) => `---\ntitle: ${title}\n---\n\n# ${title}\n\n${text}\n`;
write('names-and-units.md', page('Names and units', section(developers, 'Names and units')));
write('what-changed.md', page('What changed in answers', section(developers, 'What changed in answers')));
write('gallery.md', gallery(pictures, others));
write(
  'notebooks.md',
  notebookList(Object.fromEntries(runs.map(({ name, notebook }) => [name, questionOf(notebook)]))),
);
write('developers.md', developers.replace(/^# .*$/m, '---\ntitle: For developers\n---\n\n$&'));
mkdirSync(path.join(pages, 'data/demo'), { recursive: true });
copyFileSync(at('data/demo/mast-foot-verdict.svg'), path.join(pages, 'data/demo/mast-foot-verdict.svg'));
write('readme.md', readme.replaceAll('(DEVELOPERS.md)', '(developers.md)'));

node(at('node_modules/typedoc/bin/typedoc'), '--options', at('.docs/typedoc.json'));
const broken = brokenLinks(at('out/docs'));
if (broken.length > 0) throw new Error(`links that lead nowhere:\n${broken.join('\n')}`);
process.stdout.write(`Documentation  ${path.relative('', at('out/docs/index.html'))}\n`);

function node(...args) {
  const { status } = spawnSync(process.execPath, args, {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  if (status !== 0) throw new Error(`${path.basename(args[0])} failed`);
}
