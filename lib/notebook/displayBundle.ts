import type { MimeBundle } from './notebookFile';

/**
 * Displays one thing in several MIME types, of which the front end picks the richest it knows. Outside a
 * notebook its text is printed. tslab's own `display` sends one type only; this calls what that calls.
 */
export function displayBundle(data: MimeBundle): void {
  const { lastWriteDisplayData: write } = require('tslab/dist/jupyter');
  if (write) write({ data, metadata: {}, transient: {} }, false);
  else process.stdout.write(`${data['text/plain']}\n`);
}
