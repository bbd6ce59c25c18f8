import { describe, expect, it } from 'vitest';
import {
  fitFigure,
  hardnessFigure,
  heatmapFigure,
  peakMapOf,
  softZoneFigure,
  staticSvg,
} from '../../lib/figure';
import { type Calibration, type PlateResult, solvePlate } from '../../lib/heatflow';
import { thermalHistory } from '../../lib/history';
import { type SoftZone, softZone } from '../../lib/planning';
import { TemperbookError } from '../../lib/quantity';

const heated = (peakC: number) => thermalHistory([0, 10, 60], [20, peakC, 20]);
const zoneOf = (alloy: string): SoftZone =>
  softZone(
    [6, 12, 24].map((distanceMm) => ({ distanceMm, history: heated(600 - 16 * distanceMm) })),
    { alloy, temper: 'T6', ambientC: 20 },
  );

describe('softZoneFigure', () => {
  const zone = zoneOf('6061');
  const figure = softZoneFigure(zone, { marks: [{ name: 'one inch', distanceMm: 25.4 }] });

  it('draws a band and a line for each treatment, in per cent, with the strength asked for', () => {
    const lines = figure.data.filter(({ name }) => name);
    expect(lines.map(({ name }) => name)).toEqual(['as welded', 'after three weeks', 'aged again']);
    expect(lines[0]!.x).toEqual([6, 12, 24]);
    expect(lines[0]!.y![0]).toBeCloseTo(100 * zone.points[0]!.kept.asWelded.nominal, 1);
    const texts = figure.layout.annotations!.map(({ text }) => text);
    expect(texts).toEqual(expect.arrayContaining(['keep 90 %', 'one inch']));
    expect(JSON.parse(JSON.stringify(figure))).toEqual(figure);
    expect(staticSvg(figure)).toContain('<svg');
  });

  it('has its counterpart in hardness for wrought metal, and none for castings', () => {
    const hardness = hardnessFigure(zone);
    expect(hardness.data.find(({ name }) => name === 'as welded')!.y![0]).toBeCloseTo(
      zone.points[0]!.vickers!.asWelded.nominal,
      1,
    );
    // 0.33 · 0.9 · 276 + 16 = 98.0 HV.
    const level = hardness.layout.annotations!.find(({ text }) => text.startsWith('stands for 90 %'))!;
    expect(level.y).toBeCloseTo(97.97, 2);
    expect(() => hardnessFigure(zoneOf('A356.0'))).toThrow(TemperbookError);
  });
});

describe('fitFigure', () => {
  const history = thermalHistory([0, 60, 120, 180], [20, 200, 100, 60]);
  const fitted: Pick<Calibration<string>, 'channels' | 'passes'> = {
    passes: [],
    channels: [
      {
        name: 'TC1',
        timeS: history.timeS,
        residualC: Float64Array.from([0, 2, -1, 0.5]),
        rmsC: 1.1,
        worstC: 2,
        swingK: 180,
        persistence: 0.2,
        predicted: thermalHistory([0, 60, 120, 180], [20, 198, 101, 59.5]),
      },
    ],
  };

  it('draws readings, the model over them and what is left under them, on one time axis', () => {
    const figure = fitFigure([{ name: 'TC1', history }], fitted);
    const model = figure.data.find(({ name }) => name === 'TC1, model')!;
    const left = figure.data.find(({ name }) => name === 'TC1, reading less model')!;
    expect(model.y).toEqual([20, 198, 101, 59.5]);
    expect(model.x).toEqual([0, 1, 2, 3]);
    expect(left.y).toEqual([0, 2, -1, 0.5]);
    expect(left.yaxis).toBe('y3');
    expect(figure.layout.yaxis3!.range![1]).toBeGreaterThan(2);
    expect(staticSvg(figure)).toContain('<svg');
  });

  it('draws only channels that were fitted, and needs one', () => {
    const both = fitFigure(
      [
        { name: 'TC2', history },
        { name: 'TC1', history },
      ],
      fitted,
    );
    expect(both.data.some(({ name }) => name?.startsWith('TC2'))).toBe(false);
    expect(() => fitFigure([{ name: 'TC2', history }], fitted)).toThrow(TemperbookError);
  });
});

describe('heatmapFigure', () => {
  it('draws a fine grid of 250,000 cells', () => {
    const at = Array.from({ length: 500 }, (_, k) => k / 2);
    const figure = heatmapFigure({
      alongMm: at,
      acrossMm: at,
      peakC: at.map((y) => at.map((x) => 20 + x + y)),
    });
    expect(figure.data[0]).toMatchObject({ zmin: 20, zmax: 519 });
    expect(staticSvg(figure)).toContain('<svg');
  });

  it('refuses a map without metal', () => {
    const nothing = {
      alongMm: [0, 1],
      acrossMm: [0, 1],
      peakC: [
        [null, null],
        [null, null],
      ],
    };
    expect(() => heatmapFigure(nothing)).toThrow(TemperbookError);
  });
});

describe('peakMapOf', () => {
  const result: PlateResult = solvePlate({
    cellMm: 5,
    part: [
      {
        shape: { rectMm: [0, 0, 30, 20] },
        thicknessMm: 4,
        metal: { densityKgPerM3: 2700, conductivityWPerMK: 167, specificHeatJPerKgK: 896 },
      },
      { shape: { rectMm: [0, 0, 10, 10] }, thicknessMm: 0, metal: '6061' },
    ],
    surface: { convectionWPerM2K: 10, emissivity: 0.2, ambientC: 20 },
    initialC: 20,
    passes: [
      {
        path: [
          [5, 15],
          [25, 15],
        ],
        travelMmPerS: 10,
        netPowerW: 500,
        sourceRadiusMm: 10,
      },
    ],
    probes: [],
    until: { coolForS: 1 },
  });
  const map = peakMapOf(result);

  it('has one row for each place across, cell centres for axes, and nothing where there is no metal', () => {
    expect(map.alongMm).toEqual([2.5, 7.5, 12.5, 17.5, 22.5, 27.5]);
    expect(map.acrossMm).toEqual([2.5, 7.5, 12.5, 17.5]);
    expect(map.peakC[0]!.map((peak) => peak === null)).toEqual([true, true, false, false, false, false]);
    expect(map.peakC[3]![2]).toBe(result.peakC[3 * 6 + 2]);
  });

  it('draws the pool in one colour when told how hot metal can be', () => {
    expect(
      Math.max(
        ...peakMapOf(result, 40)
          .peakC.flat()
          .map((peak) => peak ?? 0),
      ),
    ).toBe(40);
  });
});
