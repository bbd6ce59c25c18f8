import { STANDING_CAUTIONS } from '../decision';
import { FIGURE_STYLE, figureInUsUnits, liveFigure, liveScripts } from '../figure';
import { finishPage, type Units } from '../quantity';
import { type DecisionRecord, RECORD_FORM, type RecordedFigure } from './decisionRecord';
import { changes } from './html/changes';
import { benchReadings, decision, settleSteps, signOff, waysInFull, whatToDo } from './html/decisionSections';
import { firstScreen } from './html/firstScreen';
import { type Html, html, trusted } from './html/html';
import { PAGE_STYLE } from './html/pageStyle';
import { assumptions, cautions, jobLines, logAccount, versions } from './html/sourceSections';
import { heatLeft, limits, notJudged, options, passes, probes, reasons } from './html/verdictSections';
import { namesIn } from './namesIn';

/**
 * A record as one HTML page that needs nothing else: no network, no other file, and for reading not even
 * scripts. Its first sheet is the whole story: verdict, traces, reason, what to do, lines to sign. Every text is escaped; the page's content policy forbids loading anything and running any script
 * but the two it names by hash. The same record gives the same bytes. In US units °F, in and ksi come first.
 */
export function recordHtml(record: DecisionRecord, units: Units = 'metric'): string {
  if (units === 'metric') return finishPage(pageOf(record, []), units);
  const names = namesIn(record);
  const figures = record.figures.map((one) => ({ ...one, figure: figureInUsUnits(one.figure, names) }));
  return finishPage(pageOf({ ...record, figures }, [US_MARK]), units, names);
}

const US_MARK = html`<meta name="units" content="us">`;

/** The units that a page of a record shows. */
export const unitsOfPage = (page: string): Units => (page.includes(US_MARK.text) ? 'us' : 'metric');

function pageOf(record: DecisionRecord, marks: readonly Html[]): string {
  const { verdict, figures, log, job } = record;
  const scripts = figures.length > 0 ? liveScripts() : { html: '', policy: "'none'" };
  const policy = [
    "default-src 'none'",
    "style-src 'unsafe-inline'",
    'img-src data: blob:',
    `script-src ${scripts.policy}`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const [first, ...others] = figures;
  const story = first && picture(first, 1);
  const title = `${verdict.action.headline}: ${job.part ?? job.job ?? log?.name ?? verdict.alloy}`;
  return html`${trusted('<!doctype html>')}
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${trusted(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="${RECORD_FORM}">
<meta name="record-hash" content="${record.hash}">${marks}
<title>${title}</title>
<style>${trusted(PAGE_STYLE + FIGURE_STYLE)}</style>
</head>
<body>
<main>
<div class="story">
${firstScreen(record)}
${story}
${whatToDo(record)}
${benchReadings(record)}
${decision(record)}
${signOff(record.signOff)}
<p class="note">${STANDING_CAUTIONS.join(' ')}</p>
</div>
<div class="annex">
<h2>Annex: what this rests on</h2>
${changes(record)}
${probes(verdict)}
${story && large(story)}
${settleSteps(verdict)}
${waysInFull(verdict)}
${heatLeft(verdict)}
${options(record.options, verdict)}
${others.map((figure, i) => picture(figure, i + 2))}
${reasons(verdict)}
${notJudged(verdict)}
${limits(verdict)}
${passes(verdict)}
${jobLines(job)}
${log && logAccount(log)}
${assumptions(verdict)}
${cautions(verdict)}
${versions(record)}
</div>
</main>
${trusted(scripts.html)}
</body>
</html>
`.text;
}

const picture = ({ caption, figure }: RecordedFigure, number: number): Html =>
  html`<section class="picture"><h2>${caption}</h2>${trusted(liveFigure(figure, `figure-${number}`))}</section>`;

/** The picture of the first sheet once more, over the width of the paper. */
function large(page: Html): Html | undefined {
  const [, id, box] = /<svg id="([\w-]+-wide)"[^>]*? viewBox="([^"]+)"/.exec(page.text) ?? [];
  if (id === undefined) return undefined;
  return html`<figure class="large"><svg viewBox="${box}" role="img" aria-label="The first picture, large"><use href="#${id}"/></svg></figure>`;
}
