// The pages of the documentation that are not the API: each a template of this folder, in which a comment of its own
// line asks for a piece of README, of DEVELOPERS, or for a figure of a notebook that was run.

/** `## Heading` and what stands under it, to the next heading of the same depth or above. */
export function section(markdown, heading) {
  const lines = markdown.split('\n');
  const at = lines.findIndex((line) => /^#+ /.test(line) && line.replace(/^#+ /, '') === heading);
  if (at < 0) throw new Error(`there is no heading "${heading}"`);
  const depth = /^#+/.exec(lines[at])[0].length;
  const end = lines.findIndex(
    (line, i) => i > at && /^#+ /.test(line) && /^#+/.exec(line)[0].length <= depth,
  );
  return lines
    .slice(at + 1, end < 0 ? undefined : end)
    .join('\n')
    .trim();
}

/** What stands between the title and the next heading. */
export const intro = (markdown) =>
  markdown
    .split(/^##+ /m)[0]
    .replace(/^# .*\n/, '')
    .trim();

/** The first block of JavaScript. */
export function firstCode(markdown) {
  const [, code] = /```js\n([\s\S]*?)```/.exec(markdown) ?? [];
  if (code === undefined) throw new Error('there is no block of JavaScript');
  return code;
}

/** Fills a template in. `pictures` are those of `picturesOf`. */
export function filledIn(template, { readme, developers, pictures }) {
  return template.replace(/^<!-- (README|DEVELOPERS|figure) (.+) -->$/gm, (_, from, what) => {
    if (from === 'README') return `\`\`\`js\n${firstCode(readme)}\`\`\``;
    if (from === 'DEVELOPERS') return what === 'intro' ? intro(developers) : section(developers, what);
    const [notebook, cell] = what.split(' ');
    const found = pictures.find((one) => one.notebook.startsWith(notebook) && one.cell === cell);
    if (!found) throw new Error(`no figure of notebook ${notebook}, cell ${cell}`);
    return `![${found.title}](${found.file})`;
  });
}

/** Every figure of a notebook that was run: the picture, the cell that made it, and its code. */
export function picturesOf(notebook, name) {
  return notebook.cells.flatMap((cell) =>
    (cell.outputs ?? []).flatMap((output, i) => {
      const svg = output.data?.['image/svg+xml'];
      if (!svg) return [];
      const text = [svg].flat().join('');
      const title = /<title[^>]*>([^<]*)</.exec(text)?.[1] ?? cell.id;
      const file = `pictures/${name}-${cell.id}-${i}.svg`;
      return [
        {
          notebook: name,
          question: questionOf(notebook),
          cell: cell.id,
          title,
          file,
          svg: text,
          code: [cell.source].flat().join(''),
        },
      ];
    }),
  );
}

/** The figures of gallery.md, drawn: `draw` runs a block of code and gives the picture. */
export const drawnGallery = (template, draw) =>
  template
    .split(/^## /m)
    .slice(1)
    .map((part) => {
      const title = part.split('\n')[0];
      const code = firstCode(part);
      const file = `pictures/${title.toLowerCase().replace(/\W+/g, '-')}.svg`;
      return { title, file, code, svg: draw(code) };
    });

/** All figures with their code: notebook by notebook, then those that no notebook draws. */
export function gallery(pictures, others) {
  const names = [...new Set(pictures.map(({ notebook }) => notebook))];
  const parts = names.flatMap((name) => [
    `## ${pictures.find((one) => one.notebook === name).question}`,
    `The cells before these are in [the notebook](notebooks/${name}.html).`,
    ...pictures
      .filter(({ notebook }) => notebook === name)
      .flatMap(({ title, file, code }) => [`![${title}](${file})`, `\`\`\`ts\n${code}\n\`\`\``]),
  ]);
  const more = others.flatMap(({ title, file, code }) => [
    `## ${title}`,
    `![${title}](${file})`,
    `\`\`\`js\n${code}\`\`\``,
  ]);
  return `---\ntitle: Gallery\n---\n\n# Gallery\n\nEvery figure the kit draws, with the code that made it.\n\n${[...parts, ...more].join('\n\n')}\n`;
}

/** `questions`: a notebook's question by its name. */
export function notebookList(questions) {
  const rows = Object.entries(questions).map(
    ([name, question]) => `| ${name.slice(0, 2)} | [${question}](notebooks/${name}.html) |`,
  );
  return `---\ntitle: Notebooks\n---\n\n# Notebooks\n\nEach answers one question, run on invented logs. To run one on yours: \`npx temperbook run notebooks/NAME.ipynb --set log=my-log.csv --out results\`.\n\n| | question |\n|---|---|\n${rows.join('\n')}\n`;
}

/** The heading of a notebook. */
export function questionOf(notebook) {
  const [, question] =
    /^# (.+)$/m.exec(notebook.cells.map(({ source }) => [source].flat().join('')).join('\n')) ?? [];
  return question;
}
