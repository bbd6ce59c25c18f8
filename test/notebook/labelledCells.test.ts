import { describe, expect, it } from 'vitest';
import { labelledCells } from '../../lib/notebook/page/labelledCells';

const table = (head: string, row: string) =>
  `<table><thead><tr>${head}</tr></thead><tbody><tr>${row}</tr></tbody></table>`;

describe('labelledCells', () => {
  it('gives each cell the heading of its column, markup left out and quotes escaped', () => {
    expect(labelledCells(table('<th>Peak &amp; <b>"low"</b></th><td></td>', '<td>1</td><td>2</td>'))).toBe(
      table(
        '<th>Peak &amp; <b>"low"</b></th><td></td>',
        '<td data-label="Peak &amp; &quot;low&quot;">1</td><td data-label="">2</td>',
      ).replace('<table', '<table class="cards"'),
    );
  });

  it.each([
    ['without a head', '<table><tr><td>1</td></tr></table>'],
    ['with cells that span', table('<th colspan="2">A</th>', '<td>1</td><td>2</td>')],
  ])('leaves a table %s as it is', (_, html) => expect(labelledCells(html)).toBe(html));
});
