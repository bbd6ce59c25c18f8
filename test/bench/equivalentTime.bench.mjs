// equivalentTime per sample against the same integral in vectorised numpy (Debian's python3-numpy, when present).
// Both sides take turns and report their best run, so that a busy machine weighs on both alike.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const require = createRequire(import.meta.url);
const { equivalentTime } = require('../../dist/exposure');
const { seededRandom } = require('../../dist/statistics');

const SAMPLES = 1_000_000;
const TURNS = 4;
const ROUNDS = 8;
const clock = { activationEnergyJPerMol: 130_000, referenceC: 177 };

/** An invented day of passes at 10 Hz: quick rises, slow cooling, 0.3 °C of noise. */
function inventedTrace() {
  const random = seededRandom(1);
  const timeS = Float64Array.from({ length: SAMPLES }, (_, i) => i / 10);
  let bulk = 20;
  const tempC = timeS.map((t) => {
    const sinceArc = t % 900;
    bulk += (sinceArc < 20 ? 0.3 : 0) - (bulk - 20) / 6000;
    return bulk + 250 * Math.exp(-(((sinceArc - 12) / 6) ** 2)) + 0.3 * random.normal();
  });
  return { timeS, tempC };
}

const history = inventedTrace();
let ours = Number.POSITIVE_INFINITY;
let value = 0;
const ourTurn = () => {
  for (let round = 0; round < ROUNDS; round++) {
    const startMs = performance.now();
    value = equivalentTime(history, clock);
    ours = Math.min(ours, ((performance.now() - startMs) * 1e6) / SAMPLES);
  }
};

const folder = mkdtempSync(join(tmpdir(), 'temperbook-bench-'));
const theirs = { logarithmicMean: Number.POSITIVE_INFINITY, trapezoid: Number.POSITIVE_INFINITY };
try {
  writeFileSync(join(folder, 'time'), history.timeS);
  writeFileSync(join(folder, 'temp'), history.tempC);
  for (let turn = 0; turn < TURNS; turn++) {
    ourTurn();
    const found = numpyTurn();
    if (found === undefined) continue;
    for (const way of ['logarithmicMean', 'trapezoid'])
      theirs[way] = Math.min(theirs[way], found[way].nsPerSample);
    theirs.version = found.numpy;
    theirs.value = found.logarithmicMean.value;
  }
} finally {
  rmSync(folder, { recursive: true });
}

function numpyTurn() {
  const script = join(import.meta.dirname, 'equivalentTime.numpy.py');
  try {
    const args = [script, join(folder, 'time'), join(folder, 'temp'), String(ROUNDS)];
    return JSON.parse(
      execFileSync('/usr/bin/python3', args, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }),
    );
  } catch {
    return undefined;
  }
}

const line = (text) => process.stdout.write(`${text}\n`);
line(
  `equivalentTime, ${SAMPLES.toLocaleString('en')} samples: ${ours.toFixed(1)} ns per sample (checks included)`,
);
if (theirs.version === undefined)
  line('numpy not found on this machine (python3-numpy): nothing to compare with');
else {
  line(`numpy ${theirs.version}, logarithmic mean: ${theirs.logarithmicMean.toFixed(1)} ns per sample`);
  line(`numpy ${theirs.version}, plain trapezoid: ${theirs.trapezoid.toFixed(1)} ns per sample`);
  line(
    `ratio ours / numpy (same definition): ${(ours / theirs.logarithmicMean).toFixed(2)}, 1 or less is the aim`,
  );
  line(`the two results differ by ${Math.abs(value / theirs.value - 1).toExponential(1)} of the value`);
}
