import { worstChannel } from '../../decision';
import { formatPercent } from '../../quantity';
import { type DecisionRecord, DISPOSITIONS, type RecordedVerdict, type SignOffLine } from '../decisionRecord';
import { readingText } from '../edition/changesBetween';
import { type Html, html } from './html';
import { headline, list, section } from './parts';

/** What to do now, in a few lines: what to measure at the worst probe, or the ways to go on. */
export function whatToDo({ verdict, options }: DecisionRecord): Html {
  const open = verdict.channels.filter(({ settle }) => settle.length > 0);
  const worst = worstChannel(open);
  const others = open.filter((channel) => channel !== worst).map(({ name }) => name);
  const ways = options.map(
    ({ name, yieldKeptFraction: { nominal, low, high }, remark }) =>
      html`<b>${name}</b>: ${formatPercent(nominal)} of the strength (${formatPercent(low)} to ${formatPercent(high)}). ${remark}`,
  );
  return section('What to do now', [
    html`<p>${FIRST_STEP[verdict.verdict]}</p>`,
    worst ? list(worst.settle) : html``,
    others.length > 0 ? html`<p>Then likewise at ${others.join(', ')}.</p>` : html``,
    ways.length > 0 ? html`<p>Ways to go on:</p>${list(ways)}` : html``,
  ]);
}

const FIRST_STEP: Readonly<Record<RecordedVerdict['verdict'], string>> = {
  kept: 'Nothing needs measuring for the temper. Check the weld itself as you always do.',
  uncertain: 'Hold the part until one of these is measured, or decide as if the strength were lost.',
  lost: 'Set the part aside. Age it again, have it fully heat-treated, scrap it, or show by a test that it is strong enough.',
};

/** All that would settle it, probe by probe. */
export function settleSteps({ channels }: RecordedVerdict): Html | undefined {
  const open = channels.filter(({ settle }) => settle.length > 0);
  if (open.length === 0) return undefined;
  return section(
    'What would settle it',
    open.map(({ name, settle }) => html`<h3>${name}</h3>${list(settle)}`),
  );
}

/** Bench readings: those that weighed the verdict, and those noted after it. */
export function benchReadings({
  readings,
  verdict: { readings: weighed },
}: DecisionRecord): Html | undefined {
  if (readings.length === 0 && weighed === undefined) return undefined;
  return section('Read at the bench', [
    ...(weighed
      ? [
          list(weighed.given.map(readingText)),
          html`<p class="note">The verdict counts these. ${[...weighed.contradicting, ...weighed.because].join(' ')}</p>`,
        ]
      : []),
    ...(readings.length > 0
      ? [
          list(readings.map(readingText)),
          html`<p class="note">Read after the verdict, which does not count ${readings.length === 1 ? 'it' : 'these'}: review the log again with ${readings.length === 1 ? 'it' : 'them'}.</p>`,
        ]
      : []),
  ]);
}

/** What was decided and why, or boxes and a line to do so by hand; against the verdict it says so. */
export function decision({ decision: taken, verdict }: DecisionRecord): Html {
  if (!taken)
    return section('Decision', [
      html`<ul class="choices">${DISPOSITIONS.map((one) => html`<li>${one}</li>`)}</ul>`,
      html`<p class="blank">Condition and reason</p>`,
    ]);
  const against = taken.disposition === 'accept' && verdict.verdict !== 'kept';
  return section('Decision', [
    html`<p class="disposition">${taken.disposition}</p>`,
    taken.condition ? html`<p><b>Condition:</b> ${taken.condition}</p>` : html``,
    html`<p><b>Reason:</b> ${taken.reason}</p>`,
    against
      ? html`<p class="against">The part was accepted although the verdict is “${headline(verdict.verdict)}”. The reason above has to carry that.</p>`
      : html``,
  ]);
}

/** Lines to sign, for print. */
export const signOff = (lines: readonly SignOffLine[]): Html =>
  html`<section class="signing">${lines.map(
    ({ role, name = '', date = '' }) =>
      html`<div class="sign-off"><p><span>${name}</span>${role}, name and signature</p><p><span>${date}</span>Date</p></div>`,
  )}</section>`;
