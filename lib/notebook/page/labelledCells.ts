import { escapeXml } from '../../quantity';

const TABLE = /<table[\s\S]*?<\/table>/g;
const HEAD = /<thead[\s\S]*?<\/thead>/;
const HEADING = /<t[dh]\b[^>]*>([\s\S]*?)<\/t[dh]>/g;
const ROW = /<tr\b[\s\S]*?<\/tr>/g;
const CELL = /<t[dh]\b/g;

/**
 * Tables in which each cell carries the heading of its column as `data-label`: a narrow screen shows every row as
 * a card of its own. Takes what `inertHtml` returns. A table without a head, or with cells that span, stays as it is.
 */
export function labelledCells(html: string): string {
  return html.replace(TABLE, (table) => {
    const head = HEAD.exec(table)?.[0];
    if (head === undefined || /(?:col|row)span=/.test(table)) return table;
    const labels = [...head.matchAll(HEADING)].map(([, label]) => plainText(label!));
    const rows = (text: string) =>
      text.replace(ROW, (row) => {
        let column = 0;
        return row.replace(CELL, (cell) => `${cell} data-label="${labels[column++] ?? ''}"`);
      });
    const [before, after] = table.split(head);
    return `${before}${head}${rows(after!)}`.replace('<table', '<table class="cards"');
  });
}

/** Text of a heading, fit for an attribute; entities stay as they are. */
const plainText = (html: string): string =>
  escapeXml(html.replace(/<[^>]*>/g, '')).replace(/&amp;(#?\w+;)/g, '&$1');
