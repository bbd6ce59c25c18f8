import { dirname, resolve } from 'node:path';
import { NOTHING_SAID } from '../decision';
import { readUserJson, refuseProblems, TemperbookError } from '../quantity';
import { ANY_FORM, type JobSheet, readRecord, sheetOfPart } from '../record';
import { wholeChart } from './chartOfJob';
import { type FileOf, schedulePath } from './fileToRead';
import { checkOfProbes } from './heats/checkOfProbes';
import type { Job } from './job';
import type { JobFile, SaidLot, SaidRecovery } from './jobFile';
import { jobMetal } from './jobMetal';
import { jobProblems, pathOf, planOf } from './jobProblems';
import { NO_DEFAULTS, readDefaults } from './readDefaults';

/** What `readJob` may be told. */
export interface ReadJobOptions {
  /** The logger has not begun its file: the job may name one that is not there. */
  readonly isLogToCome?: boolean;
}

/**
 * Reads a job: everything that one part, its log and its decision need, in one JSON file (`jobSchema`), or as an object of
 * the same form. Comments are welcome in the file. Its paths start at its own folder, those of an object where the
 * program runs.
 * @throws TemperbookError that lists everything wrong with it at once, with what was probably meant; for a file that is cut
 * short or no JSON it names the row.
 */
export function readJob(pathOrObject: string | JobFile, { isLogToCome = false }: ReadJobOptions = {}): Job {
  const file = typeof pathOrObject === 'string' ? resolve(pathOrObject) : undefined;
  const data = file === undefined ? pathOrObject : readUserJson(file, 'The job file');
  const folder = file === undefined ? process.cwd() : dirname(file);
  refuseRecord(data, file);
  const problems = jobProblems(data, folder, isLogToCome);
  refuseProblems(file === undefined ? 'This job' : 'The job file', problems, { file });
  const said = data as JobFile;
  const { metal, probes = {}, plan, earlier = [], lot, check } = said;
  const shop = said.defaults === undefined ? NO_DEFAULTS : readDefaults(resolve(folder, said.defaults));
  return {
    ...(file === undefined ? {} : { file }),
    folder,
    said,
    ...(said.log === undefined
      ? {}
      : { log: { file: resolve(folder, pathOf(said.log)), read: readOf(said.log) } }),
    metal: metal === undefined ? shop.metal : jobMetal(metal, folder),
    measuring: { ...shop.measuring, ...said.measuring },
    limits: { ...shop.limits, ...said.limits },
    probes: Object.fromEntries(
      Object.entries(probes).map(([name, { metal: own, ...probe }]) => [
        name,
        { ...probe, ...(own === undefined ? {} : { metal: jobMetal(own, folder) }) },
      ]),
    ),
    named: shop.named,
    ...(lot === undefined ? {} : { lot: wholeLot(lot, folder) }),
    ...(plan === undefined ? {} : { plan: planOf(plan, folder) }),
    recovery: wholeRecovery(said.recovery ?? {}, folder),
    ...(check === undefined ? {} : { check: checkOfProbes(check, folder) }),
    ...(typeof said.sheet?.thicknessMm === 'number' ? { wallMm: said.sheet.thicknessMm } : {}),
    earlier: earlier.map(({ record, ...rest }) => ({ record: readRecord(resolve(folder, record)), ...rest })),
    sheet: sheetOf(said),
  };
}

function refuseRecord(data: unknown, file: string | undefined): void {
  const { form } = Object(data) as { readonly form?: unknown };
  if (!String(form).startsWith(ANY_FORM)) return;
  throw new TemperbookError('This is a decision record, not a job file', {
    file,
    found: `"${form}"`,
    remedy: 'Add to it with temperbook amend, or review the job file or the log that it was made from',
  });
}

const readOf = (said: FileOf) => (typeof said === 'string' ? {} : (said.read ?? {}));

function wholeLot({ chart, cards, ...rest }: SaidLot, folder: string): SaidLot {
  return {
    ...rest,
    ...(chart === undefined
      ? {}
      : {
          chart: wholeChart(chart, folder),
        }),
    ...(cards === undefined ? {} : { cards: cards.map((card) => resolve(folder, card)) }),
  };
}

function wholeRecovery({ schedule, wroughtSchedule, ...rest }: SaidRecovery, folder: string): SaidRecovery {
  return {
    ...rest,
    ...(schedule === undefined ? {} : { schedule: schedulePath(schedule, folder) }),
    ...(wroughtSchedule === undefined ? {} : { wroughtSchedule: schedulePath(wroughtSchedule, folder) }),
  };
}

/** The lines of the record that the job says, the places of the probes among them. */
function sheetOf({ job, part = {}, probes = {}, sheet = {}, recovery = {} }: JobFile): JobSheet {
  const { schedule: _, wroughtSchedule: __, fittings, ...known } = recovery;
  const places = Object.entries(probes).flatMap(([name, { placeMm, placeFrom }]) =>
    placeMm === undefined ? [] : [`${name}: ${placeMm} mm from the ${placeFrom}`],
  );
  return {
    ...(job ? { job } : {}),
    ...(part.name ? { part: part.name } : {}),
    ...(part.number ? { partNumber: part.number } : {}),
    ...(part.serial ? { serial: part.serial } : {}),
    ...(places.length > 0 ? { probes: places.join('; ') } : {}),
    ...sheet,
    ...sheetOfPart({
      ...known,
      ...(fittings === undefined ? {} : { fittings: { ...NOTHING_SAID, ...fittings } }),
    }),
  };
}
