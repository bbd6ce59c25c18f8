import { cumulativeStdNormalProbability, errorFunction, probit } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import published from '../../../data/published/small-sample-statistics.json';
import {
  conformityProbability,
  guardFactor,
  normalProbability,
  normalQuantile,
  straightLine,
  theilSen,
  toleranceFactor,
  tQuantile,
} from '../../../lib/statistics';

describe('one-sided tolerance factors', () => {
  it.each([
    // Largest difference of each printed table from the exact noncentral t as found by its collector.
    { ...published.k9595, title: '95/95 (Natrella, ISO 16269-6)', within: 0.0009 },
    { ...published.kB, title: 'B-basis 90/95 (CMH-17-1)', within: 0.0026 },
    { ...published.kA, title: 'A-basis 99/95 (CMH-17-1)', within: 0.0026 },
    { ...published.en689, title: 'EN 689 95/70', within: 0.001 },
  ])('$title', ({ rows, content, confidence, within }) => {
    for (const [readings, k] of rows)
      expect(
        Math.abs(toleranceFactor({ readings: readings!, content, confidence }) - k!),
        `n = ${readings}`,
      ).toBeLessThan(within);
  });

  it.each(published.nistHandbook.rows)(
    'NIST handbook: n %f, %f at %f',
    (readings, content, confidence, natrella, exact) => {
      const k = toleranceFactor({ readings: readings!, content: content!, confidence: confidence! });
      expect(k).toBeCloseTo(exact!, 5);
      // The handbook's approximation is good to about 0.002 for n of 10 and more.
      expect(Math.abs(k - natrella!)).toBeLessThan(0.002);
    },
  );
});

describe('normal and t quantiles', () => {
  it.each(published.guardFactors.rows)('guard factors with %s degrees of freedom', (dof, ...factors) => {
    [0.05, 0.025, 0.01].forEach((risk, k) => {
      expect(guardFactor(risk, dof ?? undefined)).toBeCloseTo(factors[k]!, 4);
    });
  });

  it.each(published.coverageFactors.rows)(
    'GUM Table G.2: %s degrees of freedom, %f %%',
    (dof, percent, k) => {
      const upper = (1 + percent! / 100) / 2;
      expect(dof === null ? normalQuantile(upper) : tQuantile(upper, dof!)).toBeCloseTo(k!, 2);
    },
  );

  it('are why simple-statistics is not used for them: it has 3 to 7 digits', () => {
    // Φ(1.96) = 0.975002104851780 and z(0.975) = 1.95996398454005, Abramowitz and Stegun Tables 26.1 and 26.5.
    expect(normalProbability(1.96)).toBeCloseTo(0.97500210485178, 14);
    expect(normalQuantile(0.975)).toBeCloseTo(1.95996398454005, 13);
    expect(Math.abs(cumulativeStdNormalProbability(1.965) - normalProbability(1.965))).toBeGreaterThan(1e-5);
    expect(Math.abs(0.5 + errorFunction(1.96 / Math.SQRT2) / 2 - normalProbability(1.96))).toBeGreaterThan(
      1e-9,
    );
    expect(Math.abs(probit(0.975) - normalQuantile(0.975))).toBeGreaterThan(1e-4);
  });

  it('tails: Φ(−6) = 9.865876450377e-10, Φ(−10) = 7.619853024161e-24 (Abramowitz and Stegun Table 26.2, from memory)', () => {
    expect(normalProbability(-6) / 9.865876450377e-10).toBeCloseTo(1, 12);
    expect(normalProbability(-10) / 7.619853024161e-24).toBeCloseTo(1, 12);
  });
});

describe('decision rules', () => {
  it.each(published.guardBandRules.rows as [string, number, number][])(
    '%s: a band of %f U leaves a risk of %f',
    (_, bandOverU, risk) => {
      // Measured right at the acceptance limit: 2 · band/U standard uncertainties inside.
      const probability = conformityProbability(
        { value: 100 - 2 * bandOverU, standardUncertainty: 1 },
        { upper: 100 },
      );
      expect(Math.abs(1 - probability - risk)).toBeLessThan(risk < 1e-6 ? 2e-11 : 5e-6);
    },
  );

  it.each(published.conformity.rows as [string, number, number, number | null, number | null, number][])(
    '%s: %f ± %f',
    (_, value, standardUncertainty, lower, upper, probability) => {
      const found = conformityProbability(
        { value, standardUncertainty },
        { ...(lower === null ? {} : { lower }), ...(upper === null ? {} : { upper }) },
      );
      expect(found).toBeCloseTo(probability, 4);
    },
  );

  it.each(published.acceptanceLimit.rows)(
    'at least %f, u %f, %s degrees of freedom, risk %f: accept from %f',
    (lower, u, dof, risk, accepted) => {
      expect(lower! + guardFactor(risk!, dof ?? undefined) * u!).toBeCloseTo(accepted!, 3);
    },
  );
});

describe('lines', () => {
  it('Sen (1968): slope 4, interval 3.71 to 4.375, and the intercept', () => {
    const { x, y, slope, interval, intercept, confidence } = published.theilSen;
    const line = theilSen(x, y, confidence);
    expect(line.slope).toBe(slope);
    expect(line.intercept).toBe(intercept);
    expect(line.slopeInterval[0]).toBeCloseTo(interval[0]!, 2);
    expect(line.slopeInterval[1]).toBeCloseTo(interval[1]!, 3);
  });

  it('GUM H.3: calibration line of a thermometer and its extrapolation', () => {
    const { tempC, correctionC, referenceC, published: gum } = published.thermometerCalibration;
    const line = straightLine(
      tempC.map((t) => t - referenceC),
      correctionC,
    );
    expect(line.intercept).toBeCloseTo(gum.intercept, 4);
    expect(line.interceptStandardError).toBeCloseTo(gum.interceptStandardError, 4);
    expect(line.slope).toBeCloseTo(gum.slope, 5);
    expect(line.slopeStandardError).toBeCloseTo(gum.slopeStandardError, 5);
    expect(line.correlation).toBeCloseTo(gum.correlation, 2);
    expect(line.residualStandardDeviation).toBeCloseTo(gum.residualStandardDeviation, 4);
    expect(line.at(10).value).toBeCloseTo(gum.at30C, 4);
    expect(line.at(10).standardError).toBeCloseTo(gum.standardErrorAt30C, 4);
  });
});
