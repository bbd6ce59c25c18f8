import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { type ExplicitJob, explicit3d } from './explicit3d';
import { bothWays } from './explicitJobs';

const file = path.join(__dirname, 'explicitRuns.json');

/** A bar of cubes with both ends bare: what the code must give back can be written down. */
const still: ExplicitJob = {
  edgeMm: 2,
  blocks: [
    {
      boxMm: [0, 40, 0, 8, 0, 8],
      metal: { densityKgPerM3: 2700, conductivityWPerMK: 167, specificHeatJPerKgK: 896 },
    },
  ],
  filmWPerM2K: 50,
  ambientC: 20,
  initialC: 200,
  arcs: [],
  probesMm: [[20, 4, 4]],
  untilS: 60,
  everyS: 1,
};

describe('the explicit three-dimensional code', () => {
  it('cools a block as a body of one temperature does', () => {
    const { tempC } = explicit3d(still);
    const area = 2 * (8 * 8 + 2 * 8 * 40);
    const rate = (50e-6 * area) / (40 * 64 * 2700e-9 * 896);
    // Bi = h L/k = 50e-6 · 20/0.167 = 0.006 along half the bar: the centre lags by up to a third of it, the steps of
    // 5 ms add nothing.
    expect(Math.abs((tempC[0]!.at(-1)! - 20) / (180 * Math.exp(-rate * 60)) - 1)).toBeLessThan(0.006);
  });

  it('keeps its heat where nothing carries it away, arc and ring included', () => {
    const job: ExplicitJob = {
      ...still,
      filmWPerM2K: 0,
      initialC: 20,
      isRing: true,
      arcs: [{ fromMm: [4, 4], toMm: [36, 4], startS: 0, travelMmPerS: 16, netPowerW: 500, radiusMm: 4 }],
      probesMm: [0, 1, 2, 3].flatMap((y) =>
        [2, 22, 38].map((x): [number, number, number] => [x + 1, 2 * y + 1, 3]),
      ),
    };
    const { tempC } = explicit3d(job);
    const rise = 1000 / (40 * 64 * 2700e-9 * 896);
    // The arc's 2 s are cut into steps of 0.9 h²/6α = 8.6 ms: it may be counted one step long or short, 0.5 %.
    for (const history of tempC) expect(Math.abs((history.at(-1)! - 20) / rise - 1)).toBeLessThan(0.005);
  });

  // A few minutes: KEEP_EXPLICIT_RUNS=1 npx vitest run test/heatflow/explicit/keepRuns.test.ts
  it.runIf(process.env.KEEP_EXPLICIT_RUNS)(
    'writes its runs down',
    () => {
      const rounded = (numbers: readonly number[]) => numbers.map((x) => Number(x.toFixed(2)));
      const runs = Object.fromEntries(
        bothWays.map(({ name, explicit }) => {
          const { tempC, peakC } = explicit3d(explicit);
          return [name, { peakC: rounded(peakC), endC: rounded(tempC.map((history) => history.at(-1)!)) }];
        }),
      );
      const about =
        'Peaks and last temperatures, °C, of the jobs in explicitJobs.ts by explicit3d.ts, in the order of their probes. Written by keepRuns.test.ts.';
      writeFileSync(file, `${JSON.stringify({ about, ...runs }, undefined, 2)}\n`);
    },
    1_200_000,
  );

  it('has a run kept for every job', () => {
    const kept = JSON.parse(readFileSync(file, 'utf8'));
    for (const { name, plan } of bothWays) expect(kept[name].peakC).toHaveLength(plan.probes.length);
  });
});
