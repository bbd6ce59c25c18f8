import { describe, expect, it } from 'vitest';
import { ARC_EFFICIENCY, acTigEfficiency, heatInput, type WeldProcess } from '../../lib/heatflow';
import { TemperbookError } from '../../lib/quantity';
import { fc } from '../setup/fc';

const pass = { amps: 150, volts: 14, travelMmPerS: 3, process: 'TIG AC' } as const;

describe('heatInput', () => {
  it('gives arc energy, and net heat as a band', () => {
    const heat = heatInput(pass);
    expect(heat.arcEnergyJPerMm).toBe(700);
    expect(heat.netHeatJPerMm).toMatchObject({ nominal: 420, low: 280, high: 525, unit: 'J/mm' });
    expect(heat.netPowerW).toMatchObject({ nominal: 1260, low: 840, high: 1575, unit: 'W' });
    expect(heat.efficiency.because.join(' ')).toMatch(/EN 1011-1.*not settled/);
  });

  it('takes arc-on time and length for the speed, and an instrument’s power for volts and amps', () => {
    const timed = heatInput({ arcPowerW: 2100, arcOnS: 40, lengthMm: 120, process: 'TIG AC' });
    expect(timed).toEqual(heatInput(pass));
  });

  it('is a band around the nominal for every process, and for any balance', () => {
    for (const process of Object.keys(ARC_EFFICIENCY) as WeldProcess[]) {
      const { efficiency } = heatInput({ ...pass, process });
      expect(efficiency.low).toBeLessThan(efficiency.high);
      expect(efficiency.nominal).toBe(ARC_EFFICIENCY[process].value);
    }
    fc.assert(
      fc.property(fc.double({ min: 0.3, max: 1, noNaN: true }), (acBalance) => {
        const { efficiency } = heatInput({ ...pass, acBalance });
        expect(efficiency.low).toBeLessThan(efficiency.nominal);
        expect(efficiency.high).toBeGreaterThan(efficiency.nominal);
      }),
    );
  });

  it('slides the band with the balance: the usual setting gives the table, more electrode negative more heat', () => {
    const usual = acTigEfficiency(0.66);
    expect(usual.low).toBeCloseTo(ARC_EFFICIENCY['TIG AC'].low, 2);
    expect(usual.high).toBeCloseTo(ARC_EFFICIENCY['TIG AC'].high, 2);
    expect(acTigEfficiency(0.85).low).toBeGreaterThan(usual.low);
  });

  it('uses a shop’s own band', () => {
    const own = { nominal: 0.55, low: 0.52, high: 0.58, because: ['Fitted to log 12.'] };
    expect(heatInput({ ...pass, efficiency: own }).netHeatJPerMm).toMatchObject({
      nominal: 385.00000000000006,
      because: ['Fitted to log 12.'],
    });
  });

  it.each([
    ['zero travel', { travelMmPerS: 0 }, /travel speed is not usable.*0 mm\/s/],
    ['a voltage no arc has', { volts: 230 }, /arc voltage in V/],
    ['a process nobody knows', { process: 'laser' as never }, /not known.*TIG AC/],
    ['a name every object has', { process: 'toString' as never }, /not known.*toString/],
    [
      'power given twice',
      { arcPowerW: 9000 } as never,
      /arc power is given twice.*9000 W beside 150 A and 14 V/,
    ],
    [
      'speed given twice',
      { arcOnS: 10, lengthMm: 900 } as never,
      /travel speed is given twice.*3 mm\/s beside 900 mm in 10 s/,
    ],
    [
      'an efficiency outside its own band',
      { efficiency: { nominal: 0.9, low: 0.5, high: 0.7, because: [] } },
      /within its own band.*0\.9.*0\.5 to 0\.7/,
    ],
    ['a balance for MIG', { process: 'MIG' as const, acBalance: 0.7 }, /means nothing for MIG/],
    ['a balance in percent', { acBalance: 70 }, /electrode-negative share.*0.3 to 1/],
    [
      'an efficiency without a band',
      { efficiency: { nominal: 0.6, low: 0.6, high: 0.6, because: [] } },
      /give a band/,
    ],
    [
      'an efficiency above one',
      { efficiency: { nominal: 0.6, low: 0.5, high: 1.2, because: [] } },
      /arc efficiency/,
    ],
  ])('says what is wrong with %s', (_, change, message) => {
    const run = () => heatInput({ ...pass, ...change });
    expect(run).toThrow(TemperbookError);
    expect(run).toThrow(message);
  });

  it('says what is wrong with an arc that burned for no time', () => {
    expect(() => heatInput({ amps: 150, volts: 14, arcOnS: 0, lengthMm: 100, process: 'TIG' })).toThrow(
      /arc-on time/,
    );
  });
});
