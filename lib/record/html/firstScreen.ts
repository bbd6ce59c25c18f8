import { WORD_RULE } from '../../decision';
import { formatPercent, formatTemp } from '../../quantity';
import { hiddenRows } from '../../report';
import type { DecisionRecord, RecordedVerdict } from '../decisionRecord';
import { type Html, html } from './html';
import { chanceText, durationText, keptText, signOf, table, tempText } from './parts';

/** What the reader sees first: whose record this is, the verdict in words, why, and with what chance. */
export function firstScreen({ job, verdict, edition, log }: DecisionRecord): Html {
  const place = verdict.channels.find(({ name }) => name === verdict.action.place);
  const about = [
    job.job === undefined ? undefined : `Job ${job.job}`,
    job.part === undefined ? undefined : String(job.part),
    `${verdict.alloy}-${verdict.temper}`,
    log?.name,
  ].filter((text) => text !== undefined);
  const { action } = verdict;
  return html`<header><p class="form">Temper decision record${edition > 1 && `, edition ${edition}`}</p><p class="about">${about.join(' · ')}</p></header>
<section class="verdict ${action.word}"><h1>${signOf(action.word)}<span>${action.headline}</span></h1>
<p class="lead">${action.reason}</p>${action.asWelded.map(({ sentence }) => html`<p class="why">${sentence}</p>`)}
${place && numbers(place, verdict)}
${hidden(verdict)}
<p class="note">${WORD_RULE} The chance is for every judged place of the part together${
    action.asWelded.length > 0 && ', but for those named to be designed with as-welded strength'
  }.</p></section>`;
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
  { allowanceFraction, action }: RecordedVerdict,
): Html {
  const limit = worst.limits[0];
  return html`<dl class="numbers">
<div><dt>Yield kept at ${worst.name}</dt><dd>${keptText(worst.yieldKeptFraction)}</dd></div>
<div><dt>Ultimate kept there</dt><dd>${worst.ultimateKeptFraction ? keptText(worst.ultimateKeptFraction) : 'not known'}</dd></div>
<div><dt>You asked to keep</dt><dd>${formatPercent(1 - allowanceFraction)}</dd></div>
<div><dt>Chance that the part keeps that</dt><dd>${chanceText(action.chance)}</dd></div>
<div><dt>Hottest reading there</dt><dd>${tempText(worst.peakC)}</dd></div>
${
  limit &&
  html`<div><dt>Above ${limit.name}, ${formatTemp(limit.limitC)}</dt><dd>${
    limit.timeAboveS.high > 0 ? durationText(limit.timeAboveS) : 'never'
  }</dd></div>`
}</dl>`;
}
