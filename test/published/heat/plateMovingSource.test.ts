import { describe, expect, it } from 'vitest';
import table from '../../../data/published/rosenthal.json';
import { mediumPlateRise, type PlatePlan, solvePlate, thinPlateRise } from '../../../lib/heatflow';
import { faceExcessK } from '../../../lib/heatflow/plate/outcome/throughThickness';
import { tempAt } from '../../../lib/history';

/**
 * The plate solver with a travelling arc against exact solutions: Rosenthal's steady field far from edges
 * (data/published/rosenthal.json), and the same line source switched on at a time, by integrating the
 * instantaneous line source of Carslaw & Jaeger §10.2 over the way of the arc, mirrored at insulated edges.
 */
const { metal: published } = table;
const metal = {
  densityKgPerM3: published.densityKgPerM3,
  conductivityWPerMK: published.conductivityWPerMK,
  specificHeatJPerKgK: published.specificHeatJPerKgK,
};
const heatPerMm3K = published.volumetricHeatJPerM3K * 1e-9;
const alpha = published.conductivityWPerMK / 1e3 / heatPerMm3K;
const insulated = { convectionWPerM2K: 0, emissivity: 0, ambientC: 20 };

interface Arc {
  readonly fromMm: readonly [number, number];
  readonly toMm: readonly [number, number];
  readonly travelMmPerS: number;
  readonly netPowerW: number;
  readonly radiusMm: number;
  readonly thicknessMm: number;
  /** Mirror lines of insulated edges: x = 0 and this, y = 0 and this. */
  readonly edgesMm?: readonly [number, number];
}

/** Rise at a point and time, K, by Simpson's rule in the logarithm of the spread (2000 intervals: better than 1e-6). */
function exactRise(arc: Arc, xMm: number, yMm: number, timeS: number): number {
  const [fx, fy] = arc.fromMm;
  const length = Math.hypot(arc.toMm[0] - fx, arc.toMm[1] - fy);
  const [ux, uy] = [(arc.toMm[0] - fx) / length, (arc.toMm[1] - fy) / length];
  const arcS = length / arc.travelMmPerS;
  const own = arc.radiusMm ** 2 / 6;
  const low = own + 2 * alpha * Math.max(0, timeS - arcS);
  const high = own + 2 * alpha * timeS;
  const images: [number, number][] = [];
  for (const i of arc.edgesMm ? [-2, -1, 0, 1, 2] : [0])
    for (const j of arc.edgesMm ? [-2, -1, 0, 1, 2] : [0])
      for (const sx of arc.edgesMm ? [1, -1] : [1])
        for (const sy of arc.edgesMm ? [1, -1] : [1])
          images.push([
            2 * i * (arc.edgesMm?.[0] ?? 0) + sx * xMm,
            2 * j * (arc.edgesMm?.[1] ?? 0) + sy * yMm,
          ]);
  // With w the spread: dτ = dw/2α = w d(ln w)/2α, and each moment adds P/(ρc d) dτ exp(−r²/2w)/(2πw).
  const moment = (w: number) => {
    const way = arc.travelMmPerS * (timeS - (w - own) / (2 * alpha));
    const [x, y] = [fx + ux * way, fy + uy * way];
    let sum = 0;
    for (const [px, py] of images) sum += Math.exp(-((px - x) ** 2 + (py - y) ** 2) / (2 * w));
    return sum;
  };
  const intervals = 2000;
  const step = Math.log(high / low) / intervals;
  let sum = 0;
  for (let i = 0; i <= intervals; i++) {
    const weight = i === 0 || i === intervals ? 1 : i % 2 ? 4 : 2;
    sum += weight * moment(low * Math.exp(i * step));
  }
  return ((arc.netPowerW / (heatPerMm3K * arc.thicknessMm)) * (sum * step)) / 3 / (2 * alpha) / (2 * Math.PI);
}

describe('arc crossing a wide plate', () => {
  const { netPowerW, travelMmPerS, thicknessMm, rows } = table.thinPlatePeaks;
  // Half the plate and half the power: the path is the line of symmetry. 300 mm of travel, probes after 200 mm.
  const arc: Arc = {
    fromMm: [60, 0],
    toMm: [360, 0],
    travelMmPerS,
    netPowerW,
    radiusMm: 4,
    thicknessMm,
  };
  const probeX = 260;
  const across = [10, 20, 30];
  const plan = (cellMm: number, film: number): PlatePlan => ({
    cellMm,
    part: [{ shape: { rectMm: [0, 0, 400, 180] }, thicknessMm, metal }],
    surface: { ...insulated, convectionWPerM2K: film, rim: 'insulated' },
    initialC: 20,
    passes: [{ path: [arc.fromMm, arc.toMm], travelMmPerS, netPowerW: netPowerW / 2, sourceRadiusMm: 4 }],
    probes: across.map((y) => ({ name: `${y}`, xMm: probeX, yMm: y })),
    until: { coolForS: 0 },
  });
  const fine = solvePlate(plan(2, 0), { toleranceK: 0.4 });
  const coarse = solvePlate(plan(4, 0), { toleranceK: 0.4 });
  const airy = solvePlate(plan(2, 10), { toleranceK: 0.4 });

  it.each(across)('follows the exact rise %i mm beside the path', (y) => {
    const k = across.indexOf(y);
    let worst = 0;
    let worstCoarse = 0;
    for (let t = 34; t <= 60; t += 1) {
      const exact = exactRise(arc, probeX, y, t);
      worst = Math.max(worst, Math.abs(tempAt(fine.probes[k]!.history, t) - 20 - exact));
      worstCoarse = Math.max(worstCoarse, Math.abs(tempAt(coarse.probes[k]!.history, t) - 20 - exact));
    }
    // Second order in space: half the cell, a quarter of the error (half as much again for higher terms). A step errs
    // by 0.4 K at most beside the arc, an error that spreads like its heat: the whole stays near a few steps' worth.
    expect(worst).toBeLessThan((1.5 * worstCoarse) / 4 + 0.6);
    // And in the end: within 0.5 % of the peak.
    expect(worst).toBeLessThan(0.005 * exactPeak(y));
  });

  const exactPeak = (y: number) => {
    let peak = 0;
    for (let t = 38; t < 60; t += 0.05) peak = Math.max(peak, exactRise(arc, probeX, y, t));
    return peak;
  };

  it.each(rows.filter((row) => row.lossWPerM2K === 0 && across.includes(row.acrossMm)))(
    'peaks at $riseK K $acrossMm mm beside the path (steady Rosenthal field)',
    ({ acrossMm, riseK }) => {
      const { peakC } = fine.probes[across.indexOf(acrossMm)]!;
      // The arc has come 200 mm and is 4 mm wide: how far that still is from steady and from a line is known exactly.
      const unsteady = Math.abs(exactPeak(acrossMm) - riseK);
      expect(unsteady / riseK).toBeLessThan(0.02);
      expect(Math.abs(peakC - 20 - riseK)).toBeLessThan(unsteady + 0.005 * riseK);
    },
  );

  it.each(rows.filter((row) => row.lossWPerM2K === 20))(
    'loses to air as the field with loss does, $acrossMm mm beside the path',
    ({ acrossMm, riseK }) => {
      const without = rows.find((row) => row.acrossMm === acrossMm && row.lossWPerM2K === 0)!.riseK;
      const k = across.indexOf(acrossMm);
      const air = airy.probes[k]!.peakC - 20;
      const still = fine.probes[k]!.peakC - 20;
      // Both runs share their grid error; the loss itself is 0.9 % and 2.5 % of the rise. A tenth of it is allowed.
      expect(Math.abs(air / still - riseK / without)).toBeLessThan(0.1 * (1 - riseK / without));
    },
  );

  it('has the field of thinPlateRise around the arc, farther than three radii', () => {
    const at = (alongMm: number, acrossMm: number) =>
      thinPlateRise({
        netPowerW,
        travelMmPerS,
        thicknessMm,
        conductivityWPerMK: published.conductivityWPerMK,
        volumetricHeatJPerM3K: published.volumetricHeatJPerM3K,
        alongMm,
        acrossMm,
      });
    // 300 mm from the start, at the moment the arc goes out.
    const { columns, cellMm } = fine.grid;
    let compared = 0;
    for (let x = 320; x < 380; x += 4)
      for (let y = 0; y < 40; y += 4) {
        const [column, row] = [x / cellMm, y / cellMm];
        const [alongMm, acrossMm] = [(column + 0.5) * cellMm - 360, (row + 0.5) * cellMm];
        if (Math.hypot(alongMm, acrossMm) < 12) continue;
        const rise = fine.finalC[row * columns + column]! - 20;
        // Ahead of the arc the field falls by 1/12 mm and half as fast behind; 1 % of the highest value compared.
        expect(Math.abs(rise - at(alongMm, acrossMm))).toBeLessThan(5);
        compared++;
      }
    expect(compared).toBeGreaterThan(100);
  });
});

describe('one pass over a small insulated plate (100 × 100 × 4 mm, 300 J/mm)', () => {
  const { bulkRise } = table;
  const arc: Arc = {
    fromMm: [50, 0],
    toMm: [50, 100],
    travelMmPerS: 5,
    netPowerW: 1500,
    radiusMm: 4,
    thicknessMm: 4,
    edgesMm: [100, 100],
  };
  const points = [
    [60, 50],
    [75, 80],
    [90, 10],
  ] as const;
  const run = (cellMm: number, coolForS: number) =>
    solvePlate(
      {
        cellMm,
        part: [{ shape: { rectMm: [0, 0, 100, 100] }, thicknessMm: 4, metal }],
        surface: insulated,
        initialC: 20,
        passes: [{ path: [arc.fromMm, arc.toMm], travelMmPerS: 5, netPowerW: 1500, sourceRadiusMm: 4 }],
        probes: points.map(([xMm, yMm]) => ({ name: `${xMm} ${yMm}`, xMm, yMm })),
        until: { coolForS },
      },
      { toleranceK: 0.1 },
    );

  it('raises the whole plate by the published 310 K', () => {
    const { finalC, energy, massKg } = run(2, 400);
    expect(massKg).toBeCloseTo(bulkRise.massKg, 6);
    expect(energy.arcJ).toBeCloseTo(bulkRise.netHeatJ, 6);
    // Half a unit of the last printed digit; 400 s are 27 time constants of the slowest mode.
    for (const tempC of finalC) expect(Math.abs(tempC - 20 - bulkRise.riseK)).toBeLessThan(0.05);
  });

  it('follows the mirrored sources at its edges, four times nearer with half the cell', () => {
    const [coarse, fine] = [2, 1].map((cellMm) => {
      const { probes } = run(cellMm, 10);
      let furthest = 0;
      for (const [k, [x, y]] of points.entries())
        for (let t = 2; t <= 30; t += 2) {
          // Half a Gaussian spills over the edge where the arc starts and ends; the solver keeps it on the plate, as the
          // mirrored sources do.
          const exact = 20 + exactRise(arc, x, y, t);
          furthest = Math.max(furthest, Math.abs(tempAt(probes[k]!.history, t) - exact));
        }
      return furthest;
    }) as [number, number];
    // Second order, half as much again for higher terms; one step's tolerance and the flatness of a history beside it.
    expect(fine).toBeLessThan((1.5 * coarse) / 4 + 0.1 + 0.05);
    expect(coarse).toBeLessThan(0.01 * bulkRise.riseK);
  });
});

describe('how much hotter the face under the arc is than the mean (plates of medium thickness)', () => {
  const { netPowerW, thicknessMm, rows } = table.mediumPlatePeaks;
  const excess = (distanceMm: number, radiusMm = 0.01) =>
    faceExcessK({
      netPowerW,
      radiusMm,
      thicknessMm,
      conductivityWPerMmK: published.conductivityWPerMK / 1e3,
      distanceMm,
    });
  it.each(rows)(
    '$acrossMm mm beside a nearly still arc: what lies between medium and thin plate',
    ({ acrossMm }) => {
      const still = {
        netPowerW,
        travelMmPerS: 0.01,
        thicknessMm,
        conductivityWPerMK: published.conductivityWPerMK,
        volumetricHeatJPerM3K: published.volumetricHeatJPerM3K,
        alongMm: 0,
        acrossMm,
      };
      const between = mediumPlateRise({ ...still, depthMm: 0 }) - thinPlateRise(still);
      // Eight modes and an integral of geometric convergence; at 30 mm the difference of two large numbers has 5 digits.
      expect(excess(acrossMm) / between).toBeCloseTo(1, 3);
    },
  );

  it.each(rows)(
    '$acrossMm mm beside the path: the published difference of peaks stays below it',
    ({ acrossMm, topRiseK, thinRiseK }) => {
      // The peaks come after the arc has passed, when the difference has begun to even out: the estimate, made for the
      // moment of passing, is on the high side: by 4 % near the arc, by a few kelvin farther off.
      const difference = topRiseK - thinRiseK;
      expect(excess(acrossMm)).toBeGreaterThan(difference);
      expect(excess(acrossMm)).toBeLessThan(1.05 * difference + 6);
      expect(excess(acrossMm, 4)).toBeLessThan(2 * excess(acrossMm));
    },
  );

  it('tends to flux × thickness / 3k under a wide arc', () => {
    const radiusMm = 100;
    const peakFlux = (3 * netPowerW) / (Math.PI * radiusMm ** 2);
    const plain = (peakFlux * thicknessMm) / (3 * (published.conductivityWPerMK / 1e3));
    // The sum stops at mode 8: Σ 1/n² up to there instead of π²/6. The flux falls off sideways, which takes
    // 12 (d/πR)² at most off each mode.
    const modes = [1, 2, 3, 4, 5, 6, 7, 8].reduce((sum, n) => sum + 1 / n ** 2, 0) / (Math.PI ** 2 / 6);
    expect(excess(0, radiusMm) / plain).toBeLessThan(modes);
    expect(excess(0, radiusMm) / plain).toBeGreaterThan(
      modes * (1 - 12 * (thicknessMm / (Math.PI * radiusMm)) ** 2),
    );
  });
});
