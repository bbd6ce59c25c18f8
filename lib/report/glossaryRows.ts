import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { TableRow } from './table';

interface Glossary {
  readonly words: readonly { readonly trade: string; readonly kit: string; readonly note: string }[];
}

/** What people say in the shop, what the kit calls it, and what to mind: data/models/glossary.json. */
export function glossaryRows(): readonly TableRow[] {
  const { words } = JSON.parse(
    readFileSync(path.join(__dirname, '../../data/models/glossary.json'), 'utf8'),
  ) as Glossary;
  return words.map(({ trade, kit, note }) => ({ 'They say': trade, 'Here it is': kit, Mind: note }));
}
