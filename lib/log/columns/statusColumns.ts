import { lineAt, splitFields } from '../bytes/lines';
import type { LogText } from '../bytes/logText';
import type { ChannelData } from '../faults/channelData';
import { codeOf, TRUSTED } from '../faults/faultCodes';
import type { LogTable } from '../rows/logTable';
import type { ColumnSample } from './columnSample';

/** A column that says of each row whether its readings hold. */
export interface StatusColumn {
  readonly name: string;
  readonly index: number;
  /** Indices of the channels it speaks of. */
  readonly channels: readonly number[];
}

/** Names of columns that hold the state of readings. */
export const STATUS =
  /(?:^|[^a-z])(?:stat(?:us|e)|quality|valid\w*|good|health|qualit(?:ät|é)|gültig)(?:[^a-z]|$)/i;
const DOES_NOT_HOLD =
  /(?:^|[^a-z])(?:hold(?:ing)?|held|bad|invalid|not valid|open|fault\w*|fail\w*|err(?:or)?|burn-?out|over-?range|stale|sim(?:ulat\w*)?|substitut\w*|frozen|lost|no (?:signal|comm\w*)|comm\w* (?:loss|fail\w*)|disconnected|offline)(?:[^a-z]|$)/i;
/** 0 in a column of 0 and 1 that is named for what is good. */
const SAYS_NO = /^(?:0|no|n|false|nein|non)$/i;
const YES_OR_NO = /(?:^|[^a-z])(?:valid\w*|good|gültig)(?:[^a-z]|$)/i;
const ERROR_TOKEN = codeOf('error token');

/** Columns named for the state of readings; each speaks of the channel it names, else of the one before it, else of all. */
export function statusColumns(
  aside: readonly ColumnSample[],
  channels: readonly { readonly index: number; readonly stem: string }[],
): StatusColumn[] {
  const found = aside.filter(
    ({ column, kind }) => column.named && kind !== 'empty' && STATUS.test(column.name),
  );
  const all = channels.map((_, k) => k);
  return found.map(({ column: { name, index } }) => {
    const named = all.filter((k) => name.toLowerCase().includes(channels[k]!.stem.toLowerCase()));
    const before = found.length > 1 ? all.filter((k) => channels[k]!.index === index - 1) : [];
    return { name, index, channels: named.length > 0 ? named : before.length > 0 ? before : all };
  });
}

/** Marks readings of which the file itself says, in a column of its own, that they do not hold. */
export function markByStatus(
  columns: readonly StatusColumn[],
  channels: readonly ChannelData[],
  { offset, length, blocks }: LogTable,
  text: LogText,
  delimiter: string,
): void {
  if (columns.length === 0) return;
  // In a block whose columns stand otherwise the column is not looked for.
  const end = blocks.find(({ fields }) => fields !== blocks[0]!.fields)?.at ?? length;
  for (let i = 0; i < end; i++) {
    const line = lineAt(text, offset[i]!, 0);
    const fields = splitFields(text.decode(line.from, line.to), delimiter);
    for (const { name, index, channels: own } of columns) {
      const says = fields[index] ?? '';
      if (!DOES_NOT_HOLD.test(says) && !(SAYS_NO.test(says) && YES_OR_NO.test(name))) continue;
      for (const k of own) {
        const { marks, remarks } = channels[k]!;
        if (marks[i] !== TRUSTED) continue;
        marks[i] = ERROR_TOKEN;
        remarks.set(
          'error token',
          `the file's own column "${name}" says "${says}" there: the reading does not hold`,
        );
      }
    }
  }
}
