// calibrateToLog with the plate solver: three unknowns, two channels, three passes over a cast block and a tube wall.
// The log is the solver's own answer for known values with noise, so the fit also shows how near it comes.
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);
const { calibrateToLog, passesAsLogged, plateHeatModel, solvePlate } = require('../../dist/heatflow');
const { tempAt, thermalHistory } = require('../../dist/history');
const { seededRandom } = require('../../dist/statistics');

const truth = { efficiency: 0.57, film: 14, distance: 11 };
const planFor = ({ efficiency, film, distance }) => ({
  cellMm: 2,
  part: [
    { shape: { rectMm: [0, 0, 50, 100] }, thicknessMm: 25, metal: 'A356.0' },
    { shape: { rectMm: [50, 0, 110, 100] }, thicknessMm: 3, metal: '6061' },
  ],
  surface: { convectionWPerM2K: film, emissivity: 0.15, ambientC: 20 },
  contacts: [
    { shape: { rectMm: [0, 0, 16, 100] }, conductanceWPerM2K: 1500, bodyC: 20, bodyHeatJPerK: 2000 },
  ],
  initialC: 20,
  passes: [0, 1, 2].map((k) => ({
    path: [
      [52, 10],
      [52, 90],
    ],
    travelMmPerS: 2.5,
    netPowerW: 1900 * efficiency,
    sourceRadiusMm: 6,
    startAfter: { waitS: k ? 90 : 5 },
  })),
  probes: [
    { name: 'tube', xMm: 52 + distance, yMm: 50 },
    { name: 'block', xMm: 35, yMm: 50 },
  ],
  until: { coolForS: 300 },
});

const random = seededRandom(3);
const channels = solvePlate(planFor(truth)).probes.map(({ name, history }) => {
  const timeS = Float64Array.from({ length: Math.floor(history.timeS.at(-1)) }, (_, i) => i);
  const tempC = timeS.map((t) => tempAt(history, t) + 0.7 * random.normal());
  return { name, history: thermalHistory(timeS, tempC) };
});

const startMs = performance.now();
const fit = calibrateToLog(
  channels,
  plateHeatModel(['tube', 'block'], (values, passes) => {
    const plan = planFor(values);
    return { ...plan, passes: passesAsLogged(plan.passes, passes) };
  }),
  {
    parameters: {
      efficiency: { start: 0.6, low: 0.3, high: 0.9 },
      film: { start: 8, low: 2, high: 60, unit: 'W/m²K' },
      distance: { start: 9, low: 7, high: 20, unit: 'mm' },
    },
  },
);
const seconds = (performance.now() - startMs) / 1000;
process.stdout.write(
  `fit of 3 unknowns to 2 channels: ${seconds.toFixed(1)} s, ${fit.modelRuns} runs of the plate solver (aim: under 60 s)\n`,
);
for (const [name, { nominal, low, high, unit }] of Object.entries(fit.values))
  process.stdout.write(
    `  ${name}: ${nominal.toFixed(3)} (${low.toFixed(3)}–${high.toFixed(3)}) ${unit}, true ${truth[name]}\n`,
  );
