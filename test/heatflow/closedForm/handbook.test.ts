import { describe, expect, it } from 'vitest';
import {
  beadAreaMm2,
  bulkRise,
  coolingTime,
  handbookHazWidthMm,
  handbookPeakC,
  handbookThickPeakC,
  solidificationTime,
  steelCoolingTime85,
  weldCoolingRate,
} from '../../../lib/heatflow';
import { fc } from '../../setup/fc';

const steel = { conductivityWPerMK: 28, volumetricHeatJPerM3K: 4.4e6 };
const weld = { ...steel, thicknessMm: 5, netHeatJPerMm: 720, startC: 25, meltC: 1510 };

describe('handbook equations', () => {
  it('peak and width are each other turned round', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 60, noNaN: true }), (fromFusionMm) => {
        const boundaryC = handbookPeakC({ ...weld, fromFusionMm });
        expect(handbookHazWidthMm({ ...weld, boundaryC })).toBeCloseTo(fromFusionMm, 8);
      }),
    );
  });

  it('thin form gives the melting temperature at the fusion boundary; the printed thick form does not', () => {
    expect(handbookPeakC({ ...weld, fromFusionMm: 0 })).toBeCloseTo(1510, 9);
    const thick = { ...weld, netPowerW: 3600, travelMmPerS: 5, fromFusionMm: 0 };
    expect(handbookThickPeakC(thick)).toBeLessThan(1400);
  });

  it('cooling time: each limit applies on its side of the transition thickness, where both agree', () => {
    const at = (thicknessMm: number) => coolingTime({ ...weld, thicknessMm, fromC: 800, toC: 500 });
    const d = at(5).transitionMm;
    expect(at(d).thinS).toBeCloseTo(at(d).thickS, 8);
    expect([at(0.9 * d).applies, at(1.1 * d).applies]).toEqual(['thin', 'thick']);
  });

  it('cooling rate is the slope of the cooling time', () => {
    const rate = weldCoolingRate({ ...weld, atC: 600 });
    const { thinS, thickS } = coolingTime({ ...weld, fromC: 600.5, toC: 599.5 });
    // A 1 K chord of the curve: its error is about (1 K / 575 K)², 3e-6.
    expect(rate.thinKPerS * thinS).toBeCloseTo(1, 5);
    expect(rate.thickKPerS * thickS).toBeCloseTo(1, 5);
  });

  it('says when the thickness lies between thin and thick', () => {
    expect(weldCoolingRate({ ...weld, thicknessMm: 13, atC: 550 })).toMatchObject({
      applies: 'thin',
      between: true,
    });
    expect(weldCoolingRate({ ...weld, thicknessMm: 14.5, atC: 550 })).toMatchObject({
      applies: 'thick',
      between: true,
    });
    expect(weldCoolingRate({ ...weld, thicknessMm: 30, atC: 550 })).toMatchObject({
      applies: 'thick',
      between: false,
    });
  });

  it('solidification takes the heat of fusion out at the thick-plate rate', () => {
    const rest = { ...steel, netHeatJPerMm: 800, startC: 25, meltC: 1510 };
    const time = solidificationTime({ ...rest, fusionHeatJPerMm3: 2 });
    // St = L H / (2π k ρc (Tm−T0)²) by hand: 2·800 / (2π·0.028·0.0044·1485²) = 0.937 s.
    expect(time).toBeCloseTo(0.937, 3);
  });

  it.each([
    [
      'a zone edge above melting',
      () => handbookHazWidthMm({ ...weld, boundaryC: 1600 }),
      /between start and melting/,
    ],
    [
      'a start above melting',
      () => handbookPeakC({ ...weld, startC: 1600, fromFusionMm: 1 }),
      /below the melting/,
    ],
    ['a negative distance', () => handbookPeakC({ ...weld, fromFusionMm: -1 }), /fromFusionMm/],
    [
      'heating instead of cooling',
      () => coolingTime({ ...weld, fromC: 300, toC: 500 }),
      /hotter to a colder/,
    ],
    ['a rate below the start', () => weldCoolingRate({ ...weld, atC: 20 }), /above the start/],
    [
      'a start too hot for the steel form',
      () => steelCoolingTime85({ netHeatKJPerMm: 1, startC: 600, thicknessMm: 10 }),
      /startC/,
    ],
    ['no mass', () => bulkRise({ netHeatJ: 1, massKg: 0, specificHeatJPerKgK: 900 }), /massKg/],
    [
      'an efficiency above one',
      () =>
        beadAreaMm2({
          arcPowerW: 1,
          efficiency: 1.2,
          meltingShare: 0.3,
          meltingHeatJPerMm3: 10,
          travelMmPerS: 5,
        }),
      /efficiency/,
    ],
  ])('say what is wrong with %s', (_, run, message) => expect(run).toThrow(message));
});
