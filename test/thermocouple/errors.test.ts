import { describe, expect, it } from 'vitest';
import { shiftTemperature, thermalHistory } from '../../lib/history';
import { TemperbookError } from '../../lib/quantity';
import { seededRandom } from '../../lib/statistics';
import {
  type AttachmentKind,
  attachmentCorrectionC,
  attachmentError,
  conductionErrorFraction,
  correctLag,
  lagNoiseGain,
  type ThermocoupleType,
  type ToleranceStandard,
  toleranceC,
  typeKDriftC,
  type WireClass,
} from '../../lib/thermocouple';
import { fc } from '../setup/fc';

describe('toleranceC', () => {
  it('is null outside its range and where a class does not exist', () => {
    expect(toleranceC('IEC 60584-1', 3, 'J', 20)).toBeNull();
    expect(toleranceC('IEC 60584-1', 1, 'B', 800)).toBeNull();
    expect(toleranceC('ASTM E230', 'special', 'K', -1)).toBeNull();
    expect(toleranceC('IEC 60584-1', 1, 'K', 1000)).toBe(4);
    expect(toleranceC('IEC 60584-1', 1, 'K', 1000.001)).toBeNull();
  });

  it('takes the wider of two limits where ranges meet at 0 °C', () => {
    expect(toleranceC('ASTM E230', 'standard', 'T', 0)).toBe(1);
    expect(toleranceC('ASTM E230', 'standard', 'K', -150)).toBe(3);
  });

  it('grows by its own rule for R and S of class 1', () => {
    expect(toleranceC('IEC 60584-1', 1, 'S', 1100)).toBe(1);
    expect(toleranceC('IEC 60584-1', 1, 'R', 1600)).toBeCloseTo(2.5, 12);
  });

  it('is never below its floor, and a lower class never tighter', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<ThermocoupleType>('E', 'J', 'K', 'N', 'T', 'R', 'S'),
        fc.double({ min: 0, max: 350, noNaN: true }),
        (type, tempC) => {
          expect(toleranceC('IEC 60584-1', 2, type, tempC)!).toBeGreaterThan(
            toleranceC('IEC 60584-1', 1, type, tempC)!,
          );
          expect(toleranceC('ASTM E230', 'standard', type, tempC)!).toBeGreaterThan(
            toleranceC('ASTM E230', 'special', type, tempC)!,
          );
        },
      ),
    );
  });

  it.each<[string, unknown, string, number]>([
    ['IEC 60584-1', 'special', 'K', 20],
    ['ASTM E230', 1, 'K', 20],
    ['DIN', 1, 'K', 20],
    ['IEC 60584-1', 1, 'Z', 20],
    ['IEC 60584-1', 1, 'K', Number.NaN],
  ])('refuses %s class %s type %s at %f', (standard, wireClass, type, tempC) => {
    expect(() =>
      toleranceC(standard as ToleranceStandard, wireClass as WireClass, type as ThermocoupleType, tempC),
    ).toThrow(TemperbookError);
  });
});

describe('typeKDriftC', () => {
  it('is one-sided, within 200 to 600 °C only, and capped', () => {
    expect(typeKDriftC(199, 3600)).toBe(0);
    expect(typeKDriftC(601, 3600)).toBe(0);
    expect(typeKDriftC(350, 0)).toBe(0);
    expect(typeKDriftC(250, 1e7)).toBeCloseTo(0.017 * 250, 12);
    expect(() => typeKDriftC(350, -1)).toThrow(TemperbookError);
  });
});

describe('attachmentError', () => {
  const kinds: AttachmentKind[] = [
    'welded wires',
    'peened hole',
    'cemented',
    'clamped with paste',
    'clamped dry',
    'taped',
    'hand-held probe',
    'under a washer or bolt',
    'not stated',
  ];

  it.each(kinds)('%s has an ordered band and a source', (kind) => {
    const { low, value, high, source, known } = attachmentError(kind);
    expect(low).toBeGreaterThan(0);
    expect(value).toBeGreaterThan(low);
    expect(high).toBeGreaterThan(value);
    expect(high).toBeLessThan(0.5);
    expect(source.length).toBeGreaterThan(10);
    expect(['derived', 'practice']).toContain(known);
  });

  it('is never kinder to a fixing nobody stated than to any that somebody might have', () => {
    const unsaid = attachmentError('not stated');
    for (const kind of kinds)
      for (const end of ['low', 'value', 'high'] as const)
        expect(unsaid[end]).toBeGreaterThanOrEqual(attachmentError(kind)[end]);
  });

  it('the derived bands are what the fin model gives over the stated losses and contacts', () => {
    const welded = (diameterMm: number, lossWPerM2K: number, conductivityWPerMK: number) =>
      conductionErrorFraction({ diameterMm, lossWPerM2K, conductivityWPerMK, bodyConductivityWPerMK: 167 });
    expect(attachmentError('welded wires').low).toBeCloseTo(welded(0.25, 20, 19), 3);
    expect(attachmentError('welded wires').high).toBeCloseTo(welded(0.5, 100, 29.5), 3);
    const clamped = (conductanceWPerM2K: number) =>
      conductionErrorFraction({
        diameterMm: 1.5,
        lossWPerM2K: 8.75,
        conductivityWPerMK: 15,
        bodyConductivityWPerMK: 167,
        contact: { areaMm2: 2.25, conductanceWPerM2K },
      });
    expect(attachmentError('clamped with paste').low).toBeCloseTo(clamped(40_000), 2);
    expect(attachmentError('clamped with paste').high).toBeCloseTo(clamped(5000), 2);
    expect(attachmentError('clamped dry').high).toBeCloseTo(clamped(2000), 1);
  });

  it("takes the shop's own number and refuses nonsense", () => {
    const own = {
      value: 0.02,
      low: 0.01,
      high: 0.03,
      unit: '1',
      source: 'shop trial',
      known: 'seen',
    } as const;
    expect(attachmentError(own)).toBe(own);
    expect(() => attachmentError({ ...own, high: 1.2 })).toThrow(TemperbookError);
    expect(() => attachmentError({ ...own, low: Number.NaN })).toThrow(TemperbookError);
    expect(() => attachmentError('glued' as AttachmentKind)).toThrow(/one of welded wires/);
  });
});

describe('attachmentCorrectionC', () => {
  it('gives back the part that a low reading came from', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 600, noNaN: true }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (partC, fraction) => {
          const readC = partC - fraction * (partC - 20);
          expect(readC + attachmentCorrectionC(readC, 20, fraction)).toBeCloseTo(partC, 9);
        },
      ),
    );
  });

  it('adds nothing to a part no hotter than the air, and shifts a whole history', () => {
    expect(attachmentCorrectionC(15, 20, 0.2)).toBe(0);
    const read = thermalHistory([0, 1], [20, 340]);
    expect([...shiftTemperature(read, (t) => attachmentCorrectionC(t, 20, 0.2)).tempC]).toEqual([20, 420]);
    expect(() => attachmentCorrectionC(300, 20, 1)).toThrow(TemperbookError);
  });
});

describe('conductionErrorFraction', () => {
  it('refuses what no lead has', () => {
    const lead = { diameterMm: 0.5, conductivityWPerMK: 19, lossWPerM2K: 20, bodyConductivityWPerMK: 167 };
    expect(() => conductionErrorFraction({ ...lead, diameterMm: 0 })).toThrow(TemperbookError);
    expect(() =>
      conductionErrorFraction({ ...lead, contact: { areaMm2: -1, conductanceWPerM2K: 2000 } }),
    ).toThrow(TemperbookError);
  });
});

describe('correctLag', () => {
  /** A bell-shaped pass as a sensor with τ = 1 s reads it, by small exact steps. */
  const truth = (t: number) => 60 + 300 * Math.exp(-(((t - 20) / 6) ** 2));
  const lagged = (intervalS: number, sigmaK = 0) => {
    const random = seededRandom(9);
    const n = Math.round(60 / intervalS);
    const timeS = Float64Array.from({ length: n }, (_, i) => i * intervalS);
    const tempC = new Float64Array(n);
    let reading = truth(0);
    const fine = 200;
    for (let i = 0; i < n; i++) {
      tempC[i] = reading + sigmaK * random.normal();
      for (let k = 0; k < fine; k++) {
        const a = Math.exp(-intervalS / fine);
        reading = truth((i + (k + 0.5) / fine) * intervalS) * (1 - a) + reading * a;
      }
    }
    return thermalHistory(timeS, tempC);
  };

  it('brings the peak of a pass back and says what it did', () => {
    const { rawPeakC, peakC, notes, leftAsRead } = correctLag(lagged(0.25), { timeConstantS: 1 });
    expect(rawPeakC).toBeLessThan(356);
    expect(Math.abs(peakC - 360)).toBeLessThan(0.5);
    expect(notes.join()).toMatch(/lag of 1 s/);
    expect(leftAsRead).toBe(4);
  });

  it('amplifies noise by the gain it states', () => {
    const clean = correctLag(lagged(0.25), { timeConstantS: 1 });
    const noisy = correctLag(lagged(0.25, 0.5), { timeConstantS: 1 });
    let squares = 0;
    for (let i = 2; i < 238; i++) squares += (noisy.history.tempC[i]! - clean.history.tempC[i]!) ** 2;
    // 236 readings correlated over 5: a standard deviation good to about 10 %.
    expect(Math.sqrt(squares / 236) / (0.5 * noisy.noiseGain)).toBeGreaterThan(0.75);
    expect(Math.sqrt(squares / 236) / (0.5 * noisy.noiseGain)).toBeLessThan(1.25);
    expect(noisy.noiseGain).toBeCloseTo(lagNoiseGain(1, 0.25, 2), 12);
  });

  it('refuses to differentiate raw readings when τ is more than five intervals', () => {
    expect(() => correctLag(lagged(0.1), { timeConstantS: 1, halfWindow: 1 })).toThrow(
      /half window of 2|half window of 3/,
    );
    expect(() => correctLag(lagged(0.25), { timeConstantS: 1.25, halfWindow: 1 })).not.toThrow();
    expect(() => correctLag(lagged(0.25), { timeConstantS: 1.26, halfWindow: 1 })).toThrow(TemperbookError);
  });

  it('refuses coarse readings and a clamped top', () => {
    const coarse = lagged(0.25);
    const rounded = thermalHistory(
      coarse.timeS,
      coarse.tempC.map((t) => 5 * Math.round(t / 5)),
    );
    expect(() => correctLag(rounded, { timeConstantS: 1 })).toThrow(/too coarse/);
    const clamped = thermalHistory(
      coarse.timeS,
      coarse.tempC.map((t) => Math.min(t, 260)),
    );
    expect(() => correctLag(clamped, { timeConstantS: 1 })).toThrow(/clamped/);
  });

  it('leaves readings beside gaps as they are and never takes a slope across one', () => {
    const whole = lagged(0.25);
    const gappy = thermalHistory(whole.timeS, whole.tempC, [80]);
    const { history, leftAsRead } = correctLag(gappy, { timeConstantS: 1 });
    for (const i of [0, 1, 79, 80, 81, 82, 238, 239]) expect(history.tempC[i]).toBe(whole.tempC[i]);
    expect(leftAsRead).toBe(8);
    expect([...history.gapAfter!]).toEqual([80]);
  });

  it('refuses what cannot be corrected', () => {
    expect(() => correctLag(lagged(0.25), { timeConstantS: 0 })).toThrow(TemperbookError);
    expect(() => correctLag(lagged(0.25), { timeConstantS: 1, halfWindow: 1.5 })).toThrow(TemperbookError);
    expect(() => correctLag(thermalHistory([0, 1, 2], [20, 30, 40]), { timeConstantS: 1 })).toThrow(
      /long enough/,
    );
  });
});
