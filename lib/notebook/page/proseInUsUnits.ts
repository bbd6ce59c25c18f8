import { inUsUnits } from '../../quantity';
import { joinLines, type Notebook } from '../notebookFile';

/** A notebook whose text cells read as a US shop reads them; code, in them too, stays. */
export const proseInUsUnits = (notebook: Notebook): Notebook => ({
  ...notebook,
  cells: notebook.cells.map((cell) =>
    cell.cell_type === 'markdown' ? { ...cell, source: prose(joinLines(cell.source)) } : cell,
  ),
});

const prose = (markdown: string): string =>
  markdown
    .split(/(```[\s\S]*?```|`[^`]*`)/)
    .map((piece, i) => (i % 2 === 0 ? inUsUnits(piece) : piece))
    .join('');
