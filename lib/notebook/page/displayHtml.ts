import { type Figure, liveFigure } from '../../figure';
import { escapeXml } from '../../quantity';
import { joinLines, type MimeBundle, type Output } from '../notebookFile';
import { inertHtml } from './inertHtml';
import { labelledCells } from './labelledCells';

/** MIME type of a figure's data. */
export const PLOTLY = 'application/vnd.plotly.v1+json';

/** Whether an output is a figure that the kit's `show` displayed: it always adds a still picture. */
export function isLiveFigure(output: Output): boolean {
  return output.output_type === 'display_data' && PLOTLY in output.data && 'image/svg+xml' in output.data;
}

/**
 * A display as HTML, in the richest of its MIME types that a page can show without loading anything.
 * `id` must be unique on its page.
 */
export function displayHtml(data: MimeBundle, id: string, renderMarkdown: (text: string) => string): string {
  const svg = textOf(data, 'image/svg+xml');
  if (svg !== undefined && PLOTLY in data) {
    return liveFigure(data[PLOTLY] as Figure, id, 'titled');
  }
  if (svg !== undefined) return `<figure>${svgImage(svg)}</figure>`;
  for (const mime of ['image/png', 'image/jpeg', 'image/gif']) {
    const base64 = textOf(data, mime)?.replace(/[^\w+/=]/g, '');
    if (base64 !== undefined) return `<figure><img src="data:${mime};base64,${base64}" alt=""></figure>`;
  }
  const html = textOf(data, 'text/html');
  if (html !== undefined) return `<div class="display">${labelledCells(inertHtml(html))}</div>`;
  const markdown = textOf(data, 'text/markdown');
  if (markdown !== undefined) return `<div class="display">${renderMarkdown(markdown)}</div>`;
  const plain = textOf(data, 'text/plain') ?? textOf(data, 'text/latex');
  return `<pre class="stdout">${escapeXml(plain ?? `[not shown here: ${Object.keys(data).join(', ')}]`)}</pre>`;
}

/** As an image, an SVG can neither run scripts nor load anything. */
function svgImage(svg: string): string {
  const title = /<title>([^<]*)<\/title>/.exec(svg)?.[1] ?? '';
  return `<img src="data:image/svg+xml;base64,${Buffer.from(svg).toString('base64')}" alt="${title.replace(/"/g, '&quot;')}">`;
}

function textOf(data: MimeBundle, mime: string): string | undefined {
  const value = data[mime];
  if (typeof value === 'string') return value;
  return Array.isArray(value) ? joinLines(value.map(String)) : undefined;
}
