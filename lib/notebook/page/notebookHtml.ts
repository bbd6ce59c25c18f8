import { stripVTControlCharacters } from 'node:util';
import MarkdownIt from 'markdown-it';
import { FIGURE_STYLE, liveScripts } from '../../figure';
import { escapeXml, finishPage } from '../../quantity';
import { type Cell, hasTag, joinLines, type Notebook, type Output } from '../notebookFile';
import { displayHtml, isLiveFigure } from './displayHtml';
import { notebookStyle } from './notebookStyle';
import { streamHtml } from './streamHtml';

const markdown = new MarkdownIt({ html: false });
// A picture would be fetched from somewhere when the page opens: only those inside the text itself are shown.
markdown.renderer.rules.image = (tokens, i) => {
  const source = String(tokens[i]!.attrGet('src'));
  const label = escapeXml(tokens[i]!.content);
  return source.startsWith('data:image/')
    ? `<img src="${escapeXml(source)}" alt="${label}">`
    : `<em>[picture not included: ${label || escapeXml(source)}]</em>`;
};

/** How a notebook becomes a page. */
export interface NotebookHtmlOptions {
  /** Shown by the browser on its tab. */
  readonly title: string;
  /** Whether the code cells are shown, or their results only. */
  readonly code: boolean;
}

/**
 * One HTML page of a notebook that has been run: its question, what the cells tagged `answer` put out, then all
 * else in its order with the code folded. It holds all it needs, plotly once if there are figures;
 * its content policy keeps it from loading anything and from running any script but its own. Figures stay
 * visible with scripts off where the display carried a static picture.
 */
export function notebookHtml(notebook: Notebook, { title, code }: NotebookHtmlOptions): string {
  const cells = notebook.cells.map((cell, i) => cellHtml(cell, `cell-${i + 1}`, code));
  const answers = notebook.cells.flatMap((cell, i) =>
    isAnswer(cell) ? [outputsHtml(cell, `cell-${i + 1}`)] : [],
  );
  if (answers.length > 0) {
    const [, question = '', text] = HEADED.exec(cells[0]!) ?? [];
    const rest = text === undefined ? cells[0]! : `<section class="text">${text}`;
    cells.splice(0, 1, question, `<section class="answer">\n${answers.join('\n')}\n</section>`, rest);
  }
  const body = cells.filter((cell) => cell !== '').join('\n');
  const live = notebook.cells.some((cell) => (cell.outputs ?? []).some(isLiveFigure));
  const scripts = live ? liveScripts() : undefined;
  const policy = [
    "default-src 'none'",
    "style-src 'unsafe-inline'",
    'img-src data: blob:',
    `script-src ${scripts?.policy ?? "'none'"}`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return finishPage(
    `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeXml(title)}</title>
<style>${notebookStyle}${FIGURE_STYLE}</style>
</head>
<body>
<main>
${body}
</main>
${scripts?.html ?? ''}</body>
</html>
`,
    'metric',
  );
}

/** A first text cell that begins with its heading, and the rest of it. */
const HEADED = /^<section class="text">(<h1>[\s\S]*?<\/h1>)\s*([\s\S]*)$/;

const isAnswer = (cell: Cell) => cell.cell_type === 'code' && hasTag(cell, 'answer');

function cellHtml(cell: Cell, id: string, code: boolean): string {
  const source = joinLines(cell.source);
  if (cell.cell_type === 'markdown') return `<section class="text">${markdown.render(source)}</section>`;
  if (cell.cell_type === 'raw') return `<section class="text"><pre>${escapeXml(source)}</pre></section>`;
  const parts = [codeHtml(cell, source, code), isAnswer(cell) ? '' : outputsHtml(cell, id)].filter(
    (part) => part !== '',
  );
  return parts.length > 0 ? `<section class="cell">\n${parts.join('\n')}\n</section>` : '';
}

/** The code, folded. Values that were set are part of the result: they stand open, and with the code left out too. */
function codeHtml(cell: Cell, source: string, code: boolean): string {
  const wereSet = hasTag(cell, 'injected-parameters');
  if (!code && !wereSet) return '';
  const name = wereSet ? 'Values that were set' : `Code ${cell.execution_count ?? ''}`.trim();
  return `<details${wereSet ? ' open' : ''}><summary>${name}</summary><pre class="code"><code>${escapeXml(source)}</code></pre></details>`;
}

const outputsHtml = (cell: Cell, id: string): string =>
  (cell.outputs ?? []).map((output, i) => outputHtml(output, `${id}-${i + 1}`)).join('\n');

function outputHtml(output: Output, id: string): string {
  if (output.output_type === 'stream')
    return streamHtml(output.name, stripVTControlCharacters(joinLines(output.text)));
  return displayHtml(output.data, id, (text) => markdown.render(text));
}
