import { TemperbookError } from '../quantity';
import { auditFolder } from '../record';
import { onlyOne, shortest } from './usage';

/** `temperbook audit <folder>` */
export async function audit(args: string[]): Promise<void> {
  const folder = onlyOne(args, 'the folder of records');
  const { records, editions, findings } = auditFolder(folder);
  const looked = `${counted(records, 'record')}, ${counted(editions, 'edition')}`;
  for (const { file, problem } of findings) process.stdout.write(`${shortest(file)}\n  ${problem}\n`);
  if (findings.length > 0)
    throw new TemperbookError(`${looked}: ${counted(findings.length, 'thing')} wrong, named above`, {
      ...(findings.some(({ fileIsSound }) => !fileIsSound)
        ? { remedy: 'Bring files that were changed or taken away back from a copy' }
        : {}),
    });
  process.stdout.write(
    `${looked}: whole, and as they were written. That the last edition or a whole record was taken away does not show.\n`,
  );
}

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;
