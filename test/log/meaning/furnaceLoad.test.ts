import { describe, expect, it } from 'vitest';
import { readLog } from '../../../lib/log';
import { lines, noteWith, rows } from '../write';

/** An invented ageing: the air is quick, the load lags. */
const air = (min: number) => 24 + 130 * (1 - Math.exp(-min / 10));
const load = (min: number) => 24 + 130 * (1 - Math.exp(-min / 35));
const own = (head: string, row: (min: number) => (number | string)[]) =>
  readLog(
    lines(
      head,
      rows(240, (min) => [60 * min, ...row(min)].join(',')),
    ),
  );
const names = (log: ReturnType<typeof own>) => log.channels.map(({ name }) => name);

describe('a column called "Load 1"', () => {
  it('is a temperature where it reads like the temperature columns', () => {
    const log = own('Time (s),Load 1,Load B,Control TC (°C)', (min) => [
      load(min).toFixed(1),
      load(min * 0.9).toFixed(1),
      air(min).toFixed(1),
    ]);
    expect(names(log)).toEqual(['Load 1', 'Load B', 'Control TC']);
    expect(noteWith(log, /"Load 1", "Load B" are taken for the temperature of a load/)).toBeDefined();
  });

  it('also put cold into a hot furnace, in °F', () => {
    const log = own('Time (s),Load 1,Control TC (°F)', (min) => [
      (load(min) * 1.8 + 32).toFixed(0),
      (154 * 1.8 + 32 + (min % 3)).toFixed(0),
    ]);
    expect(log.channels.map(({ name, sourceUnit }) => [name, sourceUnit])).toEqual([
      ['Load 1', '°F'],
      ['Control TC', '°F'],
    ]);
  });

  it('is a temperature where the file has nothing else', () => {
    const log = own('Time (s),Load 1,Load 2', (min) => [load(min).toFixed(1), load(min * 0.9).toFixed(1)]);
    expect(names(log)).toEqual(['Load 1', 'Load 2']);
    expect(noteWith(log, /No column says that it is a temperature/)).toBeDefined();
  });

  it.each([
    ['newtons', (min: number) => (1500 + 3 * min).toFixed(0)],
    ['kilonewtons that start at room temperature', (min: number) => (24 + min / 20).toFixed(1)],
  ])('is left aside where it holds %s', (_, force) => {
    const log = own('Time (s),Load 1,TC1 (°C)', (min) => [force(min), air(min).toFixed(1)]);
    expect(names(log)).toEqual(['TC1']);
    expect(log.leftAside.map(({ name, why }) => [name, why])).toEqual([
      ['Load 1', expect.stringMatching(/furnace or a force.*option columns/)],
    ]);
  });
});
