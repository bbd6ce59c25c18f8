import { describe, expect, it } from 'vitest';
import published from '../../../data/published/small-sample-statistics.json';
import { couponStrength } from '../../../lib/section';
import { decisionRisks, mean, standardDeviation } from '../../../lib/statistics';
import { disposition, dispositionRule } from '../../../lib/verify';

describe('decisionRisks', () => {
  it('Deaver (How to maintain confidence in a world of declining test uncertainty ratios, p. 7): 0.8 % and 1.5 %', () => {
    // Limits at ± 2 standard deviations of the parts, measured four times as well as they scatter.
    const { falseAccept, falseReject } = decisionRisks(
      { mean: 0, standardDeviation: 1, standardUncertainty: 0.25 },
      { lower: -2, upper: 2 },
      { lower: -2, upper: 2 },
    );
    // Printed to the tenth of a per cent; integrated independently: 0.0080061 and 0.0148509.
    expect(falseAccept).toBeCloseTo(0.0080061, 6);
    expect(falseReject).toBeCloseTo(0.0148509, 6);
  });

  it('together with the right words they make one', () => {
    const parts = { mean: 200, standardDeviation: 15, standardUncertainty: 5 };
    const { falseAccept, falseReject } = decisionRisks(parts, { lower: 186 }, { lower: 190 });
    const accepted = decisionRisks(parts, { lower: 1e6 }, { lower: 190 }).falseAccept;
    // What is measured scatters by √(15² + 5²) about 200.
    expect(accepted).toBeCloseTo(0.7365, 3);
    expect(falseAccept).toBeLessThan(accepted);
    expect(falseReject).toBeGreaterThan(0);
  });
});

describe('dispositionRule', () => {
  it('guards by 1.645 u either way: the default of ISO 14253-1:2017, 0.83 U', () => {
    const rule = dispositionRule({ leastValue: 186, unit: 'MPa', standardUncertainty: 4 });
    expect(rule.acceptFrom).toBeCloseTo(186 + 1.6449 * 4, 3);
    expect(rule.rejectBelow).toBeCloseTo(186 - 1.6449 * 4, 3);
    const [, bandOverU, risk] = published.guardBandRules.rows[1] as [string, number, number];
    // A value at 0.83 U: the printed risk, and the rule's within what 0.83 is rounded from 0.8224 by.
    const { chanceEnough } = disposition(rule, 186 + 2 * bandOverU * 4);
    expect(1 - chanceEnough).toBeCloseTo(risk, 4);
    expect(disposition(rule, 186 + 2 * bandOverU * 4).word).toBe('accept');
    expect(disposition(rule, 186).word).toBe('neither');
    expect(disposition(rule, 179).word).toBe('reject');
  });

  it('JCGM 106:2012, clause 7: a container that burst at 509.7 kPa with u 8.6 kPa, at least 490', () => {
    const rule = dispositionRule({ leastValue: 490, unit: 'kPa', standardUncertainty: 8.6 });
    const { chanceEnough, word } = disposition(rule, 509.7);
    expect(chanceEnough).toBeCloseTo(0.99, 2);
    expect(word).toBe('accept');
  });

  it('states its chances of a wrong word where such parts are known', () => {
    const rule = dispositionRule({
      leastValue: 186,
      unit: 'MPa',
      standardUncertainty: 4,
      parts: { mean: 200, standardDeviation: 10 },
    });
    expect(rule.risks!.falseAccept).toBeLessThan(0.01);
    expect(rule.sentence).toMatch(
      /Accept from 192\.6 MPa on, reject below 179\.4 MPa.*accepted with a chance of < 1 %/,
    );
  });
});

describe('bars broken', () => {
  it('95/95 from five bars counts 4.203 standard deviations down (NBS Handbook 91 table A-7)', () => {
    const bars = [205, 212, 199, 208, 203];
    const { characteristicMPa } = couponStrength(bars, { content: 0.95, confidence: 0.95 });
    expect(characteristicMPa).toBeCloseTo(mean(bars) - 4.203 * standardDeviation(bars), 1);
  });
});
