import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { type RecoveryTicket, ticketHtml } from '../heattreat';
import type { Units } from '../quantity';
import { writeWhole } from '../report';

/**
 * Writes a ticket for the heat treater as a page of HTML, which shows `units`, and gives its path.
 * @throws TemperbookError when the file cannot be written.
 */
export function writeTicket(ticket: RecoveryTicket, path: string, units: Units = 'metric'): string {
  const page = ticketHtml(ticket, units);
  mkdirSync(dirname(path), { recursive: true });
  writeWhole(path, (unfinished) => writeFileSync(unfinished, page));
  return path;
}
