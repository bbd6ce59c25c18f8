import { describe, expect, it } from 'vitest';
import closed from '../../../data/published/conduction-solutions.json';
import data from '../../../data/published/plate-conduction.json';
import { type PlatePlan, type PlateResult, solvePlate } from '../../../lib/heatflow';
import { runChecked } from '../../../lib/heatflow/plate/runPlan';

/**
 * The plate solver against closed solutions of the heat equation (Carslaw & Jaeger; values evaluated outside this
 * project). The point source in an infinite body is left out: it is three-dimensional.
 *
 * Tolerances are derived, not chosen. In time no step errs by more than `toleranceK`, and conduction only damps
 * what is there, so the whole is bounded by steps × `toleranceK`. In space the scheme is of second order: the error on
 * quarter cells is a sixteenth of that on whole ones, and half as much again is allowed for higher terms.
 */
const { metal } = data;
const k = metal.conductivityWPerMK / 1e3;
const alpha = (metal.conductivityWPerMK / (metal.densityKgPerM3 * metal.specificHeatJPerKgK)) * 1e6;
const still = { convectionWPerM2K: 0, emissivity: 0, ambientC: 20 };

/** A bar of one row of cells, 1 mm thick. */
const bar = (cells: number, cellMm: number, more: Partial<PlatePlan>): PlatePlan => ({
  cellMm,
  part: [{ shape: { rectMm: [0, 0, cells * cellMm, cellMm] }, thicknessMm: 1, metal }],
  surface: still,
  initialC: 20,
  passes: [],
  probes: [],
  until: { coolForS: 1 },
  ...more,
});
const column = (i: number, cellMm: number) =>
  ({ rectMm: [i * cellMm, 0, (i + 1) * cellMm, cellMm] }) as const;
/** Holds a column of cells at a temperature. */
const held = (i: number, cellMm: number, bodyC: number) => ({
  shape: column(i, cellMm),
  conductanceWPerM2K: 1e9,
  bodyC,
});
const at = (xMm: number, yMm: number) => ({ name: `${xMm} ${yMm}`, xMm, yMm });

/** Runs a case on whole, half and quarter cells; `scale` turns a reading's error into the row's unit. */
function expectSecondOrder(
  cellMm: number,
  scale: number,
  exact: number,
  planFor: (cellMm: number) => PlatePlan,
  read: (endC: number[], cellMm: number) => number,
  solve: (plan: PlatePlan, options: { toleranceK: number }) => PlateResult = solvePlate,
): void {
  const toleranceK = 2e-4;
  const runs = [cellMm, cellMm / 2, cellMm / 4].map((h) => {
    const { probes, steps } = solve(planFor(h), { toleranceK });
    const value = read(
      probes.map(({ history }) => history.tempC.at(-1)!),
      h,
    );
    return { error: Math.abs(value - exact), inTime: scale * steps.count * toleranceK };
  });
  const [whole, half, quarter] = runs as [(typeof runs)[0], (typeof runs)[0], (typeof runs)[0]];
  expect(half.error).toBeLessThan((1.5 * whole.error) / 4 + half.inTime);
  expect(quarter.error).toBeLessThan((1.5 * whole.error) / 16 + quarter.inTime);
}

describe('surface stepped to a temperature', () => {
  it.each(data.steppedSurface.rows)('$xMm mm deep after $timeS s', ({ xMm, timeS, tempC }) =>
    expectSecondOrder(
      1,
      1,
      tempC,
      (h) =>
        bar(Math.round(100 / h) + 1, h, {
          contacts: [held(0, h, 300)],
          probes: [at(h / 2 + xMm, h / 2)],
          until: { coolForS: timeS },
        }),
      ([tempAtDepth]) => tempAtDepth!,
    ),
  );
});

describe('constant flux into a surface', () => {
  // A very hot body over a weak contact gives 1 W/mm² to within 6e-6; as no clamp is so hot, a plan is not checked
  // for it. The surface lies half a cell beside the centre.
  const solve = (plan: PlatePlan, { toleranceK }: { toleranceK: number }) =>
    runChecked(plan, { toleranceK, longestWaitS: 1, timeAboveC: [], onProgress: undefined });
  it.each(data.constantFlux.rows)('$xMm mm deep after $timeS s', ({ xMm, timeS, riseK }) =>
    expectSecondOrder(
      1,
      1,
      riseK,
      (h) =>
        bar(Math.round(80 / h), h, {
          contacts: [{ shape: column(0, h), conductanceWPerM2K: 0.1 / h, bodyC: 1e7 }],
          probes: [at(xMm === 0 ? h / 2 : xMm, h / 2)],
          until: { coolForS: timeS },
        }),
      ([tempC], h) => tempC! - 20 + (xMm === 0 ? h / 2 / k : 0),
      solve,
    ),
  );
});

describe('slab with both faces held', () => {
  it.each(data.slabFixedFaces.rows)('Fo = $fourier', ({ fourier, center, half }) => {
    const L = 20;
    const planFor = (h: number) =>
      bar(2 * Math.round(L / h) + 1, h, {
        initialC: 100,
        contacts: [held(0, h, 0), held(2 * Math.round(L / h), h, 0)],
        probes: [at(L + h / 2, h / 2), at(1.5 * L + h / 2, h / 2)],
        until: { coolForS: (fourier * L * L) / alpha },
      });
    expectSecondOrder(2, 0.01, center, planFor, ([tempC]) => tempC! / 100);
    expectSecondOrder(2, 0.01, half, planFor, ([, tempC]) => tempC! / 100);
  });
});

describe('slab in a fluid', () => {
  // The film acts on the face, half a cell beside the centre of the outermost cell: both resistances in series.
  it.each(data.slabConvection.rows)('Bi = $biot', ({ biot, fourier, center, surface }) => {
    const L = 20;
    const film = (biot * k) / L;
    const reach = (h: number) => 1 / (1 / film + h / 2 / k);
    const planFor = (h: number) => {
      const cells = 2 * Math.round(L / h);
      return bar(cells, h, {
        initialC: 100,
        contacts: [0, cells - 1].map((i) => ({
          shape: column(i, h),
          conductanceWPerM2K: (reach(h) / h) * 1e6,
          bodyC: 0,
        })),
        probes: [at(L, h / 2), at(h / 2, h / 2)],
        until: { coolForS: (fourier * L * L) / alpha },
      });
    };
    expectSecondOrder(4, 0.01, center, planFor, ([tempC]) => tempC! / 100);
    expectSecondOrder(4, 0.01, surface, planFor, ([, tempC], h) => ((tempC! / 100) * reach(h)) / film);
  });
});

describe('instantaneous plane source', () => {
  // A hundredth of the heat, so that the first cell stays below 2000 °C; the equation is linear.
  const { rows, netHeatJPerMm, thicknessMm } = closed.instantaneousPlane;
  it.each(rows)('$acrossMm mm beside it after $timeS s', ({ acrossMm, timeS, riseK }) =>
    expectSecondOrder(
      2,
      100,
      riseK,
      (h) => {
        const side = Math.round(100 / h);
        const rise = netHeatJPerMm / 100 / thicknessMm / ((k / alpha) * h);
        return bar(2 * side + 1, h, {
          preheat: [{ shape: column(side, h), tempC: 20 + rise }],
          probes: [at((side + 0.5) * h + acrossMm, h / 2)],
          until: { coolForS: timeS },
        });
      },
      ([tempC]) => 100 * (tempC! - 20),
    ),
  );
});

describe('instantaneous line source on a half-space, the plan being the cross-section', () => {
  // A thousandth of the heat, in the four cells around the line and its mirror image.
  const { rows, netHeatJPerMm } = closed.instantaneousLine;
  it.each(rows)('$distanceMm mm deep after $timeS s', ({ distanceMm, timeS, riseK }) =>
    expectSecondOrder(
      2,
      1000,
      riseK,
      (h) => ({
        ...bar(1, h, {}),
        part: [{ shape: { rectMm: [-44, 0, 44, 44] }, thicknessMm: 1, metal }],
        preheat: [
          {
            shape: { rectMm: [-h, 0, h, h] },
            tempC: 20 + netHeatJPerMm / 1000 / ((k / alpha) * 2 * h * h),
          },
        ],
        probes: [at(0, distanceMm)],
        until: { coolForS: timeS },
      }),
      ([tempC]) => 1000 * (tempC! - 20),
    ),
  );
});

describe('cosine mode in an insulated bar', () => {
  const rateOn = (cells: number) => {
    const h = 100 / cells;
    const mode = (i: number) => Math.cos((Math.PI * (i + 0.5)) / cells);
    const { finalC } = solvePlate(
      bar(cells, h, {
        preheat: Array.from({ length: cells }, (_, i) => ({
          shape: column(i, h),
          tempC: 200 + 100 * mode(i),
        })),
        until: { coolForS: 10 },
      }),
      { toleranceK: 1e-5 },
    );
    const amplitude = (2 / cells) * finalC.reduce((sum, tempC, i) => sum + (tempC - 200) * mode(i), 0);
    return -Math.log(amplitude / 100) / 10;
  };
  it.each(data.cosineMode.rows)(
    'decays on $cells cells as the central difference does',
    ({ cells, ratePerS }) => {
      // 100 K falls to 51 K in some hundred steps of 1e-5 K at most: 1e-3 / 51 / 10 s.
      expect(Math.abs(rateOn(cells) - ratePerS)).toBeLessThan(2e-6);
    },
  );
  it('comes four times nearer to the exact rate with half the cell', () => {
    const [coarse, middle, fine] = data.cosineMode.rows.map(({ cells }) =>
      Math.abs(rateOn(cells) - data.cosineMode.exactRatePerS),
    ) as [number, number, number];
    expect(Math.log2(coarse / middle)).toBeCloseTo(2, 1);
    expect(Math.log2(middle / fine)).toBeCloseTo(2, 1);
  });
});

describe('block cooling in air', () => {
  const { lumpedBlock: block } = closed;
  const [a, b, c] = block.sizeMm as [number, number, number];
  const film = block.filmWPerM2K * 1e-6;
  it.each(block.rows)('after $timeS s', ({ timeS, tempC }) => {
    const { finalC, probes, steps } = solvePlate(
      {
        ...bar(1, 5, {}),
        part: [{ shape: { rectMm: [0, 0, a, b] }, thicknessMm: c, metal }],
        surface: { convectionWPerM2K: block.filmWPerM2K, emissivity: 0, ambientC: block.airC },
        initialC: block.startC,
        probes: [at(a / 2, b / 2), at(0, 0)],
        until: { coolForS: timeS },
      },
      { toleranceK: 1e-3 },
    );
    const mean = finalC.reduce((sum, t) => sum + t, 0) / finalC.length;
    // The closed form takes the block as even. Its rim is cooler than the mean by film × excess × L / 3k = 0.09 K of
    // 180 K, so it loses that much more slowly: 0.05 % of the 53 K lost in 300 s.
    expect(Math.abs(mean - tempC)).toBeLessThan(0.03 + steps.count * 1e-3);
    // The loss at the rim bends the temperature into a parabola each way; the probes read at the outermost cell
    // centre and one half cell beside the middle.
    const [centre, corner] = probes.map(({ history }) => history.tempC.at(-1)!) as [number, number];
    const bend = (film * (tempC - block.airC) * a) / 2 / (2 * k);
    expect((centre - corner) / (2 * bend * (0.9 ** 2 - 0.1 ** 2))).toBeCloseTo(1, 1);
  });
});

describe('radiation alone', () => {
  it.each(data.radiation.rows)('after $timeS s', ({ timeS, tempC }) => {
    const { finalC, steps } = solvePlate(
      {
        ...bar(1, 5, {}),
        part: [{ shape: { rectMm: [0, 0, 50, 50] }, thicknessMm: 3, metal }],
        surface: { convectionWPerM2K: 0, emissivity: 0.3, ambientC: 20 },
        initialC: 300,
        until: { coolForS: timeS },
      },
      { toleranceK: 1e-3 },
    );
    const mean = finalC.reduce((sum, t) => sum + t, 0) / finalC.length;
    expect(Math.abs(mean - tempC)).toBeLessThan(5e-5 + steps.count * 1e-3);
  });
});

describe('melting from a hot surface (Stefan problem, melting range 1 K wide)', () => {
  const { rows, latentHeatJPerKg } = data.melting;
  it.each(rows)('$xMm mm deep after $timeS s, front at $frontMm mm', ({ xMm, timeS, frontMm, tempC }) => {
    const h = 0.5;
    const cells = 121;
    const { probes, finalC, energy } = solvePlate(
      {
        ...bar(cells, h, {}),
        part: [
          {
            shape: { rectMm: [0, 0, cells * h, h] },
            thicknessMm: 1,
            metal: { ...metal, latentHeatJPerKg, solidusC: 600, liquidusC: 601 },
          },
        ],
        initialC: 600,
        contacts: [held(0, h, 700)],
        probes: [at(h / 2 + xMm, h / 2)],
        until: { coolForS: timeS },
      },
      { toleranceK: 0.05 },
    );
    // The front crosses a cell at a time: it is known to half a cell, and with it the temperature behind it to
    // 100 K · x/s² · half a cell; the melting range adds its 1 K.
    expect(Math.abs(probes[0]!.history.tempC.at(-1)! - tempC)).toBeLessThan(
      (100 * xMm * (h / 2)) / frontMm ** 2 + 1,
    );
    const molten = finalC.findIndex((t) => t < 600.5);
    expect(Math.abs((molten - 0.5) * h - frontMm)).toBeLessThan(h);
    expect(energy.imbalance).toBeLessThan(1e-9);
  });
});

describe('steady bar whose conductivity rises with temperature', () => {
  const { finalC } = solvePlate(
    {
      ...bar(101, 1, {}),
      part: [
        {
          shape: { rectMm: [0, 0, 101, 1] },
          thicknessMm: 1,
          metal: {
            ...metal,
            conductivityWPerMK: {
              tempC: [0, 400],
              value: [120, 168],
              source: data.variableConductivity.meaning,
            },
          },
        },
      ],
      initialC: 200,
      contacts: [held(0, 1, 0), held(100, 1, 400)],
      until: { coolForS: 3000 },
    },
    { toleranceK: 1e-3 },
  );
  it.each(data.variableConductivity.rows)('at $share of its length', ({ share, tempC }) => {
    // Face conductance is the mean of its two cells: exact for k linear in T. Left: what of the start is not yet
    // gone (exp(−π² α t / L²) < 1e-8) and a few last steps of 1e-3 K.
    expect(Math.abs(finalC[100 * share]! - tempC)).toBeLessThan(0.01);
  });
});
