import { TemperbookError } from '../../quantity';
import type { Reading } from '../reading';
import type { ColumnSample } from './columnSample';

const LEAST_ROWS = 8;
const MOST_CHANNELS = 64;
/** Rows that name another channel than the row before; a column of states changes more seldom. */
const CHANGES_SHARE = 0.4;
const CHANNEL_NAME =
  /^(?:ch(?:an(?:nel)?)?|kanal|canal|voie|sensor|probe|fühler|input|tag|name|signal|source|location|point|variable)\b/i;

/**
 * Refuses a file that has one reading to a row and the channel's name beside it: read as one channel, it would
 * jump from probe to probe.
 * @throws TemperbookError on such a file.
 */
export function refuseLongFile(
  samples: readonly ColumnSample[],
  clock: ColumnSample | undefined,
  { file }: Reading,
): void {
  const values = samples.filter((s) => s !== clock && s.kind === 'number');
  const named = samples.find((sample) => sample !== clock && namesChannels(sample));
  if (!named || values.filter((s) => s !== named).length !== 1) return;
  const names = [...new Set(named.texts.filter((text) => text !== ''))];
  throw new TemperbookError('The file has one reading to a row, with the name of its channel beside it', {
    file,
    column: named.column.name,
    found: names
      .slice(0, 4)
      .map((name) => `"${name}"`)
      .join(', '),
    expected: 'one row for each time, and a column for each channel',
    remedy: 'Export the log as a table with a column for each channel, or as one file for each channel',
  });
}

function namesChannels({ column, kind, texts, numbers }: ColumnSample): boolean {
  const filled = texts.filter((text) => text !== '').slice(0, 120);
  const distinct = new Set(filled);
  if (filled.length < LEAST_ROWS || distinct.size < 2 || distinct.size > MOST_CHANNELS) return false;
  const isName =
    kind === 'text' ||
    (CHANNEL_NAME.test(column.stem) &&
      column.unit === undefined &&
      numbers.every((n) => Number.isInteger(n)));
  if (!isName || filled.length < 3 * distinct.size) return false;
  let changes = 0;
  for (let i = 1; i < filled.length; i++) if (filled[i] !== filled[i - 1]) changes++;
  if (changes < CHANGES_SHARE * filled.length) return false;
  // Channels come round in turn.
  const turn = distinct.size;
  let again = 0;
  for (let i = turn; i < filled.length; i++) if (filled[i] === filled[i - turn]) again++;
  return again >= 0.8 * (filled.length - turn);
}
