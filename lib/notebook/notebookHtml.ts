import { stripVTControlCharacters } from 'node:util';
import MarkdownIt from 'markdown-it';
import { FIGURE_STYLE, liveScripts } from '../figure';
import { escapeXml } from '../quantity';
import { displayHtml, isLiveFigure } from './displayHtml';
import { type Cell, hasTag, joinLines, type Notebook, type Output } from './notebookFile';
import { notebookStyle } from './notebookStyle';

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
 * One HTML page of a notebook that has been run. It holds all it needs, plotly once if there are figures;
 * its content policy keeps it from loading anything and from running any script but its own. Figures stay
 * visible with scripts off where the display carried a static picture.
 */
export function notebookHtml(notebook: Notebook, { title, code }: NotebookHtmlOptions): string {
  const body = notebook.cells.map((cell, i) => cellHtml(cell, `cell-${i + 1}`, code)).join('\n');
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
  return `<!doctype html>
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
`;
}

function cellHtml(cell: Cell, id: string, code: boolean): string {
  const source = joinLines(cell.source);
  if (cell.cell_type === 'markdown') return `<section class="text">${markdown.render(source)}</section>`;
  if (cell.cell_type === 'raw') return `<section class="text"><pre>${escapeXml(source)}</pre></section>`;
  // With the code left out, the values that were set are still part of the result.
  const shown = code || hasTag(cell, 'injected-parameters');
  const parts = [
    shown ? `<pre class="code"><code>${escapeXml(source)}</code></pre>` : '',
    ...(cell.outputs ?? []).map((output, i) => outputHtml(output, `${id}-${i + 1}`)),
  ].filter((part) => part !== '');
  return parts.length > 0 ? `<section class="cell">\n${parts.join('\n')}\n</section>` : '';
}

function outputHtml(output: Output, id: string): string {
  if (output.output_type === 'stream') {
    const text = escapeXml(stripVTControlCharacters(joinLines(output.text)));
    return `<pre class="${output.name}">${text}</pre>`;
  }
  return displayHtml(output.data, id, (text) => markdown.render(text));
}
