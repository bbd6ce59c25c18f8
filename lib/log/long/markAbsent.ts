import { ABSENT, codeOf } from '../faults/faultCodes';
import type { LogTable } from '../rows/logTable';
import type { ReadPlan } from '../rows/rowLayout';
import type { PivotedText } from './pivotText';

const MISSING = codeOf('missing field');

/** Where a long file has no line for a channel no reading was due; lines that could not be placed are rejected ones. */
export function markAbsent(
  table: LogTable,
  { channels }: ReadPlan,
  { rejects, isEmptyLine }: PivotedText,
): void {
  for (const reject of rejects) table.reject(reject);
  channels.forEach(({ index }, k) => {
    const marks = table.marks[k]!;
    for (let i = 0; i < table.length; i++)
      if (marks[i] === MISSING && !isEmptyLine(index, table.row[i]!)) marks[i] = ABSENT;
  });
}
