import { describe, expect, it } from 'vitest';
import conduction from '../../../data/published/conduction-solutions.json';
import surfaces from '../../../data/published/surface-heat-transfer.json';
import {
  contactConductanceWPerM2K,
  lumpedNetwork,
  radiationFilmWPerM2K,
  stillAirFilmWPerM2K,
} from '../../../lib/heatflow';
import { tempAt } from '../../../lib/history';

describe('lumped block in air (exponential cooling, Carslaw & Jaeger)', () => {
  const { lumpedBlock: block, metal } = conduction;
  const [a, b, c] = block.sizeMm as [number, number, number];
  const run = lumpedNetwork(
    {
      parts: [
        {
          name: 'block',
          massKg: a * b * c * metal.densityKgPerM3 * 1e-9,
          specificHeatJPerKgK: metal.specificHeatJPerKgK,
          startC: block.startC,
          surface: { areaMm2: 2 * (a * b + b * c + a * c), filmWPerM2K: block.filmWPerM2K },
        },
      ],
      surroundingsC: block.airC,
      untilS: 600,
    },
    1e-4,
  );
  const history = run.histories.block!;

  it.each(block.rows)('after $timeS s', ({ timeS, tempC }) => {
    // Half a unit of the last printed digit, and what the run itself measured as its error.
    expect(Math.abs(tempAt(history, timeS) - tempC)).toBeLessThan(0.0005 + run.timeStepErrorK);
    expect(run.timeStepErrorK).toBeLessThan(1e-3);
  });

  it('takes 507.848 s from 200 to 120 °C, with a time constant of 864 s', () => {
    const slope = (120 - block.airC) / block.tauS;
    const off = tempAt(history, block.time200to120S) - 120;
    expect(Math.abs(off)).toBeLessThan(0.0005 * slope + run.timeStepErrorK);
  });
});

describe('surface and contact heat transfer', () => {
  const { naturalConvection: air, radiation, contact } = surfaces;
  it('still air on an upright plate, Churchill & Chu', () => {
    // The row uses tabulated air: conductivity and viscosity by Sutherland's formulas differ by 0.5 and 2 %, the
    // Prandtl number by 0.7 %; h goes with their first and half powers, 0.5 + 1 + 0.2 %.
    expect(Math.abs(stillAirFilmWPerM2K(air) / air.filmWPerM2K - 1)).toBeLessThan(0.017);
  });
  it.each(radiation.rows)(
    'radiation, emissivity $emissivity at $surfaceC °C',
    ({ emissivity, surfaceC, filmWPerM2K }) => {
      const film = radiationFilmWPerM2K(emissivity, surfaceC, radiation.surroundingsC);
      expect(Math.abs(film - filmWPerM2K)).toBeLessThanOrEqual(0.0051);
    },
  );
  it.each(contact.rows)(
    'contact at $pressureMPa MPa, Cooper, Mikic & Yovanovich',
    ({ pressureMPa, conductanceWPerM2K }) => {
      const { conductivityWPerMK, slope, roughnessUm, hardnessGPa } = contact;
      const h = contactConductanceWPerM2K({
        conductivityWPerMK,
        slope,
        roughnessUm,
        hardnessGPa,
        pressureMPa,
      });
      expect(Math.abs(h - conductanceWPerM2K)).toBeLessThanOrEqual(0.51);
    },
  );
});
