import { formatDuration } from '../../quantity';
import { type DecisionRecord, DISPOSITIONS, type RecordedVerdict, type SignOffLine } from '../decisionRecord';
import { readingText } from '../edition/changesBetween';
import { type Html, html } from './html';
import { chanceText, keptText, list, section, table } from './parts';

/** What to do now, and the ways to go on with what each leaves and what stands against it. */
export function whatToDo({ verdict: { action } }: DecisionRecord): Html {
  const [first, ...steps] = action.now;
  return section('What to do now', [
    html`<p>${first ?? ''}</p>`,
    steps.length > 0 ? list(steps) : html``,
    action.ways.length > 0 ? waysTable(action) : html``,
  ]);
}

const waysTable = ({ place, ways }: RecordedVerdict['action']): Html =>
  table(
    ['Way to go on', `Yield kept at ${place}`, 'Chance', 'Takes', 'Against it'],
    ways.map(({ name, yieldKeptFraction, chanceKept, timeS, forbiddenBy, askFirst }) => [
      name,
      yieldKeptFraction ? keptText(yieldKeptFraction) : '',
      yieldKeptFraction ? chanceText(chanceKept) : '',
      timeS > 0 ? formatDuration(timeS) : '',
      forbiddenBy.length > 0
        ? `Forbidden: ${forbiddenBy.join('; ')}`
        : askFirst.length > 0
          ? `${askFirst.length} to ask first (annex)`
          : 'nothing',
    ]),
    'ways',
  );

/** Every way with its remark and all that has to be asked first. */
export function waysInFull({ action: { ways, place } }: RecordedVerdict): Html | undefined {
  if (ways.length === 0) return undefined;
  return section(
    'Ways to go on',
    ways.map(({ name, ultimateKeptFraction, yieldKeptFraction, remark, forbiddenBy, askFirst }) => {
      const ultimate = ultimateKeptFraction ? keptText(ultimateKeptFraction) : 'not known';
      const against = [
        ...forbiddenBy.map((what) => `Forbidden: ${what}`),
        ...askFirst.map((what) => `Ask first: ${what}`),
      ];
      return html`<div><h3>${name}</h3><p>${remark}${
        yieldKeptFraction !== null && ` Ultimate strength kept at ${place}: ${ultimate}.`
      }</p>${against.length > 0 && list(against)}</div>`;
    }),
  );
}

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
  const against = taken.disposition === 'accept' && verdict.action.word !== 'kept';
  return section('Decision', [
    html`<p class="disposition">${taken.disposition}</p>`,
    taken.condition ? html`<p><b>Condition:</b> ${taken.condition}</p>` : html``,
    html`<p><b>Reason:</b> ${taken.reason}</p>`,
    taken.rule ? html`<p><b>Rule, fixed before measuring:</b> ${taken.rule}</p>` : html``,
    against
      ? html`<p class="against">The part was accepted although the verdict is “${verdict.action.headline}”. The reason above has to carry that.</p>`
      : html``,
  ]);
}

/** Lines to sign, for print. */
export const signOff = (lines: readonly SignOffLine[]): Html =>
  html`<section class="signing">${lines.map(
    ({ role, name = '', date = '' }) =>
      html`<div class="sign-off"><p><span>${name}</span>${role}, name and signature</p><p><span>${date}</span>Date</p></div>`,
  )}</section>`;
