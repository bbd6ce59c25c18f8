import { describe, expect, it } from 'vitest';
import {
  parseHeats,
  signWeights,
  type TemperatureSign,
  weighableSigns,
  weightsOfSigns,
  withSigns,
} from '../../../lib/exposure';
import { ovenExposure } from '../../../lib/heatflow';
import { effectiveNumber } from '../../../lib/statistics';

const baked = ovenExposure(parseHeats('390F 1h')[0]!, { oven: 'class 6' });
const weightsWith = (signs: readonly TemperatureSign[], count: number) =>
  signWeights(withSigns(baked, signs), count);

describe('sticks and readings by hand', () => {
  it('a stick is good to 1 % of its rating in °F', () => {
    const [stick] = weighableSigns([{ kind: 'stick', rating: '400F', melted: true }]);
    expect(stick).toMatchObject({ says: 'at least' });
    expect(stick!.toK).toBeCloseTo(4 / 1.8, 6);
  });

  it('take away the draws that they contradict, and leave the others', () => {
    const weights = weightsWith([{ kind: 'stick', rating: '400F', melted: false }], 400);
    expect(effectiveNumber(weights)).toBeGreaterThan(150);
    expect(effectiveNumber(weights)).toBeLessThan(350);
    expect(Math.min(...weights)).toBeLessThan(1e-6);
    expect(weightsWith([], 10).every((weight) => weight === 1)).toBe(true);
  });

  it('melted and not melted share out all draws', () => {
    const [yes, no] = [true, false].map((melted) =>
      weightsWith([{ kind: 'stick', rating: '400F', melted }], 200),
    );
    yes!.forEach((weight, i) => {
      expect(weight + no![i]!).toBeCloseTo(1, 12);
    });
  });

  it('of several heats weigh together; where no way fits them, that is said', () => {
    const stick = (rating: string, melted: boolean) => withSigns(baked, [{ kind: 'stick', rating, melted }]);
    const [one, other] = [stick('400F', false), stick('375F', true)];
    const both = weightsOfSigns([one, baked, other], 400)!;
    signWeights(one, 400).forEach((weight, i) => {
      expect(both[i]).toBeCloseTo(weight * signWeights(other, 400)[i]!, 12);
    });
    expect(weightsOfSigns([baked], 400)).toBeUndefined();
    expect(() => weightsOfSigns([stick('500F', true)], 400)).toThrow(/does not go with the heat/);
  });

  it('infrared on bare metal bounds from below only; on paint it is a reading, the emissivity left open', () => {
    const spot = { tempC: 200, atS: 1800, toK: '±4C' };
    const [bare, paint, contact] = weighableSigns([
      { kind: 'infrared on bare metal', ...spot },
      { kind: 'infrared on a painted spot', ...spot },
      { kind: 'contact', ...spot },
    ]);
    expect(bare!.says).toBe('at least');
    expect(paint!.says).toBe('about');
    // Wien at 11 µm, 473 K: dT = T² λ/c₂ · ln(0.95/0.92) = 5.5 K, worked out by hand.
    expect(paint!.toK - contact!.toK).toBeCloseTo(5.5, 0);
  });

  it('refuses a stick that melted above one that did not, within their tolerance', () => {
    const sticks = (hot: string, cold: string) =>
      weighableSigns([
        { kind: 'stick', rating: hot, melted: true },
        { kind: 'stick', rating: cold, melted: false },
      ]);
    expect(() => sticks('450F', '400F')).toThrow(/contradict.*melted.*same spot/);
    expect(sticks('405F', '400F')).toHaveLength(2);
    expect(sticks('400F', '450F')).toHaveLength(2);
    expect(() => weighableSigns([{ kind: 'stick', rating: '400', melted: true }])).toThrow(
      /not a temperature/,
    );
  });
});
