import { describe, expect, it } from 'vitest';
import { sayingsFigure, staticSvg } from '../../lib/figure';
import { judged } from '../../lib/quantity';
import type { SayingAnswer } from '../../lib/validation';

const saying = (word: SayingAnswer['word'], nominal: number): SayingAnswer => ({
  id: word,
  topic: 'invented',
  says: `it is ${word}`,
  word,
  because: [],
  tried:
    word === 'nobody knows'
      ? []
      : [{ name: `case of ${word}`, kept: judged(nominal, [nominal - 0.1, nominal + 0.1], '1', []) }],
  measured: [],
  sources: [],
});

describe('sayingsFigure', () => {
  const answers = [saying('true', 0.95), saying('false', 0.5), saying('nobody knows', 1)];

  it('has a line with its name for every case, and none for what nobody knows', () => {
    const { data, layout } = sayingsFigure(answers);
    expect(data.filter(({ mode }) => mode === 'markers').flatMap(({ x }) => x ?? [])).toEqual([95, 50]);
    expect(layout.annotations?.map(({ text }) => text)).toEqual(['case of true', 'case of false']);
    expect(staticSvg(sayingsFigure(answers))).toContain('case of false');
  });
  it('refuses to draw nothing', () =>
    expect(() => sayingsFigure([saying('nobody knows', 1)])).toThrow(/saying figure needs/));
});
