import { describe, expect, it } from 'vitest';
import { exactly, fixingDoubt, USUAL_WIRE, wireDoubts } from '../../lib/exposure';
import { isothermal } from '../../lib/history';
import { weldCycle } from '../../lib/kinetics';
import { CLOSE_DRAWS, MOST_DRAWS, strengthAfter } from '../../lib/strength';

const history = weldCycle({ peakC: 270, nearPeakS: 10 });
const exposure = {
  ...exactly(history),
  doubts: [...wireDoubts(history, USUAL_WIRE), fixingDoubt(history, 'peened hole', 20)],
};
const metal = { alloy: '6061', temper: 'T6', measuredYieldMPa: 262 };

describe('more draws go on where the first ended', () => {
  it.each([40, 400])('from %d: every number as if all had been run at once', (few) => {
    const first = strengthAfter(exposure, metal, { draws: few });
    const weightsOf = () => Float64Array.from({ length: 600 }, (_, i) => 1 + (i % 3));
    for (const options of [{}, { weightsOf }]) {
      const atOnce = strengthAfter(exposure, metal, { draws: 600, ...options });
      let run = 0;
      const goneOn = strengthAfter(exposure, metal, {
        draws: 600,
        ...options,
        goOn: first,
        onDraw: () => run++,
      });
      expect(goneOn).toEqual(atOnce);
      expect(run).toBe(600 - few);
    }
  });

  it('close to the rule no draw is run twice', () => {
    let run = 0;
    // An allowance that the chance meets by construction: 95 % of the draws keep so much.
    const { yieldKeptFraction } = strengthAfter(exposure, metal, { draws: MOST_DRAWS });
    const asked = { allowanceFraction: 1 - yieldKeptFraction.low };
    const answer = strengthAfter(exposure, metal, { ...asked, onDraw: () => run++ });
    expect(answer.draws.metals.length).toBeGreaterThanOrEqual(CLOSE_DRAWS);
    expect(run).toBe(answer.draws.metals.length);
  });

  it('an answer that cannot be continued is left alone', () => {
    const more = strengthAfter(exposure, metal, { draws: 300 });
    const endOnly = strengthAfter(exposure, metal, { draws: 100, endOnly: true });
    const atOnce = strengthAfter(exposure, metal, { draws: 200 });
    for (const goOn of [more, endOnly])
      expect(strengthAfter(exposure, metal, { draws: 200, goOn })).toEqual(atOnce);
  });
});

describe('a heat after another goes on where the first ended', () => {
  // 262 MPa lies below what most of the metals have, so several starts are tried for a draw.
  it.each([undefined, 262, 300])('measured before: %s MPa', (measuredYieldMPa) => {
    const part = { ...metal, measuredYieldMPa };
    const bake = isothermal(177, 3600);
    const weightsOf = () => Float64Array.from({ length: 60 }, (_, i) => 1 + (i % 3));
    for (const weighed of [{}, { weightsOf }]) {
      const options = { draws: 60, endOnly: true, ...weighed };
      const atOnce = strengthAfter(bake, part, { ...options, earlier: [exposure] });
      const after = strengthAfter(exposure, part, options);
      const { because: _, ...goneOn } = strengthAfter(bake, part, { after });
      expect(goneOn.draws).toEqual(atOnce.draws);
      expect(goneOn.weights).toEqual(atOnce.weights);
      expect(goneOn.chanceKept).toBe(atOnce.chanceKept);
      expect(goneOn.yieldMPa.low).toBe(atOnce.yieldMPa.low);
    }
  });

  it('metal that was blind before stays without a chance', () => {
    const blind = { ...exposure, blind: [{ fromS: 1, toS: 2, because: 'Nobody read it.' }] };
    const after = strengthAfter(blind, metal, { draws: 20, endOnly: true });
    const { chanceKept, word } = strengthAfter(isothermal(20, 60), metal, { after });
    expect(chanceKept).toBeNull();
    expect(word).not.toBe('kept');
  });
});
