// The plate solver: 100 × 100 mm in 1 mm cells, four passes, 15 minutes, in one layer and in three; and cell updates per
// second against the same scheme vectorised in numpy (Debian's python3-numpy, when present), in processor time on one thread. Both sides take
// turns over the same steps and report their best run, so that a busy machine weighs on both alike.
import { spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { join } from 'node:path';

const require = createRequire(import.meta.url);
const { solvePlate } = require('../../dist/heatflow');
const { plateModel } = require('../../dist/heatflow/plate/model/plateModel');
const { PlateStepper } = require('../../dist/heatflow/plate/march/plateStepper');
const line = (text) => process.stdout.write(`${text}\n`);

const part = [
  { name: 'tube wall', shape: { rectMm: [0, 0, 100, 100] }, thicknessMm: 3, metal: '6061' },
  { name: 'block', shape: { rectMm: [0, 0, 40, 100] }, thicknessMm: 25, metal: 'A356.0' },
];
const surface = { convectionWPerM2K: 10, emissivity: 0.2, ambientC: 20 };
const job = {
  cellMm: 1,
  part,
  surface,
  contacts: [{ shape: { rectMm: [0, 0, 40, 30] }, conductanceWPerM2K: 500, bodyC: 20 }],
  initialC: 20,
  passes: [0, 1, 2, 3].map((i) => ({
    path: [
      [41, 10],
      [41, 90],
    ],
    travelMmPerS: 4,
    netPowerW: 1400,
    sourceRadiusMm: 4,
    startAfter: { waitS: i ? 205 : 0 },
  })),
  probes: [{ name: 'TC1', xMm: 30, yMm: 50 }],
  until: { coolForS: 205 },
};
for (const layers of [1, 3]) {
  const begun = process.cpuUsage();
  const { endS, steps, energy, grid } = solvePlate({ ...job, layers });
  const { user, system } = process.cpuUsage(begun);
  const seconds = (user + system) / 1e6;
  line(
    `four passes, ${(endS / 60).toFixed(1)} min of welding, ${grid.columns} × ${grid.rows} cells in ${layers} layer${layers > 1 ? 's' : ''}: ` +
      `${seconds.toFixed(2)} s of processor time (aim < 10 s), ${steps.count} steps, heat account open by ${energy.imbalance.toExponential(1)}`,
  );
}

const metal = {
  densityKgPerM3: 2700,
  conductivityWPerMK: {
    tempC: [20, 100, 200, 300, 400, 582, 652],
    value: [162, 177, 192, 205, 220, 230, 90],
    source: 'invented',
  },
  specificHeatJPerKgK: { tempC: [20, 200, 400, 582], value: [896, 1028, 1120, 1200], source: 'invented' },
  latentHeatJPerKg: 390e3,
  solidusC: 582,
  liquidusC: 652,
};
for (const layers of [1, 3]) for (const cells of [50, 100, 200]) compare(cells, layers);

/** Runs a plan; notes its steps as [length, whether it counted, whether it began without a trend] and the time it took. */
function watched(plan) {
  const { tryStep, accept, forgetTrend } = PlateStepper.prototype;
  const steps = [];
  let isAfresh = true;
  PlateStepper.prototype.tryStep = function (dtS, arc) {
    steps.push([dtS, false, isAfresh]);
    return tryStep.call(this, dtS, arc);
  };
  PlateStepper.prototype.accept = function () {
    steps.at(-1)[1] = true;
    isAfresh = false;
    accept.call(this);
  };
  PlateStepper.prototype.forgetTrend = function () {
    isAfresh = true;
    forgetTrend.call(this);
  };
  try {
    const begun = process.cpuUsage();
    const result = solvePlate(plan);
    const { user, system } = process.cpuUsage(begun);
    return { result, steps, seconds: (user + system) / 1e6 };
  } finally {
    Object.assign(PlateStepper.prototype, { tryStep, accept, forgetTrend });
  }
}

function compare(cells, layers) {
  const cellMm = 100 / cells;
  const pass = {
    path: [
      [42, 10],
      [42, 90],
    ],
    travelMmPerS: 4,
    netPowerW: 1400,
    sourceRadiusMm: 4,
  };
  const plan = {
    cellMm,
    layers,
    part: part.map((region) => ({ ...region, metal })),
    surface,
    initialC: 20,
    passes: [pass],
    probes: [{ name: 'near', xMm: 50 + cellMm / 2, yMm: 50 + cellMm / 2, depthMm: 0 }],
    until: { coolForS: 60 },
  };
  const model = plateModel(plan, [metal, metal]);
  const within = (array) => [...array.subarray(model.first, model.end)];
  const numpyJob = {
    columns: cells,
    rows: cells,
    layers,
    cellMm,
    thicknessMm: within(model.thicknessMm),
    airArea: within(model.airArea),
    initialHeat: within(model.initialHeat),
    table: [...model.metals[0].rows],
    heatPerBin: model.metals[0].heatPerBin,
    conductivity: model.metals[0].conductivity,
    ...surface,
    ...pass,
    fromMm: pass.path[0],
    lengthMm: 80,
    solidusC: metal.solidusC,
    toleranceK: 1,
    readCells: [[cells / 2, cells / 2]],
  };
  let ours;
  let theirs;
  for (let turn = 0; turn < 3; turn++) {
    const { result, steps, seconds } = watched(plan);
    if (!ours || seconds < ours.seconds)
      ours = { seconds, steps, iterations: result.steps.iterations, peakC: result.probes[0].peakC };
    const found = numpyTurn({ ...numpyJob, steps });
    if (found && (!theirs || found.seconds < theirs.seconds)) theirs = { ...found, peakC: found.peakC[0] };
  }
  const updates = layers * cells * cells * ours.steps.length;
  const tell = (who, { seconds, iterations, peakC }) =>
    line(
      `  ${who}: ${(updates / seconds / 1e6).toFixed(2)} million cell updates per second ` +
        `(${seconds.toFixed(2)} s, ${(iterations / ours.steps.length).toFixed(1)} iterations a step, peak beside the weld ${peakC.toFixed(2)} °C)`,
    );
  line(`one pass and a minute, ${cells} × ${cells} cells × ${layers}, ${ours.steps.length} steps`);
  tell('temperbook', ours);
  if (!theirs) {
    line('  numpy not found on this machine (python3-numpy): nothing to compare with');
    return;
  }
  tell(`numpy ${theirs.numpy}`, theirs);
  line(`  ${(theirs.seconds / ours.seconds).toFixed(1)} times numpy (aim 2)`);
}

/** Debian's python3 where it has numpy, else the one on the path. */
function numpyTurn(job) {
  for (const python of ['/usr/bin/python3', 'python3']) {
    const { status, stdout } = spawnSync(python, [join(import.meta.dirname, 'plate.numpy.py')], {
      input: JSON.stringify(job),
      encoding: 'utf8',
      env: { ...process.env, OMP_NUM_THREADS: '1', OPENBLAS_NUM_THREADS: '1' },
      stdio: ['pipe', 'pipe', 'ignore'],
    });
    if (status === 0) return JSON.parse(stdout);
  }
  return undefined;
}
