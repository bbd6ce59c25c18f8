import { type Figure, figureInUsUnits, tableText } from '../figure';
import { inUsUnits, type Units } from '../quantity';
import { type TableRow, tableInUsUnits, tableOf } from '../report';
import { UsageError } from './usage';

/** Commands that show quantities the kit worked out; the others write data, or pages that others wrote. */
const WITH_UNITS = ['amend', 'chart', 'compare', 'heat', 'parts', 'review', 'run', 'size', 'watch'];

/** How this run of the command line shows quantities, and the names that people gave in what it tells of. */
let units: Units = 'metric';
const names = new Set<string>();

/** The units this run of the command line shows. */
export const unitsShown = (): Units => units;

/** Takes `--units us` or `--units metric` off the arguments of a command; each command begins anew. */
export function takeUnits(command: string, args: readonly string[]): string[] {
  units = 'metric';
  names.clear();
  const at = args.findIndex((arg) => /^--units(=|$)/.test(arg));
  if (at < 0) return [...args];
  const [, inOne] = args[at]!.split('=');
  const said = inOne ?? args[at + 1];
  if (said !== 'us' && said !== 'metric')
    throw new UsageError(`--units takes us or metric, not "${said ?? ''}"`);
  if (!WITH_UNITS.includes(command))
    throw new UsageError(`--units has no place here: it is for ${WITH_UNITS.join(', ')}`);
  units = said;
  return args.filter((_, i) => i !== at && (inOne !== undefined || i !== at + 1));
}

/** What a name says of a length belongs to the name: it is shown as it was given. */
export function keepNames(more: Iterable<string | undefined>): void {
  for (const name of more) if (name !== undefined) names.add(name);
}

/** A text in the units of this run. */
export const shown = (text: string): string => (units === 'us' ? inUsUnits(text, [...names]) : text);

/** Prints a text in the units of this run. */
export function say(text: string): void {
  process.stdout.write(`${shown(text)}\n`);
}

/** A figure in the units of this run. */
export const shownFigure = (figure: Figure): Figure =>
  units === 'us' ? figureInUsUnits(figure, [...names]) : figure;

/** Rows as a table in the units of this run. */
export function shownTable(rows: readonly TableRow[]): string {
  const table = tableOf(rows);
  return tableText(units === 'us' ? tableInUsUnits(table, [...names]) : table);
}
