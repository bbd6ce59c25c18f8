import { basename, join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { formatChance, TemperbookError } from '../../quantity';
import {
  changedSince,
  judgeAgain,
  namesOnShelf,
  readRecord,
  readShelf,
  type ShelfEntry,
  type ShelfFilter,
  type SinceThen,
  selectParts,
  shelfRow,
  writeShelf,
} from '../../record';
import { keepNames, shownTable, unitsShown } from '../say';
import { shareLine } from '../shareLine';
import { onlyOne, shortest } from '../usage';

/** `temperbook parts <folder> --alloy A356.0 --word uncertain --part HB --from day --to day --undecided --again --out page.html` */
export async function parts(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      alloy: { type: 'string' },
      word: { type: 'string' },
      part: { type: 'string' },
      from: { type: 'string' },
      to: { type: 'string' },
      undecided: { type: 'boolean' },
      again: { type: 'boolean', default: false },
      out: { type: 'string' },
    },
  });
  const folder = onlyOne(positionals, 'the folder of records');
  const { again, out, ...filter } = values;
  const reading = shareLine('Reading records');
  const shelf = readShelf(folder, reading.tell);
  reading.end();
  const { parts: chosen, undated } = selectParts(shelf.parts, filter as ShelfFilter);
  const since = sinceThen(
    chosen.map(({ newest }) => newest),
    folder,
    again,
  );

  keepNames(namesOnShelf(chosen));
  const rows = chosen.map((part) => shelfRow(part, since.get(part.newest.file)));
  if (rows.length > 0) process.stdout.write(`${shownTable(rows)}\n\n`);
  for (const { file, problem } of shelf.problems)
    process.stdout.write(`${shortest(join(folder, file))}\n  ${problem}\n`);
  if (shelf.problems.some(({ fileIsSound }) => !fileIsSound))
    process.stdout.write(
      'Files that were changed or damaged stand for no part: bring them back from a copy.\n',
    );
  if (shelf.problems.length > 0) process.stdout.write('\n');
  const of = chosen.length < shelf.parts.length ? ` of ${shelf.parts.length}` : '';
  const told = [
    `${chosen.length}${of} part${shelf.parts.length === 1 ? '' : 's'}`,
    ...(shelf.problems.length > 0
      ? [
          `${shelf.problems.length} thing${shelf.problems.length === 1 ? '' : 's'} to be looked at, named above`,
        ]
      : []),
    ...(undated > 0 ? [`${undated} left out because their records have no date`] : []),
    ...(shelf.otherFiles > 0
      ? [
          shelf.otherFiles === 1
            ? '1 other .json file, which is no record'
            : `${shelf.otherFiles} other .json files, which are no records`,
        ]
      : []),
  ];
  process.stdout.write(`${told.join('; ')}.\n`);
  if (shelf.notNoted !== undefined)
    process.stdout.write(`The next look reads all records again: ${shelf.notNoted}\n`);
  if (out === undefined) return;
  const asked = Object.entries(filter).map(([name, value]) => (value === true ? name : `${name} ${value}`));
  const page = writeShelf(
    {
      title: basename(resolve(folder)),
      shelf,
      parts: chosen,
      since,
      ...(asked.length > 0 ? { chosen: asked.join(', ') } : {}),
    },
    out,
    unitsShown(),
  );
  process.stdout.write(`Page  ${shortest(page)}\n`);
}

/** By file, for every decision: what changed since, and on `again` what it would say today. */
function sinceThen(entries: readonly ShelfEntry[], folder: string, again: boolean): Map<string, SinceThen> {
  const decided = entries.filter(({ decision }) => decision);
  const judging = shareLine('Judging again');
  const startMs = Date.now();
  const since = new Map(
    decided.map((entry, k): [string, SinceThen] => {
      const changed = changedSince(entry);
      if (!again || changed.length === 0) return [entry.file, { changed }];
      if (Date.now() - startMs > 2000) judging.tell(k / decided.length);
      return [entry.file, { changed, today: wouldSay(join(folder, entry.file)) }];
    }),
  );
  judging.end();
  return since;
}

function wouldSay(file: string): string {
  try {
    const record = readRecord(file);
    const { verdict, chanceKept } = judgeAgain(record, {});
    const chance = (one: number | null): string => (one === null ? 'not known' : formatChance(one));
    const same = verdict === record.verdict.verdict ? 'still ' : 'now ';
    return `${same}${verdict}, chance ${chance(chanceKept)} (then ${chance(record.verdict.chanceKept)})`;
  } catch (error) {
    if (error instanceof TemperbookError) return error.message.replace(/\s*\n\s*/g, ' ');
    throw error;
  }
}
