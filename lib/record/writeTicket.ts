import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { type RecoveryTicket, ticketHtml } from '../heattreat';
import { writeWhole } from '../report';

/**
 * Writes a ticket for the heat treater as a page of HTML and gives its path.
 * @throws TemperbookError when the file cannot be written.
 */
export function writeTicket(ticket: RecoveryTicket, path: string): string {
  mkdirSync(dirname(path), { recursive: true });
  writeWhole(path, (unfinished) => writeFileSync(unfinished, ticketHtml(ticket)));
  return path;
}
