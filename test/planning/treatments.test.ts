import { describe, expect, it } from 'vitest';
import { loadAlloy } from '../../lib/alloy';
import { asExposure, withSigns } from '../../lib/exposure';
import { isothermal } from '../../lib/history';
import { afterTreatments } from '../../lib/planning/treatments';
import { strengthAfter } from '../../lib/strength';

describe('afterTreatments', () => {
  const metal = { alloy: loadAlloy('6061'), temper: 'T6' };
  const soak = isothermal(260, 600);
  // An oven 30 K off either way, and a stick that did not melt.
  const heat = withSigns(
    asExposure({
      history: soak,
      doubts: [
        {
          kind: 'oven',
          of: 'the oven',
          spread: { shape: 'even', low: -1, high: 1 },
          shiftK: Float64Array.from(soak.tempC, () => 30),
        },
      ],
      blind: [],
      because: [],
    }),
    [{ kind: 'stick', rating: 265, melted: false }],
  );

  it('counts what was seen of a heat once, whether the heat was worked out before or not', () => {
    const asWelded = strengthAfter(heat, metal, { draws: 400, endOnly: true });
    const known = afterTreatments(heat, metal, 0.1, { asWelded });
    const anew = afterTreatments(heat, metal, 0.1);
    for (const treatment of ['asWelded', 'rested', 'reaged'] as const)
      for (const line of ['low', 'nominal', 'high'] as const)
        expect(known[treatment].yieldKeptFraction[line]).toBeCloseTo(
          anew[treatment].yieldKeptFraction[line],
          9,
        );
    const blindToIt = afterTreatments({ ...heat, seen: [] }, metal, 0.1);
    expect(anew.rested.yieldKeptFraction.nominal).toBeGreaterThan(blindToIt.rested.yieldKeptFraction.nominal);
  });
});
