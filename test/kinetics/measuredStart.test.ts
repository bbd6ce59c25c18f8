import { describe, expect, it } from 'vitest';
import { loadAlloy } from '../../lib/alloy';
import { ageingCurve, overageingModel, vickersOfYield, yieldOfVickers } from '../../lib/kinetics';
import { measuredStart } from '../../lib/kinetics/measuredStart';

const card = loadAlloy('6061');

describe('a start measured on the part', () => {
  it('is a temper and its yield, however it was measured', () => {
    expect(measuredStart('T6', card)).toEqual({ temper: 'T6' });
    expect(measuredStart({ temper: 'T6', measuredYieldMPa: 290 }, card).measuredYieldMPa).toBe(290);
    expect(measuredStart({ temper: 'T6', measuredHardnessHV: 107 }, card).measuredYieldMPa).toBeCloseTo(
      275.8,
      1,
    );
  });

  it('refuses psi, no temper at all and hardness out of range', () => {
    expect(() => measuredStart({ temper: 'T6', measuredYieldMPa: 30_000 }, card)).toThrow(/10 to 700/);
    // @ts-expect-error plain JavaScript lets this pass
    expect(() => measuredStart({}, card)).toThrow(/needs a temper/);
    expect(() => measuredStart({ temper: 'T6', measuredHardnessHV: 15 }, card)).toThrow(/40 to 200/);
  });

  it('holds for every model that starts from a temper', () => {
    const psi = { temper: 'T6', measuredYieldMPa: 30_000 };
    for (const model of [ageingCurve('6061'), overageingModel('6061')])
      expect(() => model.start(psi)).toThrow(/10 to 700/);
  });

  it('turns yield into hardness and back', () => {
    // Myhr, Grong & Andersen 2001, from memory: 276 MPa is 107 HV.
    expect(vickersOfYield(276)).toBeCloseTo(107.1, 1);
    expect(yieldOfVickers(vickersOfYield(276), card)).toBeCloseTo(276, 9);
  });

  it('is not a T5, which no curve from solution treatment makes', () => {
    expect(() => ageingCurve('6063').start('T5')).toThrow(/not made by ageing/);
  });
});
