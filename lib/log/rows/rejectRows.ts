import type { LogTable } from './logTable';

/** Takes rows out of the table and into the account of rejected rows. */
export function rejectRows(table: LogTable, indices: readonly number[], reason: string): void {
  const out = new Set(indices);
  for (const i of indices)
    table.reject({ row: table.row[i]!, offset: table.offset[i]!, kind: 'clock', column: '', reason });
  const order = new Uint32Array(table.length - out.size);
  let kept = 0;
  for (let i = 0; i < table.length; i++) if (!out.has(i)) order[kept++] = i;
  table.select(order);
}

/** Indices after rows were taken out. */
export function shiftBreaks(breaks: readonly number[], out: readonly number[]): number[] {
  let k = 0;
  return breaks.map((at) => {
    while (k < out.length && out[k]! <= at) k++;
    return Math.max(0, at - k);
  });
}
