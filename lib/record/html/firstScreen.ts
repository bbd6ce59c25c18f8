import { WORD_RULE, worstChannel } from '../../decision';
import { formatChance, formatPercent, formatTemp } from '../../quantity';
import { hiddenRows } from '../../report';
import type { DecisionRecord, RecordedVerdict } from '../decisionRecord';
import { type Html, html } from './html';
import { durationText, headline, keptText, signOf, table, tempText } from './parts';

/** What the reader sees first: whose record this is, the verdict in words, why, and with what chance. */
export function firstScreen({ job, verdict, edition, log }: DecisionRecord): Html {
  const worst = worstChannel(verdict.channels);
  const about = [
    job.job === undefined ? undefined : `Job ${job.job}`,
    job.part === undefined ? undefined : String(job.part),
    `${verdict.alloy}-${verdict.temper}`,
    log?.name,
  ].filter((text) => text !== undefined);
  const why =
    worst && worst.sentence !== verdict.sentence
      ? html`<p class="why"><b>${worst.name}:</b> ${worst.sentence}</p>`
      : undefined;
  return html`<header><p class="form">Temper decision record${edition > 1 && `, edition ${edition}`}</p><p class="about">${about.join(' · ')}</p></header>
<section class="verdict ${verdict.verdict}"><h1>${signOf(verdict.verdict)}<span>${headline(verdict.verdict)}</span></h1>
<p class="lead">${verdict.sentence}</p>${why}
${worst && numbers(worst, verdict)}
${hidden(verdict)}
<p class="note">${WORD_RULE} The chance is for every judged place of the part together.</p></section>`;
}

/** Which probe may hide heat, when, and what to do about it: nobody should have to scroll for that. */
function hidden(verdict: RecordedVerdict): Html | undefined {
  const rows = hiddenRows(verdict);
  if (rows.length === 0) return undefined;
  const [first] = rows;
  return html`<h2>Heat this record may hide</h2>${table(
    Object.keys(first!),
    rows.map((row) => Object.values(row).map(String)),
  )}`;
}

function numbers(
  worst: RecordedVerdict['channels'][number],
  { allowanceFraction, chanceKept }: RecordedVerdict,
): Html {
  const limit = worst.limits[0];
  return html`<dl class="numbers">
<div><dt>Strength kept at ${worst.name}</dt><dd>${keptText(worst.yieldKeptFraction)}</dd></div>
<div><dt>You asked to keep</dt><dd>${formatPercent(1 - allowanceFraction)}</dd></div>
<div><dt>Chance that the part keeps that</dt><dd>${chanceKept === null ? 'not known: heat may be missing' : formatChance(chanceKept)}</dd></div>
<div><dt>Hottest reading there</dt><dd>${tempText(worst.peakC)}</dd></div>
${
  limit &&
  html`<div><dt>Above ${limit.name}, ${formatTemp(limit.limitC)}</dt><dd>${
    limit.timeAboveS.high > 0 ? durationText(limit.timeAboveS) : 'never'
  }</dd></div>`
}</dl>`;
}
