import { describe, expect, it } from 'vitest';
import { thermalHistory } from '../../../lib/history';
import { overageingModel, type TemperModel } from '../../../lib/kinetics';
import {
  ageingResiduals,
  groupTrust,
  measuredFacts,
  modelTrust,
  overageingResiduals,
  TESTED_MODELS,
  type TestedModel,
  trustSummary,
} from '../../../lib/validation';
import { everyTrust, everyVerdict, everyWeldZone } from '../../setup/trust';

const rows = everyTrust();
const of = (model: string, alloy: string) =>
  rows.filter((row) => row.model === model && row.fact.alloy === alloy && row.fact.dataSet === 'over-ageing');

describe('measuredFacts', () => {
  it('holds measurements only, each once per alloy', () => {
    const facts = measuredFacts();
    expect(facts.some(({ id }) => id.includes('model'))).toBe(false);
    const keys = facts.map(({ dataSet, alloy, id }) => `${dataSet} ${alloy} ${id}`);
    expect(new Set(keys).size).toBe(keys.length);
    expect(facts.find(({ id }) => id === '6061-390F-8h')!.exposureText).toBe('8 h at 199 °C (390 °F)');
  });
});

describe('modelTrust', () => {
  it('asks every model that can answer about every fact', () => {
    const facts = measuredFacts();
    for (const { name, dataSets } of TESTED_MODELS) {
      const asked = facts.filter(
        ({ dataSet, kind }) => dataSets.includes(dataSet) && (dataSet !== 'over-ageing' || kind !== 'peak'),
      );
      expect(asked.length).toBeGreaterThan(20);
      expect(rows.filter(({ model }) => model === name).map(({ fact }) => fact.id)).toEqual(
        asked.map(({ id }) => id),
      );
    }
  });

  it('says of the curves what their own residuals say', () => {
    for (const alloy of ['6061', 'A356.0'])
      for (const own of overageingResiduals(alloy)) {
        const row = of('over-ageing curve', alloy).find(({ fact }) => fact.id === own.row.id);
        if (!row) continue;
        // The dose of many samples and of one differ in rounding only.
        expect(row.nominal).toBeCloseTo(own.nominal, 9);
        expect(row.low).toBeCloseTo(own.low, 9);
        expect(row.high).toBeCloseTo(own.high, 9);
        expect(row.residual).toBeCloseTo(own.residual, 6);
        expect(row.insideBand).toBe(own.insideBand);
      }
    for (const own of ageingResiduals('6061')) {
      const row = rows.find(
        ({ model, fact }) => model === 'ageing curve' && fact.dataSet === 'ageing' && fact.id === own.row.id,
      )!;
      // Peaks are read off a parabola through steps of 6 % here, by golden section there.
      if (own.row.measured.kind === 'peak') expect(row.nominal! / own.nominal).toBeCloseTo(1, 2);
      else expect(row.residual).toBeCloseTo(own.residual, 4);
    }
  });

  it('finds a clock that is slow by exactly what a model was slowed by', () => {
    const slowed = (factor: number): TestedModel => ({
      name: 'slowed',
      dataSets: ['over-ageing'],
      fittedTo: () => false,
      of: (alloy): TemperModel => {
        const model = overageingModel(alloy);
        return {
          name: 'slowed',
          start: model.start,
          advance: (state, { timeS, tempC }) =>
            model.advance(
              state as ReturnType<typeof model.start>,
              thermalHistory(
                timeS.map((s) => s / factor),
                tempC,
              ),
            ),
        };
      },
    });
    const plain = of('over-ageing curve', '6063');
    const slow = modelTrust([slowed(4)]).filter(({ fact }) => fact.alloy === '6063');
    for (const [i, row] of slow.entries())
      for (const end of ['low', 'nominal', 'high'] as const) {
        const before = plain[i]!.timeFactor![end];
        if (before === null) expect(row.timeFactor![end]).toBeNull();
        else expect(row.timeFactor![end]! / before).toBeCloseTo(4, 2);
      }
    // On the grid of 5.9 %.
    const ratio = trustSummary(slow).clock!.nominal! / trustSummary(plain).clock!.nominal!;
    expect(Math.abs(ratio / 4 - 1)).toBeLessThan(0.06);
    expect(slow.every(({ fitted }) => !fitted)).toBe(true);
  });

  it('bounds the clock on one side by a test that tells a side', () => {
    for (const { fact, timeFactor } of rows.filter(({ timeFactor: known }) => known !== null)) {
      if (fact.kind === 'atLeast') expect([timeFactor!.low, timeFactor!.nominal]).toEqual([null, null]);
      if (fact.kind === 'below') expect([timeFactor!.nominal, timeFactor!.high]).toEqual([null, null]);
      if (fact.kind === 'value') expect(timeFactor!.nominal).not.toBeNull();
    }
  });
});

describe('trustSummary', () => {
  it('adds up what the rows say', () => {
    const some = of('over-ageing curve', 'A356.0');
    const { facts, fitted, values, biasFraction, rmsFraction, inBand, banded } = trustSummary(some);
    const misses = some
      .filter(({ fact }) => fact.kind === 'value')
      .map(({ nominal, fact }) => nominal! - fact.value);
    expect([facts, values, banded]).toEqual([some.length, misses.length, some.length]);
    expect(fitted).toBe(some.filter((row) => row.fact.use === 'fit').length);
    expect(inBand).toBe(some.filter(({ insideBand }) => insideBand).length);
    expect(biasFraction).toBeCloseTo(misses.reduce((a, b) => a + b, 0) / misses.length, 12);
    expect(rmsFraction).toBeCloseTo(Math.hypot(...misses) / Math.sqrt(misses.length), 12);
  });

  it('has nothing to say of no rows', () => {
    expect(trustSummary([])).toEqual({
      facts: 0,
      fitted: 0,
      outside: 0,
      withinDoubt: 0,
      rmsResidual: null,
      values: 0,
      biasFraction: null,
      rmsFraction: null,
      inBand: 0,
      banded: 0,
      clock: null,
    });
  });

  it('groups rows without losing one', () => {
    const groups = [...groupTrust(rows, ({ model }) => model).values()];
    expect(groups.flat()).toHaveLength(rows.length);
    expect(groups).toHaveLength(TESTED_MODELS.length);
  });
});

describe('verdictTrust', () => {
  it('judges every soak of an aged temper that the softening model is asked about', () => {
    const verdicts = everyVerdict();
    const softening = rows.filter(({ model }) => model === 'over-ageing with dissolution');
    expect(verdicts.map(({ fact }) => fact.id)).toEqual(softening.map(({ fact }) => fact.id));
    for (const { low, nominal, high } of verdicts) {
      expect(low!).toBeLessThanOrEqual(nominal!);
      expect(nominal!).toBeLessThanOrEqual(high!);
    }
  });
});

describe('weldZoneTrust', () => {
  it('finds the weakest place inside the zone that dissolves, not at its ends', () => {
    for (const { peakC, yieldMPa } of everyWeldZone()) {
      expect(peakC).toBeGreaterThan(340);
      expect(peakC).toBeLessThan(550);
      expect(yieldMPa.low).toBeLessThan(yieldMPa.nominal);
      expect(yieldMPa.high).toBeGreaterThan(yieldMPa.nominal);
    }
  });
});
