import { basename, dirname, join } from 'node:path';
import { type Review, writeJobFile } from '../../job';
import { readRecord, type WrittenRecord } from '../../record';
import { hiddenRows, verdictRows, wayRows } from '../../report';
import { say, shownTable } from '../say';
import { shortest } from '../usage';

/** The answer of a review on the terminal, and what nobody said. */
export function tellReview({ job, verdict, same, asked }: Review): void {
  const { action } = verdict;
  say([action.headline, action.reason, ...action.asWelded.map(({ sentence }) => sentence), ''].join('\n'));
  say(`${shownTable(verdictRows(verdict))}\n`);
  say(`What to do now\n${action.now.map((step) => `  - ${step}\n`).join('')}`);
  if (action.ways.length > 0) say(`Ways to go on at ${action.place}\n${shownTable(wayRows(action))}\n`);
  for (const note of same) say(note);
  for (const line of [...(verdict.readings?.because ?? []), ...(verdict.readings?.contradicting ?? [])])
    say(line);
  const hidden = hiddenRows(verdict).map((row) => `${row.Probe}, ${row.When}: ${Object.values(row)[2]}\n`);
  if (hidden.length > 0) say(`Heat may be hidden\n${hidden.join('')}`);
  if (asked.length > 0) say('Nobody said');
  for (const { question, meanwhile, key, option } of asked)
    say(`  ${question} ${upper(meanwhile)}.\n    ${option}, or the key ${key} of a job file`);
  if (asked.length > 0) say('');
  if (job.said.defaults !== undefined) say(`Shop    ${shortest(join(job.folder, job.said.defaults))}`);
}

/** Where the record went; of a further edition, what changed. */
export function tellRecord({ html, json, edition, isNew }: WrittenRecord): void {
  const which = !isNew ? ', as it stood there already' : edition > 1 ? `, edition ${edition}` : '';
  if (isNew && edition > 1) {
    say(`Changed since edition ${edition - 1}`);
    for (const { what, was, now } of readRecord(json).changes) say(`  ${what}: was ${was}, is ${now}`);
    say('');
  }
  say(`Record  ${shortest(html)}${which}\nData    ${shortest(json)}`);
}

/** The job of a log that had none, beside its record. */
export function tellJobFile({ job, asked }: Review, { json }: WrittenRecord): void {
  const name = basename(json).replace(/(-record)?(\.edition-\d+)?\.json$/, '-job.json');
  const file = join(dirname(json), name);
  const written = writeJobFile(file, job.said, job.folder, asked);
  say(`Job     ${shortest(file)}${written === 'another stands there' ? ', left as it is' : ''}`);
}

const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
