import { describe, expect, it } from 'vitest';
import { SPIKE_DOUBTS, spikes, spikeWords } from '../../../lib/validation';
import { inFull } from '../../setup/extent';

// In short every fifth spike of the grid: peaks, times and passes turn against each other, so all of each are there.
const asked = spikes().filter((_, i) => inFull || i % 5 === 0);

describe('the grid of weld-like spikes, an allowance of a tenth, record as read', () => {
  // An honest band was expected to leave about a fifth uncertain; the metal alone leaves this much of it.
  it.each([
    ['6061', 0.05, 0.25],
    ['A356.0', 0.1, 0.3],
  ])('%s-T6: %d to %d uncertain, none kept from 400 °C on, none lost up to 200 °C', (alloy, low, high) => {
    const words = spikeWords(alloy, 'T6', { count: 100, of: asked });
    expect(words).toHaveLength(asked.length);
    const uncertain = words.filter(({ word }) => word === 'uncertain');
    expect(uncertain.length / words.length).toBeGreaterThan(low);
    expect(uncertain.length / words.length).toBeLessThan(high);
    expect(words.filter(({ peakC, word }) => peakC >= 400 && word === 'kept')).toEqual([]);
    expect(words.filter(({ peakC, word }) => peakC <= 200 && word === 'lost')).toEqual([]);
  });

  it('names every doubt with its share, worst first', () => {
    const [spike] = spikeWords('6061', 'T6', {
      count: 100,
      of: [{ peakC: 330, coolingTimeConstantS: 20, passes: 1 }],
    });
    expect(spike!.doubts.map(({ name }) => name).sort()).toEqual(SPIKE_DOUBTS.map(({ name }) => name).sort());
    const shares = spike!.doubts.map(({ share }) => share);
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
    expect(shares.every((share) => share >= 0 && share <= 1)).toBe(true);
  });
});
