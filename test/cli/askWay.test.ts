import { PassThrough } from 'node:stream';
import { expect, it } from 'vitest';
import { askWay } from '../../dist/cli/review/askWay';
import type { UndecidedReading } from '../../dist/log';

const OPEN: UndecidedReading = {
  file: 'bare.csv',
  reading: {
    of: 'clock',
    option: 'clock.format',
    because: 'Nothing says in which unit the clock counts.',
    taken: { words: 'minutes (15 min long)', options: { clock: { format: 'min' } } },
    other: [{ words: 'hours (15 h long)', options: { clock: { format: 'h' } } }],
  },
  ways: [
    { words: 'minutes (15 min long)', options: { clock: { format: 'min' } }, verdicts: ['temper kept'] },
    { words: 'hours (15 h long)', options: { clock: { format: 'h' } }, verdicts: ['temper lost'] },
  ],
};

it('asks with both ways and their words, again after an answer that is neither', async () => {
  const [input, output] = [new PassThrough(), new PassThrough()];
  const answer = askWay(OPEN, input, output);
  input.write('yes\n');
  setTimeout(() => input.write('2\n'), 20);
  expect(await answer).toEqual({ clock: { format: 'h' } });
  const asked = String(output.read());
  expect(asked).toContain('  1  minutes (15 min long): temper kept\n  2  hours (15 h long): temper lost\n');
  expect(asked.match(/Which is it\? 1 to 2/g)).toHaveLength(2);
});

it('says so when nobody answers', async () => {
  const input = new PassThrough();
  const answer = askWay(OPEN, input, new PassThrough());
  input.end();
  await expect(answer).rejects.toThrow(/bare\.csv: Nobody said.*--read/s);
});
