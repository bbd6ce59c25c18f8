import {
  formatChance,
  formatDuration,
  formatPercent,
  formatTemp,
  type HowKnown,
  type Judged,
} from '../../quantity';
import type { VerdictWord } from '../../strength';
import { type Html, html, trusted } from './html';

/** The verdict as the page says it, and its sign: told apart by shape, not only by colour. */
const SIGNS: Readonly<Record<VerdictWord, { readonly short: string; readonly sign: string }>> = {
  kept: {
    short: 'kept',
    sign: '<circle cx="12" cy="12" r="10.5"/><path d="M7 12.5l3.5 3.5 6.5-7.5"/>',
  },
  uncertain: {
    short: 'uncertain',
    sign: '<path d="M12 1.8L22.2 12 12 22.2 1.8 12z"/><path d="M9.3 9.6c0-1.5 1.2-2.6 2.7-2.6s2.7 1 2.7 2.4c0 1.9-2.7 2.2-2.7 4.2M12 16.6v.3"/>',
  },
  lost: {
    short: 'lost',
    sign: '<rect x="2" y="2" width="20" height="20"/><path d="M7.5 7.5l9 9M16.5 7.5l-9 9"/>',
  },
};

/** The sign of a verdict, drawn. */
export const signOf = (word: VerdictWord): Html =>
  html`<svg class="sign" viewBox="0 0 24 24" aria-hidden="true">${trusted(SIGNS[word].sign)}</svg>`;

/** Sign and word, for a table. */
export const wordOf = (word: VerdictWord): Html =>
  html`<span class="word ${word}">${signOf(word)}${SIGNS[word].short}</span>`;

/** "91 % (85 to 95 %)". */
export const keptText = ({ nominal, low, high }: Judged): string =>
  `${formatPercent(nominal)} (${Math.round(low * 100)} to ${formatPercent(high)})`;

/** "62 %", or why there is none. */
export const chanceText = (chance: number | null): string =>
  chance === null ? 'not known: heat may be missing' : formatChance(chance);

/** "205 MPa (190 to 220)". */
export const yieldText = ({ nominal, low, high }: Judged): string =>
  `${Math.round(nominal)} MPa (${Math.round(low)} to ${Math.round(high)})`;

/** "38 s (38 s to 71 s)", or the one value where the band is nothing. */
export function durationText({ nominal, low, high }: Judged): string {
  const [a, b, c] = [formatDuration(nominal), formatDuration(low), formatDuration(high)];
  return a === b && a === c ? a : `${a} (${b} to ${c})`;
}

/** "319 °C (606 °F)". */
export const tempText = ({ nominal }: Judged): string => formatTemp(nominal);

/** How a number is known, in words. */
export const KNOWN_IN_WORDS: Readonly<Record<HowKnown, string>> = {
  seen: 'read in the source',
  memory: 'recalled, source not opened',
  derived: 'our arithmetic from sourced numbers',
  fitted: 'our fit to measured data',
  practice: 'common practice, no source',
};

/** Range of the small bars, fraction of the starting yield. */
const BAR = { low: 0.4, high: 1.2, widthPx: 132 } as const;

/** Strength kept as a small bar: the band, the value, and the line that must be held. */
export function keptBar({ nominal, low, high }: Judged, needed: number): Html {
  const at = (fraction: number) => {
    const within = Math.min(BAR.high, Math.max(BAR.low, fraction));
    return (((within - BAR.low) / (BAR.high - BAR.low)) * BAR.widthPx).toFixed(1);
  };
  const width = (Number(at(high)) - Number(at(low))).toFixed(1);
  return html`<svg class="bar" viewBox="0 0 ${BAR.widthPx} 16" aria-hidden="true"><line x1="0" x2="${BAR.widthPx}" y1="8" y2="8" class="rail"/><rect x="${at(low)}" width="${width}" y="5" height="6" class="band"/><circle cx="${at(nominal)}" cy="8" r="3.6" class="value"/><line x1="${at(needed)}" x2="${at(needed)}" y1="1" y2="15" class="needed"/></svg>`;
}

/** Words of a length no language has may break anywhere, or one of them would push the table off the page. */
const breakable = (cell: Html | string): Html | string =>
  typeof cell === 'string'
    ? cell.replace(/[^\s\u00a0]{40,}/g, (word) => word.replace(/.{20}/gu, '$&\u200b'))
    : cell;

/** A table that turns into cards on a phone: each cell knows its column's name. */
export function table(
  columns: readonly string[],
  rows: readonly (readonly (Html | string)[])[],
  className = '',
): Html {
  return html`<table class="${className}"><thead><tr>${columns.map((c) => html`<th scope="col">${c}</th>`)}</tr></thead><tbody>${rows.map(
    (row) =>
      html`<tr>${row.map((cell, i) =>
        i === 0
          ? html`<th scope="row" data-label="${columns[i]!}">${breakable(cell)}</th>`
          : html`<td data-label="${columns[i]!}">${breakable(cell)}</td>`,
      )}</tr>`,
  )}</tbody></table>`;
}

/** A bulleted list. */
export const list = (items: readonly (Html | string)[]): Html =>
  html`<ul>${items.map((item) => html`<li>${item}</li>`)}</ul>`;

/** A headed part of the page; nothing at all when there is nothing to say. */
export const section = (title: string, content: Html | readonly Html[], className = ''): Html =>
  html`<section class="${className}"><h2>${title}</h2>${content}</section>`;
