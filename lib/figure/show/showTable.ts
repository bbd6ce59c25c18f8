import { max } from 'simple-statistics';
import { escapeXml, keepTogether } from '../../quantity';
import { type Table, type TableRow, tableOf } from '../../report';
import { displayWriter } from './show';

/**
 * Shows a table in a notebook, or as lined-up text in a terminal. Numbers are shown with all their digits:
 * round where the digits say nothing, by giving text.
 * @throws TemperbookError for a column that no row has, and for a number that is none.
 */
export function showTable(rows: readonly TableRow[], columns?: readonly string[]): void {
  displayTable(tableOf(rows, columns));
}

/** Shows a table that was lined up already. */
export function displayTable(table: Table): void {
  const write = displayWriter();
  const text = tableText(table);
  if (!write) process.stdout.write(`${text}\n`);
  else
    write(
      { data: { 'text/plain': text, 'text/html': tableHtml(table) }, metadata: {}, transient: {} },
      false,
    );
}

/** The table as text: columns lined up, numbers to the right. */
export function tableText({ columns, rows }: Table): string {
  const texts = [columns, ...rows.map((row) => row.map((value) => String(value ?? '')))];
  const widths = columns.map((_, i) => max(texts.map((text) => text[i]!.length)));
  const toRight = columns.map((_, i) => isNumeric(rows.map((row) => row[i]!)));
  const lines = texts.map((text) =>
    text
      .map((field, i) => (toRight[i] ? field.padStart(widths[i]!) : field.padEnd(widths[i]!)))
      .join('  ')
      .trimEnd(),
  );
  lines.splice(1, 0, widths.map((width) => '─'.repeat(width)).join('  '));
  return lines.join('\n');
}

function tableHtml({ columns, rows }: Table): string {
  const align = columns.map((_, i) => (isNumeric(rows.map((row) => row[i]!)) ? 'right' : 'left'));
  const field = (tag: string, value: unknown, i: number) =>
    `<${tag} style="text-align:${align[i]}">${keepTogether(escapeXml(String(value ?? '')))}</${tag}>`;
  // A heading without words is none.
  const head = columns.map((column, i) => field(column === '' ? 'td' : 'th', column, i)).join('');
  const body = rows.map((row) => `<tr>${row.map((value, i) => field('td', value, i)).join('')}</tr>`);
  return `<table>\n<thead><tr>${head}</tr></thead>\n<tbody>\n${body.join('\n')}\n</tbody>\n</table>`;
}

function isNumeric(values: readonly (string | number | boolean | null)[]): boolean {
  return values.every((value) => value === null || typeof value === 'number');
}
