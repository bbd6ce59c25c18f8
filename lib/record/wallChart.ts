import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { type Figure, figureInUsUnits, staticSvg } from '../figure';
import { finishPage, knownOptions, TemperbookError, type Units } from '../quantity';
import { writeWhole } from '../report';
import { html, trusted } from './html/html';
import { stillPage } from './html/stillPage';
import { kitVersion } from './kitVersion';

/** One picture on one sheet, to pin on the wall. */
export interface WallChart {
  readonly title: string;
  readonly figure: Figure;
  /** A few sentences under the picture: how to read it, what it does not know. */
  readonly notes: readonly string[];
}

const PARTS = ['title', 'figure', 'notes'] as const satisfies readonly (keyof WallChart)[];

/** Proportions of the picture: what title and notes leave of the sheet. */
const PICTURE = { widthPx: 860, heightPx: 545 } as const;
/** On a phone held upright the sheet would be too small to read. */
const PHONE_PX = 340;

const SHEET_STYLE = `
@page { size: landscape; margin: 9mm; }
* { box-sizing: border-box; }
body { margin: 0; background: #fff; color: #1d2127; font: 9.5pt/1.4 system-ui, -apple-system, "Segoe UI", Roboto, "Liberation Sans", "Helvetica Neue", Arial, sans-serif; }
main { width: 256mm; max-width: 100%; margin: 0 auto; break-inside: avoid; }
h1 { font-size: 19pt; line-height: 1.15; margin: 0 0 1mm; }
svg { width: 100%; height: auto; } #sheet { display: block; }
.notes { columns: 2; column-gap: 8mm; margin: 1.5mm 0 0; }
.notes p { margin: 0 0 1mm; break-inside: avoid; }
footer { color: #5a616b; font-size: 8pt; margin-top: 1mm; }
@media screen { main { padding: 6mm 4mm; } }
@media print { main { height: 191mm; display: flex; flex-direction: column; } svg { flex: 1 1 0; min-height: 0; } }
#phone { display: none; }
@media screen and (max-width: 700px) { main { padding: 4mm; } .notes { columns: 1; } #sheet { display: none; } #phone { display: block; } }
`;

/**
 * A sheet as one HTML page without scripts, printed on one page of A4 or US Letter, whichever the printer holds:
 * the sheet has the narrower width and the lower height of the two, and the picture gives way to the notes.
 * @throws TemperbookError for a part that is missing or unknown.
 */
export function wallChartHtml(chart: WallChart, units: Units = 'metric'): string {
  const { title, figure, notes } = knownOptions(chart, PARTS, 'A wall chart');
  const missing = PARTS.filter((part) => chart[part] === undefined);
  if (missing.length > 0)
    throw new TemperbookError('A wall chart lacks a part', { found: `no ${missing.join(', no ')}` });
  const shown = units === 'us' ? figureInUsUnits(figure) : figure;
  const body = html`<h1>${title}</h1>
${trusted(named('sheet', staticSvg(withOneRowOfTimes(shown), { ...PICTURE, hideTitle: true, id: 'sheet' })))}
${trusted(named('phone', staticSvg(shown, { widthPx: PHONE_PX, hideTitle: true, id: 'phone' })))}
<div class="notes">${notes.map((note) => html`<p>${note}</p>`)}</div>
<footer>An estimate to inform your decision; it certifies nothing and replaces no test. temperbook ${kitVersion()}</footer>`;
  return finishPage(stillPage({ title, style: SHEET_STYLE, body }), units);
}

/**
 * Writes a sheet, which shows `units`, and gives its path.
 * @throws TemperbookError when the file cannot be written.
 */
export function writeWallChart(chart: WallChart, path: string, units: Units = 'metric'): string {
  const page = wallChartHtml(chart, units);
  mkdirSync(dirname(path), { recursive: true });
  writeWhole(path, (unfinished) => writeFileSync(unfinished, page));
  return path;
}

const named = (id: string, svg: string): string => svg.replace('<svg', `<svg id="${id}"`);

/** A sheet is wide enough for all times in one row. */
function withOneRowOfTimes(figure: Figure): Figure {
  const { xaxis } = figure.layout;
  if (!xaxis?.ticktext) return figure;
  const ticktext = xaxis.ticktext.map((text) => text.replace('<br>', ''));
  return { ...figure, layout: { ...figure.layout, xaxis: { ...xaxis, ticktext } } };
}
