export { changedSince } from './changedSince';
export { numberOf, readShelf, type Shelf, type ShelfPart, type ShelfProblem } from './readShelf';
export { type Selection, type ShelfFilter, selectParts } from './selectParts';
export { type ShelfEntry, type ShelfPlace, shelfEntry } from './shelfEntry';
export { type ShelfPage, shelfHtml } from './shelfHtml';
export { INDEX_FILE } from './shelfIndex';
export { governing, type SinceThen, shelfRow } from './shelfRows';
export { MOST_WELDS, shelfTrends } from './shelfTrends';
export { writeShelf } from './writeShelf';
