import { escapeXml } from '../../quantity';

/** Lines set in columns, by spaces or by rules, keep their letters of one width. */
const IN_COLUMNS = /\S {2,}\S|[─│]/;

/**
 * What a cell printed. Between empty lines it is either sentences, each line a paragraph and further in where it was, or
 * lines set in columns, which stand as they are.
 */
export function streamHtml(name: 'stdout' | 'stderr', text: string): string {
  const blocks = text.split(/\n[^\S\n]*(?:\n|$)/).filter((block) => block.trim() !== '');
  return blocks
    .map((block) =>
      name === 'stderr' || IN_COLUMNS.test(block)
        ? `<pre class="${name}">${escapeXml(block)}</pre>`
        : `<div class="${name}">${paragraphs(block)}</div>`,
    )
    .join('\n');
}

const paragraphs = (block: string): string =>
  block
    .split('\n')
    .filter((line) => line.trim() !== '')
    .map((line) => `<p${line.startsWith(' ') ? ' class="further"' : ''}>${escapeXml(line.trim())}</p>`)
    .join('\n');
