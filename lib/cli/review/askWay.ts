import { createInterface } from 'node:readline/promises';
import type { ReadOptions, UndecidedReading } from '../../log';
import { TemperbookError } from '../../quantity';

/** Asks which way a file is meant, each with the word it leads to; asks again until one is chosen. */
export async function askWay(
  { file, reading, ways }: UndecidedReading,
  input: NodeJS.ReadableStream = process.stdin,
  output: NodeJS.WritableStream = process.stderr,
): Promise<ReadOptions> {
  const lines = ways.map(({ words, verdicts }, k) => `  ${k + 1}  ${words}: ${verdicts.join(', or ')}`);
  output.write(`${file}: ${reading.because} The word hangs on it.\n${lines.join('\n')}\n`);
  const terminal = createInterface({ input, output });
  const ended = new Promise<never>((_, reject) => {
    terminal.once('close', () =>
      reject(
        new TemperbookError('Nobody said how the file is meant', { file, remedy: 'Answer, or give --read' }),
      ),
    );
  });
  try {
    for (;;) {
      const answer = await Promise.race([terminal.question(`Which is it? 1 to ${ways.length}: `), ended]);
      const way = /^[1-9]$/.test(answer.trim()) ? ways[Number(answer) - 1] : undefined;
      if (way) return way.options;
    }
  } finally {
    ended.catch(() => undefined);
    terminal.close();
  }
}
