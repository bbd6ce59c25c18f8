import { describe, expect, it } from 'vitest';
import { worstChannel } from '../../lib/decision';
import { judged } from '../../lib/quantity';

const channel = (name: string, verdict: 'kept' | 'uncertain' | 'lost', low: number) => ({
  name,
  verdict,
  yieldKeptFraction: judged(1, [low, 1], '1', []),
});

describe('worstChannel', () => {
  it('goes by the verdict before the number: a blind probe with a high number is worse than a cleared one', () => {
    const channels = [channel('cleared', 'kept', 0.91), channel('blind', 'uncertain', 0.99)];
    expect(worstChannel(channels)!.name).toBe('blind');
  });

  it('goes by the low side among equals, and is nothing without channels', () => {
    expect(worstChannel([channel('a', 'kept', 0.97), channel('b', 'kept', 0.92)])!.name).toBe('b');
    expect(worstChannel([])).toBeUndefined();
  });
});
