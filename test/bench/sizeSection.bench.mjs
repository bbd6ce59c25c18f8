// Sizing the tube of the invented mast for a factor of 4, and its factor at a thousand walls. CPU time, because a shared
// machine would tell more of its neighbours.
import { createRequire } from 'node:module';

const { factorCurve, sizeSection } = createRequire(import.meta.url)('../../dist/section');
const AIM_MS = { size: 50, sweep: 1000 };
const mast = {
  shape: { kind: 'round tube', outsideMm: 60, wallMm: 3 },
  form: 'extruded tube',
  welds: [{ lies: 'across', joint: 'butt' }],
};
const shop = {
  alloy: '6061',
  temper: 'T6',
  process: 'TIG',
  filler: '4043',
  code: 'EN 1999-1-1',
  factor: 4,
  on: 'yield',
};
const wind = { axialN: -2000, shearYN: 800, momentXNmm: 250_000 };

/** Least CPU time of several runs, ms. */
const best = (runs, work) =>
  Math.min(
    ...Array.from({ length: runs }, () => {
      const before = process.cpuUsage();
      work();
      const { user, system } = process.cpuUsage(before);
      return (user + system) / 1000;
    }),
  );

const line = (text) => process.stdout.write(`${text}\n`);
const size = best(8, () => sizeSection(mast, wind, shop));
const sweep = best(3, () => factorCurve(mast, wind, shop, { fromMm: 1, toMm: 20, count: 1000 }));
line(`least wall for a factor of 4: ${size.toFixed(1)} ms of CPU (aim ${AIM_MS.size})`);
line(`factor at 1000 walls: ${sweep.toFixed(0)} ms of CPU (aim ${AIM_MS.sweep})`);
if (size > AIM_MS.size || sweep > AIM_MS.sweep) process.exitCode = 1;
