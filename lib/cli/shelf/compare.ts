import { basename, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { judge } from '../../decision';
import { type PlatePlan, solvePlate } from '../../heatflow';
import { jobOptions, readJob, reviewJob } from '../../job';
import { readUserJson, TemperbookError } from '../../quantity';
import {
  ANY_FORM,
  compareRows,
  compareWelds,
  namesOfComparison,
  readRecord,
  readShelf,
  type Weld,
  weldOfRecord,
  weldOfVerdict,
  writeComparison,
} from '../../record';
import { REVIEW_OPTIONS } from '../review';
import { jobOfOptions, type ReviewValues } from '../review/jobOfOptions';
import { keepNames, say, shownTable, unitsShown } from '../say';
import { shortest, UsageError } from '../usage';

/** `temperbook compare a b … --alloy A356.0 --temper T6 --shelf folder --last 10 --out page.html` */
export async function compare(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      ...REVIEW_OPTIONS,
      last: { type: 'string' },
      shelf: { type: 'string' },
    },
  });
  if (positionals.length + (values.shelf ? 1 : 0) < 2)
    throw new UsageError(
      'compare takes two or more logs, jobs, plans or records, or one and --shelf <folder>',
    );
  const most = numberOf(values.last ?? '10');
  const welds: Weld[] = [];
  for (const path of positionals) welds.push(await weldOf(path, values));
  if (values.shelf !== undefined) welds.push(...lastOn(values.shelf, positionals, most, welds[0]!));
  const comparison = compareWelds(apart(welds));
  keepNames(namesOfComparison(comparison));
  for (const place of comparison.places) say(`${shownTable(compareRows(place))}\n`);
  for (const line of comparison.leftOut) say(`Not compared: ${line}`);
  if (values.out !== undefined)
    process.stdout.write(`Page  ${shortest(writeComparison(comparison, values.out, unitsShown()))}\n`);
}

/** A record by its form, a job by its keys, a plan where it is any other JSON file, else a log; the last two judged by the options given. */
async function weldOf(path: string, values: ReviewValues): Promise<Weld> {
  const name = basename(path).replace(/\.[^.]*$/, '');
  const json = /\.json$/i.test(path)
    ? (readUserJson(path, 'This file') as Readonly<Record<string, unknown>>)
    : undefined;
  if (String(json?.form).startsWith(ANY_FORM)) return weldOfRecord(name, readRecord(path));
  if (json?.log !== undefined || json?.heats !== undefined) {
    const { job, verdict } = reviewJob(readJob(path));
    return weldOfVerdict(job.said.job ?? name, verdict);
  }
  const job = readJob(jobOfOptions(path, values));
  if (json === undefined) return weldOfVerdict(name, reviewJob(job).verdict);
  const { probes } = solvePlate(json as unknown as PlatePlan);
  const { byChannel = {}, readings: _, ...common } = jobOptions(job, { channels: probes });
  // A probe of whose metal nobody spoke, or that sits in the air, is no place to compare.
  const onPart = probes.filter(({ name: probe }) => (byChannel[probe]?.role ?? 'part') === 'part');
  const places = onPart.map(({ name: probe, history }) => ({
    ...judge(history, { ...common, ...byChannel[probe] }).channels[0]!,
    name: probe,
  }));
  return { name, ...(common.lots ? { lots: common.lots } : {}), places };
}

/** The newest parts of a shelf that are not among those given and share a place with the first of them, newest first. */
function lastOn(folder: string, given: readonly string[], most: number, first: Weld): Weld[] {
  const own = new Set(given.map((path) => resolve(path)));
  const names = first.places.map(({ name }) => name);
  const others = readShelf(folder).parts.filter(
    ({ editions }) => !editions.some(({ file }) => own.has(resolve(folder, file))),
  );
  const alike = others.filter(({ newest }) => newest.places.some(({ name }) => names.includes(name)));
  if (alike.length === 0)
    throw new TemperbookError(`No part on the shelf was measured where ${first.name} was`, {
      file: folder,
      found: `${others.length} other ${others.length === 1 ? 'part' : 'parts'}`,
      expected: `a probe called ${names.map((name) => `"${name}"`).join(' or ')}`,
      remedy: 'Give probes at the same place of the same part the same name from weld to weld',
    });
  if (alike.length < others.length)
    say(`${others.length - alike.length} of the shelf share no place with ${first.name} and are left out.\n`);
  return alike
    .slice(0, most)
    .map(({ newest }) => weldOfRecord(newest.name, readRecord(resolve(folder, newest.file))));
}

/** Welds of one name are told apart by their number. */
const apart = (welds: readonly Weld[]): Weld[] =>
  welds.map((weld, k) => {
    const before = welds.slice(0, k).filter(({ name }) => name === weld.name).length;
    return before === 0 ? weld : { ...weld, name: `${weld.name} (${before + 1})` };
  });

function numberOf(text: string): number {
  if (/^[1-9]\d*$/.test(text)) return Number(text);
  throw new UsageError(`--last takes a number of welds such as 10, not "${text}"`);
}
