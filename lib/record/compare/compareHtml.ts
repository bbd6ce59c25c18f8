import { writeFileSync } from 'node:fs';
import { STANDING_CAUTIONS } from '../../decision';
import { type Figure, figureInUsUnits, staticSvg } from '../../figure';
import { finishPage, TemperbookError, type Units } from '../../quantity';
import { writeWhole } from '../../report';
import { textAt } from '../files/placeRecord';
import { type Html, html, trusted } from '../html/html';
import { PAGE_STYLE } from '../html/pageStyle';
import { list, section, table, wordOf } from '../html/parts';
import { stillPage } from '../html/stillPage';
import { kitVersion } from '../kitVersion';
import { compareFigure } from './compareFigure';
import { compareRows } from './compareRows';
import type { Comparison } from './compareWelds';

/** Tells a page of compared welds from any other file. */
const MARK = '<p>Welds side by side</p>';
const FIGURE_STYLE = `
.picture svg { width: 100%; height: auto; } .picture .narrow { display: none; } main { max-width: 66rem; }
@media screen and (max-width: 640px) { .picture .wide { display: none; } .picture .narrow { display: block; } }
`;

/** Welds side by side as one HTML page without scripts, that needs no other file and no network. */
export function compareHtml(comparison: Comparison, units: Units = 'metric'): string {
  const names = namesOfComparison(comparison);
  const figureOf: typeof compareFigure = (place) =>
    units === 'us' ? figureInUsUnits(compareFigure(place), names) : compareFigure(place);
  return finishPage(pageOf(comparison, figureOf), units, names);
}

/** Every text of a comparison that people gave. */
export const namesOfComparison = ({ places }: Comparison): string[] =>
  places.flatMap(({ name, welds }) => [name, ...welds.map(({ weld }) => weld)]);

function pageOf({ places, leftOut }: Comparison, figureOf: typeof compareFigure): string {
  const names = [...new Set(places.flatMap(({ welds }) => welds.map(({ weld }) => weld)))];
  const title = names.length > 3 ? `${names[0]} beside ${names.length - 1} others` : names.join(' beside ');
  const body = html`<header>${trusted(MARK)}</header>
<h1>${title}</h1>
<p class="note">The chance that one kept more is counted draw by draw, with the same truth behind wire and fixing and the same metal on both sides: what both do not know cancels. Probes that were fixed anew may differ by more than that.</p>
${places.map((place, k) => {
  const rows = compareRows(place);
  return section(place.name, [
    html`<figure class="picture">${drawn(figureOf(place), k)}<figcaption class="note">Each trace from the first time above 60 °C (140 °F).</figcaption></figure>`,
    table(
      ['Weld', ...Object.keys(rows[0]!).slice(2)],
      rows.map((row, i) => [
        `${i + 1} ${row.Weld}`,
        ...Object.entries(row)
          .slice(2)
          .map(([name, value]) =>
            name === 'Verdict' ? wordOf(place.welds[i]!.place.verdict) : String(value),
          ),
      ]),
    ),
  ]);
})}
${leftOut.length > 0 && section('Not compared', list(leftOut))}
<p class="note">${STANDING_CAUTIONS.join(' ')} temperbook ${kitVersion()}</p>`;
  return stillPage({ title, style: PAGE_STYLE + FIGURE_STYLE, body });
}

/** Once for a desk and paper and once for a phone, where letters made for a desk could not be read. */
const drawn = (figure: Figure, k: number): Html[] =>
  (
    [
      ['wide', 860],
      ['narrow', 440],
    ] as const
  ).map(
    ([name, widthPx]) =>
      html`<div class="${name}">${trusted(staticSvg(figure, { widthPx, hideTitle: true, id: `place-${k}-${name}` }))}</div>`,
  );

/**
 * Writes the page whole or not at all, over an older page of compared welds and nothing else.
 * @throws TemperbookError when another file stands there, or it cannot be written.
 */
export function writeComparison(comparison: Comparison, path: string, units: Units = 'metric'): string {
  const stands = textAt(path);
  if (stands !== undefined && !stands.includes(MARK))
    throw new TemperbookError('Another file stands where the page would go', {
      file: path,
      remedy: 'Give another name, or move it away',
    });
  const text = compareHtml(comparison, units);
  writeWhole(path, (unfinished) => writeFileSync(unfinished, text, { flush: true }));
  return path;
}
