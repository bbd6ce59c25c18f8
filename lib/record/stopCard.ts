import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import type { StopReading } from '../planning';
import { finishPage, formatDuration, formatTemp, formatTempSpan, type Units } from '../quantity';
import { writeWhole } from '../report';
import { html } from './html/html';
import { stillPage } from './html/stillPage';
import { kitVersion } from './kitVersion';

const CARD_STYLE = `
@page { margin: 10mm; }
* { box-sizing: border-box; }
body { margin: 0; background: #fff; color: #1d2127; font: 12pt/1.4 system-ui, -apple-system, "Segoe UI", Roboto, "Liberation Sans", "Helvetica Neue", Arial, sans-serif; }
main { width: 140mm; max-width: 100%; margin: 0 auto; padding: 6mm; border: 0.6mm solid #1d2127; break-inside: avoid; }
h1 { font-size: 16pt; line-height: 1.2; margin: 0 0 3mm; }
.stop { font-size: 34pt; line-height: 1.1; font-weight: 700; margin: 0; }
.stop small { display: block; font-size: 12pt; font-weight: 400; }
dl { display: grid; grid-template-columns: 45mm 1fr; gap: 1.5mm 4mm; margin: 5mm 0 4mm; }
dt { color: #5a616b; }
dd { margin: 0; }
p { margin: 0 0 1.5mm; }
footer { color: #5a616b; font-size: 9pt; margin-top: 3mm; }
@media (max-width: 600px) { main { border: 0; padding: 4mm; } dl { grid-template-columns: 1fr; gap: 0 0; } dd { margin-bottom: 2mm; } .stop { font-size: 28pt; } }
`;

/** The card for the bench: the reading at which to take the arc off, large, and what it rests on. One page, no script. */
export function stopCardHtml(card: StopReading, title = 'Stop reading', units: Units = 'metric'): string {
  const {
    probe,
    probeAt,
    critical,
    limitC,
    limitFrom,
    overshootK,
    stopC,
    plannedC,
    lagS,
    slowestIntervalS,
    notes,
  } = card;
  const facts: (readonly [string, string])[] = [
    ['Probe', `${probe}, at x ${probeAt[0].toFixed(0)}, y ${probeAt[1].toFixed(0)} mm of the plan`],
    ['As planned it peaks at', formatTemp(plannedC)],
    ['Metal it stands for', `${critical.name}, ${card.alloy}-${card.temper}`],
    ['That may reach', `${formatTemp(limitC)}: ${limitFrom}`],
    [
      'It still warms, arc out, by',
      `${formatTempSpan(overshootK.nominal)}, up to ${formatTempSpan(overshootK.high)}; allowed for`,
    ],
    ['The probe peaks', lagInWords(lagS)],
    [
      'Read it every',
      slowestIntervalS === undefined ? '0.1 s or faster' : `${formatDuration(slowestIntervalS)} or faster`,
    ],
  ];
  const body = html`<h1>${title}</h1>
<p class="stop"><small>Take the arc off when ${probe} reads</small>${formatTemp(stopC.low)}</p>
<dl>${facts.map(([name, value]) => html`<dt>${name}</dt><dd>${value}</dd>`)}</dl>
<p>Then let the part cool before you go on. A reading well above ${formatTemp(plannedC)} means that something is not as planned.</p>
${notes.map((note) => html`<p>${note}</p>`)}
<footer>Stopping there keeps the metal within its limit in 95 of 100 plausible jobs. It informs your decision; it certifies nothing. Follow your code and your shop's safety rules. temperbook ${kitVersion()}</footer>`;
  return finishPage(stillPage({ title, style: CARD_STYLE, body }), units, [probe, critical.name, title]);
}

const lagInWords = (lagS: number): string =>
  Math.abs(lagS) < 1
    ? 'together with that metal'
    : `${formatDuration(Math.abs(lagS))} ${lagS > 0 ? 'after' : 'before'} that metal`;

/**
 * Writes a card, which shows `units`, and gives its path.
 * @throws TemperbookError when the file cannot be written.
 */
export function writeStopCard(
  card: StopReading,
  path: string,
  title = 'Stop reading',
  units: Units = 'metric',
): string {
  const page = stopCardHtml(card, title, units);
  mkdirSync(dirname(path), { recursive: true });
  writeWhole(path, (unfinished) => writeFileSync(unfinished, page));
  return path;
}
