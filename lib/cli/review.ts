import { parseArgs } from 'node:util';
import { namedMetal, parseMetal } from '../alloy';
import { type ChannelOptions, type JudgeOptions, judge, VERDICT_IN_WORDS } from '../decision';
import { tableText } from '../figure';
import { fahrenheitToCelsius, formatChance } from '../quantity';
import { buildRecord, writeRecord } from '../record';
import { hiddenRows, tableOf, verdictRows } from '../report';
import { fractionOf } from './fractionOf';
import { isFolder } from './many/logsToReview';
import { type ReviewedLog, reviewMany } from './many/reviewMany';
import { readingOf } from './readingOf';
import { readOptionsOf } from './readOptionsOf';
import { settledLog } from './settledLog';
import { shareLine } from './shareLine';
import { keyValue, onlyOne, required, shortest, UsageError } from './usage';

/** `temperbook review <log file> --alloy A356-T6 --out folder …`; of many logs, `reviewMany` */
export async function review(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      alloy: { type: 'string' },
      temper: { type: 'string' },
      out: { type: 'string' },
      loss: { type: 'string' },
      limit: { type: 'string' },
      attached: { type: 'string' },
      probe: { type: 'string', multiple: true, default: [] },
      reading: { type: 'string', multiple: true, default: [] },
      job: { type: 'string', multiple: true, default: [] },
      read: { type: 'string', default: '{}' },
    },
  });
  const outFolder = required(values.out, '--out <folder>');
  if (positionals.length > 1 || positionals.some(isFolder))
    return reviewMany(positionals, outFolder, optionsAsGiven(values));
  const path = onlyOne(positionals, 'the log file to review');
  const { card, temper } = namedMetal(required(values.alloy, '--alloy <metal>'), values.temper);
  const options: JudgeOptions = {
    alloy: card,
    temper,
    allowanceFraction: values.loss === undefined ? undefined : fractionOf(values.loss),
    limitC: values.limit === undefined ? undefined : celsiusOf(values.limit),
    // `judge` knows the ways of attaching, and names them when it is given another.
    attachment: values.attached as JudgeOptions['attachment'],
    byChannel: Object.fromEntries(values.probe.map(probeOf)),
    ...(values.reading.length > 0 ? { readings: values.reading.map(readingOf) } : {}),
  };
  const job = Object.fromEntries(values.job.map((line) => keyValue('--job', line)));
  const reading = shareLine('Reading the log');
  const { log, same } = await settledLog(
    path,
    { ...readOptionsOf(values.read), onProgress: reading.tell },
    options,
  );
  reading.end();
  const judging = shareLine('Judging');
  const verdict = judge(log, { ...options, onProgress: judging.tell });
  judging.end();
  const record = writeRecord(buildRecord({ verdict, log, job }), outFolder);

  process.stdout.write(`${verdict.sentence}\n\n${tableText(tableOf(verdictRows(verdict)))}\n\n`);
  for (const note of same) process.stdout.write(`${note}\n`);
  for (const line of [...(verdict.readings?.because ?? []), ...(verdict.readings?.contradicting ?? [])])
    process.stdout.write(`${line}\n`);
  const hidden = hiddenRows(verdict).map((row) => `${row.Probe}, ${row.When}: ${Object.values(row)[2]}\n`);
  if (hidden.length > 0) process.stdout.write(`Heat may be hidden\n${hidden.join('')}\n`);
  const which = record.isNew
    ? record.edition > 1
      ? `, edition ${record.edition}`
      : ''
    : ', as it stood there already';
  process.stdout.write(`Record  ${shortest(record.html)}${which}\nData    ${shortest(record.json)}\n`);
  process.send?.({
    verdict: VERDICT_IN_WORDS[verdict.verdict],
    chance: verdict.chanceKept === null ? 'not known' : formatChance(verdict.chanceKept),
    record: shortest(record.html),
  } satisfies ReviewedLog);
}

/** The options of the command line again, but for the place of the records. */
function optionsAsGiven(values: Readonly<Record<string, string | readonly string[] | undefined>>): string[] {
  return Object.entries(values)
    .filter(([name]) => name !== 'out')
    .flatMap(([name, value]) => [value ?? []].flat().flatMap((one) => [`--${name}`, one]));
}

function celsiusOf(temperature: string): number {
  const [, number, unit] = /^(-?\d+(?:\.\d+)?) ?°?([CF])$/i.exec(temperature) ?? [];
  if (number === undefined || unit === undefined) {
    throw new UsageError(
      `--limit takes a temperature with its unit, such as 440F or 227C, not "${temperature}"`,
    );
  }
  return unit.toUpperCase() === 'F' ? fahrenheitToCelsius(Number(number)) : Number(number);
}

function probeOf(text: string): [name: string, options: ChannelOptions] {
  const [name, material] = keyValue('--probe', text);
  return [name, parseMetal(material)];
}
