import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { TemperbookError } from '../quantity';
import { writeNew } from '../report';

/** The kit's own folder, seen alike from lib/ and from dist/. */
const KIT = path.join(__dirname, '../..');
const NOTEBOOK = '01-what-did-this-weld-do.ipynb';
/** What the starter notebook says otherwise than the kit's: its job and its records are beside it. */
const STARTS_HERE: readonly (readonly [string, string])[] = [
  ['../data/demo/mast-foot-job.json', './job.json'],
  ["'../out'", "'./'"],
];

/** Name of the file of a shop's defaults, by which `temperbook review` finds it beside a log. */
export const DEFAULTS_FILE = 'shop-defaults.json';

/**
 * Makes a folder that runs at once: a job file with comments, an invented log and the plan of its weld, the shop's defaults,
 * a notebook, and the schemas by which an editor completes both files.
 * @returns the names of what it made.
 * @throws TemperbookError for a folder that holds anything, and where nothing can be written.
 */
export function newJobFolder(folder: string): readonly string[] {
  openEmpty(folder);
  const kit = (file: string): string => readFileSync(path.join(KIT, file), 'utf8');
  const files: readonly (readonly [string, string])[] = [
    ['job.json', kit('data/new/job.json')],
    [DEFAULTS_FILE, kit(`data/new/${DEFAULTS_FILE}`)],
    ['weld.csv', kit('data/demo/mast-foot-weld.csv')],
    ['weld-plan.json', kit('data/demo/mast-foot-plan.json')],
    [NOTEBOOK, STARTS_HERE.reduce((text, [was, is]) => text.replace(was, is), kit(`notebooks/${NOTEBOOK}`))],
    ['job.schema.json', kit('data/schemas/job.schema.json')],
    ['shop-defaults.schema.json', kit('data/schemas/shop-defaults.schema.json')],
  ];
  for (const [name, text] of files) writeNew(path.join(folder, name), text);
  linkKit(folder);
  return files.map(([name]) => name);
}

function openEmpty(folder: string): void {
  let inside: string[];
  try {
    mkdirSync(folder, { recursive: true });
    inside = readdirSync(folder);
  } catch (error) {
    throw new TemperbookError('The folder cannot be made', {
      file: folder,
      found: error instanceof Error ? error.message : String(error),
      remedy: 'Choose a place you may write to',
    });
  }
  if (inside.length > 0)
    throw new TemperbookError('The folder is not empty, so nothing was put into it', {
      file: folder,
      found: inside.slice(0, 5).join(', '),
      expected: 'a folder that is not there yet, or holds nothing',
    });
}

/** Where no installed kit can be seen from the folder, its notebook sees this one. */
function linkKit(folder: string): void {
  const from = createRequire(path.join(path.resolve(folder), 'any.js'));
  const isSeen = (from.resolve.paths('temperbook') ?? []).some((at) =>
    existsSync(path.join(at, 'temperbook', 'package.json')),
  );
  if (isSeen) return;
  mkdirSync(path.join(folder, 'node_modules'));
  symlinkSync(KIT, path.join(folder, 'node_modules', 'temperbook'), 'junction');
}
