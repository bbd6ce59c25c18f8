import { describe, expect, it } from 'vitest';
import { spikeFigure, staticSvg } from '../../lib/figure';
import type { SpikeWord } from '../../lib/validation';

const spike = (peakC: number, passes: number, word: SpikeWord['word']): SpikeWord => ({
  peakC,
  coolingTimeConstantS: 60,
  passes,
  chanceKept: word === 'kept' ? 1 : word === 'lost' ? 0 : 0.5,
  word,
  curve: word,
  delayed: word,
  doubts: [{ name: 'how fast it softens', share: 0.4 }],
});
const spikes = [
  spike(300, 2, 'uncertain'),
  spike(200, 1, 'kept'),
  spike(400, 1, 'lost'),
  spike(400, 2, 'lost'),
];

describe('the map of words', () => {
  const figure = spikeFigure(spikes, 'Words');

  it('shows every spike once, by shape as well as by colour', () => {
    expect(figure.data.flatMap(({ x }) => x!)).toHaveLength(spikes.length);
    for (const look of ['symbol', 'color'] as const)
      expect(new Set(figure.data.map(({ marker }) => marker![look])).size).toBe(3);
  });

  it('puts passes and cooling in order along', () => {
    expect(figure.layout.xaxis!.ticktext).toEqual(['1<br>60 s', '2']);
    const uncertain = figure.data.find(({ name }) => name === 'uncertain')!;
    expect([uncertain.x, uncertain.y]).toEqual([[1], [300]]);
  });

  it('draws as a static picture', () => {
    expect(staticSvg(figure)).toContain('uncertain');
  });
});
