import { CAUTIONS } from '../../decision';
import type { Fault } from '../../log';
import { formatDuration, formatTemp } from '../../quantity';
import { faultsByKind } from '../../report';
import type { DecisionRecord, RecordedLog, RecordedVerdict } from '../decisionRecord';
import { JOB_FIELDS, type JobFieldName, type JobSheet } from '../jobSheet';
import { type Html, html } from './html';
import { KNOWN_IN_WORDS, list, section, table } from './parts';

/** The job sheet: what the user said about the job, in the sheet's own order. */
export function jobLines(job: JobSheet): Html | undefined {
  const names = (Object.keys(JOB_FIELDS) as JobFieldName[]).filter((name) => job[name] !== undefined);
  if (names.length === 0) return undefined;
  return section(
    'Job sheet',
    html`<dl class="sheet">${names.map(
      (name) =>
        html`<div><dt>${JOB_FIELDS[name].label.replace(UNIT, '')}</dt><dd>${withUnit(name, job[name]!)}</dd></div>`,
    )}</dl>`,
  );
}

const UNIT = /, (?=mm|°C|kg|A$|V$)(.+)$/;

/** A number of the job sheet with its unit. */
function withUnit(name: JobFieldName, value: string | number): string {
  const unit = UNIT.exec(JOB_FIELDS[name].label)?.[1];
  if (unit === undefined || !Number.isFinite(Number(value))) return String(value);
  return unit === '°C' ? formatTemp(Number(value)) : `${value} ${unit}`;
}

/** Which file was read, what became of its rows, and how it was understood. */
export function logAccount(log: RecordedLog): Html[] {
  const { rows } = log;
  const faults = [
    ...faultRows('rows', log.rowFaults),
    ...log.channels.flatMap((channel) => faultRows(channel.name, channel.faults)),
  ];
  return [
    section('The log', [
      html`<dl class="sheet">
<div><dt>File</dt><dd>${log.name}, ${log.bytes} bytes</dd></div>
<div><dt>SHA-256</dt><dd class="hash">${log.sha256}</dd></div>
<div><dt>Recording began</dt><dd>${log.startedAt ?? 'not said in the file'}</dd></div>
<div><dt>Interval between rows</dt><dd>${formatDuration(log.intervalS)}</dd></div>
<div><dt>Rows</dt><dd>${rows.read} read = ${rows.kept} used whole + ${rows.flagged} used in part + ${rows.rejected} not used</dd></div>
<div><dt>Channels</dt><dd>${log.channels.map(({ name, samples, sourceUnit }) => `${name}: ${samples} readings in ${sourceUnit}`).join('; ')}</dd></div>
${log.leftAside.length > 0 && html`<div><dt>Columns left aside</dt><dd>${log.leftAside.map(({ name, why }) => `${name} (${why})`).join('; ')}</dd></div>`}
</dl>`,
      html`<h3>How it was read</h3>`,
      list(log.notes),
    ]),
    faults.length > 0
      ? section('Readings left out', [
          table(['Channel', 'Fault', 'How often', 'Rows', 'When', 'Why'], faults),
          html`<p class="note">Faults of one kind are shown together with the reason of the first; the JSON file of this record lists every one.</p>`,
        ])
      : section('Readings left out', html`<p>None.</p>`),
  ];
}

function faultRows(channel: string, faults: readonly Fault[]): string[][] {
  return faultsByKind(faults).map(({ first, count, lastRow, fromS, toS }) => [
    channel,
    first.kind,
    String(count),
    first.row === lastRow ? String(first.row) : `${first.row} to ${lastRow}`,
    fromS === toS ? formatDuration(fromS) : `${formatDuration(fromS)} to ${formatDuration(toS)}`,
    first.reason,
  ]);
}

/** Every number the verdict rests on that was not measured here. */
export function assumptions(verdict: RecordedVerdict): Html {
  return section(
    'What was assumed',
    table(
      ['Assumption', 'Value', 'Source', 'How it is known'],
      verdict.assumptions.map(({ name, value, source, known }) => [
        name,
        value,
        source,
        KNOWN_IN_WORDS[known],
      ]),
    ),
  );
}

/** The cautions of the verdict, and those that hold for every record whatever it says of itself. */
export const cautions = (verdict: RecordedVerdict): Html =>
  section('Cautions', list([...new Set([...verdict.cautions, ...CAUTIONS])]), 'cautions');

/** What the record was made with. */
export function versions({
  versions: used,
  verdict,
  writtenAt,
  edition,
  hash,
  before,
}: DecisionRecord): Html {
  const text = Object.entries({ ...used, ...verdict.madeWith }).map(
    ([name, version]) => `${name} ${version}`,
  );
  return section(
    'Made with',
    html`<p>${[...text, ...(writtenAt ? [`written ${writtenAt}`] : [])].join(' · ')}</p>
<dl class="sheet"><div><dt>Hash of this record, edition ${edition}</dt><dd class="hash">${hash}</dd></div>${
      before !== undefined &&
      html`<div><dt>Follows the edition with the hash</dt><dd class="hash">${before}</dd></div>`
    }</dl>`,
  );
}
