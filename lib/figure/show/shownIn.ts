import { inUsUnits, TemperbookError, type Units } from '../../quantity';
import { type TableRow, tableInUsUnits, tableOf } from '../../report';
import type { Figure } from '../figure';
import { figureInUsUnits } from './figureInUsUnits';
import { show } from './show';
import { displayTable } from './showTable';

/** What shows texts, tables and figures in the units that were asked for. */
export interface Shown {
  /** Prints texts, each on lines of its own. */
  say(...texts: readonly string[]): void;
  show(figure: Figure): void;
  showTable(rows: readonly TableRow[], columns?: readonly string[]): void;
}

/**
 * How a notebook shows what it found: °C, mm and MPa first, or °F, in and ksi with those beside them. Results stay in s,
 * °C, mm and MPa either way. A length in a name that people gave is part of the name and stays as it is: pass what holds
 * those names (a job, a log, a plan).
 * @throws TemperbookError for units it does not know.
 */
export function shownIn(units: Units, ...named: readonly unknown[]): Shown {
  if (units !== 'metric' && units !== 'us')
    throw new TemperbookError('units that the kit does not show', {
      found: `"${units}"`,
      expected: 'metric or us',
    });
  const us = units === 'us';
  const names = us ? named.flatMap((one) => namesGiven(one)) : [];
  return {
    say: (...texts) => {
      for (const text of texts) process.stdout.write(`${us ? inUsUnits(text, names) : text}\n`);
    },
    show: (figure) => show(us ? figureInUsUnits(figure, names) : figure),
    showTable: (rows, columns) => {
      const table = tableOf(rows, columns);
      displayTable(us ? tableInUsUnits(table, names) : table);
    },
  };
}

/** Every `name` within, and every key and text of what a job file says. */
function namesGiven(value: unknown, isGiven = false): string[] {
  if (typeof value === 'string') return isGiven ? [value] : [];
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return [];
  return Object.entries(value).flatMap(([key, part]) => [
    ...(isGiven ? [key] : []),
    ...namesGiven(part, isGiven || key === 'name' || key === 'said'),
  ]);
}
