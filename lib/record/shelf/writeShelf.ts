import { writeFileSync } from 'node:fs';
import { TemperbookError, type Units } from '../../quantity';
import { writeWhole } from '../../report';
import { textAt } from '../files/placeRecord';
import { type ShelfPage, shelfHtml } from './shelfHtml';

/** Tells a page of a shelf from any other file. */
const MARK = '<p>Shelf of parts</p>';

/**
 * Writes the page of a shelf whole or not at all, over an older page of a shelf and nothing else.
 * @throws TemperbookError when another file stands there, or it cannot be written.
 */
export function writeShelf(page: ShelfPage, path: string, units: Units = 'metric'): string {
  const stands = textAt(path);
  if (stands !== undefined && !stands.includes(MARK))
    throw new TemperbookError('Another file stands where the page would go', {
      file: path,
      remedy: 'Give another name, or move it away',
    });
  const text = shelfHtml(page, units);
  writeWhole(path, (unfinished) => writeFileSync(unfinished, text, { flush: true }));
  return path;
}
