import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import type * as Kit from '../../lib';

// Threads run the built package.
const {
  histories: { isothermal },
  kinetics: { advanceMany },
  precipitateModel,
}: typeof Kit = createRequire(__filename)('../..');

describe('many histories on threads', () => {
  const histories = [150, 200, 250, 300, 350].map((tempC) => isothermal(tempC, 3600));

  it('gives what one after the other gives, in their order', async () => {
    const model = precipitateModel('6061');
    const alone = histories.map((history) => model.advance(model.start('T6'), history).yieldMPa.at(-1));
    const ends = await advanceMany('6061', 'T6', histories, { threads: 2 });
    expect(ends.map(({ yieldMPa }) => yieldMPa)).toEqual(alone);
  });

  it('tells how many are done', async () => {
    const told: number[] = [];
    await advanceMany('6061', 'T6', histories, { onProgress: (done) => told.push(done) });
    expect(told).toEqual([1, 2, 3, 4, 5]);
  });

  it('names the history that cannot be advanced', async () => {
    const broken = { timeS: Float64Array.of(0, 0), tempC: Float64Array.of(20, 20) };
    await expect(advanceMany('6061', 'T6', [histories[0]!, broken])).rejects.toThrow(/History 1/);
  });
});

describe('a batch that cannot go on', () => {
  const history = isothermal(200, 3600);

  it('refuses no threads at all', async () => {
    for (const threads of [0, -1, Number.NaN])
      await expect(advanceMany('6061', 'T6', [history], { threads })).rejects.toThrow(/number of threads/);
  });

  it('ends with what the caller throws', async () => {
    const onProgress = () => {
      throw new Error('stop here');
    };
    await expect(advanceMany('6061', 'T6', [history, history], { onProgress })).rejects.toThrow('stop here');
  });
});
