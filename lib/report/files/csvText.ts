import type { Table } from '../table';

/**
 * A table as comma-separated text: a line of column names, then a line per row, each ended by CR LF. Text with a comma,
 * a quote or a line break stands in quotes, quotes within it twice; a missing value is an empty field (RFC 4180).
 * @example csvText({ columns: ['Probe', 'Peak'], rows: [['TC1, lip', 248.5]] }) // "Probe,Peak\r\n\"TC1, lip\",248.5\r\n"
 */
export function csvText({ columns, rows }: Table): string {
  return [columns, ...rows].map((row) => `${row.map(field).join(',')}\r\n`).join('');
}

function field(value: string | number | boolean | null): string {
  const text = String(value ?? '');
  return /[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
}
