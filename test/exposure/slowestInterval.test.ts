import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { slowestInterval } from '../../lib/exposure';
import { thinPlateHistory } from '../../lib/heatflow';
import { isothermal } from '../../lib/history';
import { TemperbookError } from '../../lib/quantity';

type Scenario = [label: string, netPowerW: number, travelMmPerS: number, thicknessMm: number];
const { scenarios, columns, rows } = JSON.parse(
  readFileSync(`${__dirname}/../../data/published/logger-sampling.json`, 'utf8'),
).movingLineSource;
const LOGGERS: readonly (readonly [intervalS: number, column: string])[] = [
  [5, 'missed5s'],
  [2, 'missed2s'],
  [1, 'missed1s'],
  [0.5, 'missed0p5s'],
  [0.1, 'missed0p1s'],
];

describe('slowestInterval', () => {
  it.each<[number, number]>(rows.map((row: number[]) => [row[0], row[1]]))(
    'is fast enough beside moving line source %d at %d mm by the table worked out apart from this project',
    (scenario, acrossMm) => {
      const [, netPowerW, travelMmPerS, thicknessMm] = (scenarios as Scenario[])[scenario]!;
      const history = thinPlateHistory({
        netPowerW,
        travelMmPerS,
        thicknessMm,
        conductivityWPerMK: 175,
        volumetricHeatJPerM3K: 2.754e6,
        acrossMm,
        startC: 20,
        timeS: Float64Array.from({ length: 12_000 }, (_, i) => -20 + i * 0.01),
      });
      const chosenS = slowestInterval(history, {
        activationEnergyJPerMol: 130_000,
        peakK: 2,
        exposureFraction: 1,
      })!;
      const row = (rows as number[][]).find((r) => r[0] === scenario && r[1] === acrossMm)!;
      const missed = (column: string) => row[columns.indexOf(column)]!;
      // Of the table's loggers: no slower one than the slowest that misses 2 K at most, and not two steps faster.
      const good = LOGGERS.findIndex(([, column]) => missed(column) <= 2);
      expect(chosenS).toBeLessThanOrEqual(good === 0 ? 60 : LOGGERS[good - 1]![0]);
      expect(missed((LOGGERS.find(([s]) => s <= chosenS) ?? LOGGERS[4]!)[1])).toBeLessThanOrEqual(2);
    },
  );

  it('has nothing to follow in a long soak, and wants more than ten readings a second of a blow', () => {
    const need = { activationEnergyJPerMol: 130_000 };
    expect(slowestInterval(isothermal(180, 36_000), need)).toBe(60);
    const blow = thinPlateHistory({
      netPowerW: 3000,
      travelMmPerS: 60,
      thicknessMm: 1,
      conductivityWPerMK: 167,
      volumetricHeatJPerM3K: 2.4e6,
      acrossMm: 1,
      startC: 20,
      timeS: Float64Array.from({ length: 4000 }, (_, i) => -0.5 + i * 0.001),
    });
    expect(slowestInterval(blow, need)).toBeUndefined();
    expect(() => slowestInterval(blow, { activationEnergyJPerMol: -1 })).toThrow(TemperbookError);
  });
});
