import { STANDING_CAUTIONS } from '../../decision';
import { figureInUsUnits, figureName, staticSvg } from '../../figure';
import { finishPage, type Units } from '../../quantity';
import type { TableRow } from '../../report';
import { type Html, html, trusted } from '../html/html';
import { PAGE_STYLE } from '../html/pageStyle';
import { section, table, wordOf } from '../html/parts';
import { stillPage } from '../html/stillPage';
import { kitVersion } from '../kitVersion';
import type { Shelf, ShelfPart } from './readShelf';
import { type SinceThen, shelfRow } from './shelfRows';
import { MOST_WELDS, shelfTrends } from './shelfTrends';

/** What a page of the shelf shows. */
export interface ShelfPage {
  readonly title: string;
  readonly shelf: Shelf;
  /** The parts to show, newest first; in words how they were chosen, where they are not all. */
  readonly parts: readonly ShelfPart[];
  readonly chosen?: string;
  /** By file of the newest edition: what changed since its decision, and what it would say today. */
  readonly since: ReadonlyMap<string, SinceThen>;
}

const WIDE_STYLE = `
@page { size: landscape; }
main { max-width: 78rem; }
.trends { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(20rem, 100%), 1fr)); gap: 1rem; }
.trends svg { width: 100%; max-width: 32rem; height: auto; }
@media print { .trends { grid-template-columns: repeat(3, minmax(0, 1fr)); } }
.trends .picture { margin: 0; }
.register { font-size: .8125rem; } .register th, .register td { padding-right: .7rem; }
.legend { display: flex; flex-wrap: wrap; gap: .3rem 1.2rem; margin: .4rem 0 .8rem; padding: 0; list-style: none; }
`;

/** A shelf of parts as one HTML page without scripts, that needs no other file and no network. */
export function shelfHtml(page: ShelfPage, units: Units = 'metric'): string {
  return finishPage(pageOf(page, units), units, namesOnShelf(page.parts));
}

/** Every text on a shelf that people gave. */
export const namesOnShelf = (parts: readonly ShelfPart[]): string[] =>
  parts.flatMap(({ newest }) => [
    ...[newest.name, newest.part, newest.job, newest.log, newest.file].flatMap((name) => name ?? []),
    ...newest.places.map(({ name }) => name),
  ]);

function pageOf(page: ShelfPage, units: Units): string {
  const { title, shelf, parts, chosen, since } = page;
  const count = (word: string): number => parts.filter(({ newest }) => newest.verdict === word).length;
  const open = parts.filter(({ newest }) => !newest.decision).length;
  const body = html`<header><p>Shelf of parts</p><p>${shelf.folder}</p></header>
<h1>${title}</h1>
<p class="lead">${parts.length} ${parts.length === 1 ? 'part' : 'parts'}${chosen === undefined ? '' : `, ${chosen}`}: ${count('kept')} kept, ${count('uncertain')} uncertain, ${count('lost')} lost. ${open === 0 ? 'All are decided.' : `${open} without a decision.`}</p>
${problems(shelf)}
${trends(parts, units)}
${changedDecisions(parts, since)}
${register(parts)}
<p class="note">${STANDING_CAUTIONS.join(' ')} temperbook ${kitVersion()}</p>`;
  return stillPage({ title, style: PAGE_STYLE + WIDE_STYLE, body });
}

function problems({ problems: found }: Shelf): Html | undefined {
  if (found.length === 0) return undefined;
  return section(
    'To be looked at',
    table(
      ['File', 'What is wrong'],
      found.map(({ file, problem }) => [file, problem]),
    ),
  );
}

function trends(parts: readonly ShelfPart[], units: Units): Html | undefined {
  const metric = shelfTrends(parts);
  const figures = units === 'us' ? metric.map((one) => figureInUsUnits(one, namesOnShelf(parts))) : metric;
  if (figures.length === 0) return undefined;
  const shown = Math.min(parts.length, MOST_WELDS);
  return section('From weld to weld', [
    html`<ul class="legend">${(['kept', 'uncertain', 'lost'] as const).map((word) => html`<li>${wordOf(word)}</li>`)}</ul>`,
    html`<div class="trends">${figures.map(
      (figure, k) =>
        html`<figure class="picture"><h3>${figureName(figure)}</h3>${trusted(staticSvg(figure, { widthPx: 460, hideTitle: true, id: `trend-${k}` }))}</figure>`,
    )}</div>`,
    ...(shown < parts.length
      ? [html`<p class="note">Drawn: the newest ${shown} of ${parts.length}. The list below holds all.</p>`]
      : []),
  ]);
}

function changedDecisions(
  parts: readonly ShelfPart[],
  since: ReadonlyMap<string, SinceThen>,
): Html | undefined {
  const rows = parts.flatMap((part) => {
    const then = since.get(part.newest.file);
    return then && then.changed.length > 0 ? [{ part, then }] : [];
  });
  if (rows.length === 0) return undefined;
  return section('Decisions whose ground has changed', [
    html`<p>What these decisions were made with is not what the kit holds now.</p>`,
    table(
      ['Part', 'Decided', 'Said then', 'Changed since', 'Would say today'],
      rows.map(({ part, then }) => [
        String(shelfRow(part).Part),
        part.newest.decision?.disposition ?? '',
        wordOf(part.newest.verdict),
        then.changed.join(', '),
        then.today ?? 'not judged again: temperbook parts … --again',
      ]),
    ),
  ]);
}

function register(parts: readonly ShelfPart[]): Html | undefined {
  if (parts.length === 0) return undefined;
  const rows: TableRow[] = parts.map((part) => shelfRow(part));
  const columns = Object.keys(rows[0]!).filter((name) => name !== 'Date' && name !== 'Part');
  return section(
    'Register',
    table(
      ['Part', 'Date', ...columns],
      rows.map((row, k) => [
        String(row.Part),
        String(row.Date),
        ...columns.map((name) =>
          name === 'Verdict' ? wordOf(parts[k]!.newest.verdict) : String(row[name] ?? ''),
        ),
      ]),
      'register',
    ),
  );
}
