// One hour of log at 10 Hz through the precipitate model, against the same equations in numpy and scipy (Debian's
// python3-scipy, when present), then 1,000 such histories over the machine's cores. Best of a few runs on both sides,
// in processor time, which a busy machine spares. An answer is worth its time only with its error beside it: ours run
// with ten times finer classes and steps is the reference, to which numpy's finer and finer answers close in as well.
// "Equal accuracy" is the first numpy run at most a tenth further off than ours, or the last if none gets there.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';

const { advanceMany, precipitateModel } = createRequire(import.meta.url)('../../dist/kinetics');

const say = (line) => process.stdout.write(`${line}\n`);

/** An invented hour of six passes: up at 60 K/s, down with 60 s, each from a warmer part. */
function hourOfPasses(hotterC = 0) {
  const timeS = Float64Array.from({ length: 36_001 }, (_, i) => i / 10);
  const tempC = timeS.map((t) => {
    const since = t % 600;
    const bulkC = 20 + 15 * Math.floor(t / 600);
    const peakC = 300 + hotterC;
    const rise = (peakC - bulkC) / 60;
    return since < rise ? bulkC + 60 * since : bulkC + (peakC - bulkC) * Math.exp(-(since - rise) / 60);
  });
  return { timeS, tempC };
}

const history = hourOfPasses();

/** Where the hour ends after 8 h at 177 °C, the best processor time of so many turns, and the steps it took. */
function ours(turns, resolution) {
  const model = precipitateModel({ matrixWtPct: { Mg: 0.9, Si: 0.6, Cu: 0.28 } }, { resolution });
  const soak = { timeS: Float64Array.of(0, 28_800), tempC: Float64Array.of(177, 177) };
  const aged = model.advance(model.start({ solutionTreated: true }), soak).state;
  let seconds = Number.POSITIVE_INFINITY;
  let end;
  for (let turn = 0; turn < turns; turn++) {
    const before = process.cpuUsage();
    end = model.advance(aged, history);
    const { user, system } = process.cpuUsage(before);
    seconds = Math.min(seconds, (user + system) / 1e6);
  }
  return { seconds, yieldMPa: end.yieldMPa.at(-1), steps: end.steps };
}

const reference = ours(1, { toleranceMPa: 0.0005, classWidth: 0.005 });
const here = ours(12);
const off = ({ yieldMPa }) => Math.abs(yieldMPa - reference.yieldMPa);
const told = (run) =>
  `${run.seconds.toFixed(3)} s, ${run.steps} steps, ends at ${run.yieldMPa.toFixed(2)} MPa, ${off(run).toFixed(2)} off`;
say(`one hour at 10 Hz: ${told(here)} (reference ${reference.yieldMPa.toFixed(2)} MPa)`);

const folder = mkdtempSync(join(tmpdir(), 'temperbook-bench-'));
try {
  writeFileSync(join(folder, 'time'), history.timeS);
  writeFileSync(join(folder, 'temp'), history.tempC);
  let equal;
  for (const [classes, tolerance] of [
    [300, 1e-3],
    [1200, 5e-4],
    [4800, 1e-4],
    [9600, 1e-4],
  ]) {
    const theirs = numpy(classes, tolerance);
    if (!theirs) break;
    say(`numpy ${theirs.numpy}, scipy ${theirs.scipy}, ${classes} classes: ${told(theirs)}`);
    equal = theirs;
    if (off(theirs) <= 1.1 * off(here)) break;
  }
  if (equal)
    say(
      `ratio numpy / ours at equal accuracy: ${(equal.seconds / here.seconds).toFixed(0)}, 20 or more is the aim`,
    );
} finally {
  rmSync(folder, { recursive: true });
}

function numpy(classes, tolerance) {
  const script = join(import.meta.dirname, 'precipitate.numpy.py');
  try {
    const text = execFileSync('/usr/bin/python3', [script, folder, String(classes), String(tolerance)], {
      encoding: 'utf8',
    });
    return JSON.parse(text);
  } catch (error) {
    say(`python3 with numpy and scipy is not here: no ratio (${error.message.split('\n')[0]})`);
    return undefined;
  }
}

/** Wall seconds per history of a batch on so many threads. */
async function batch(count, threads) {
  const histories = Array.from({ length: count }, (_, i) => hourOfPasses((i % 40) - 20));
  const startMs = performance.now();
  let toldMs = startMs;
  await advanceMany('6061', 'T6', histories, {
    threads,
    onProgress: (done, of) => {
      if (performance.now() - toldMs < 5000) return;
      toldMs = performance.now();
      process.stderr.write(`  ${done} of ${of} histories\n`);
    },
  });
  return (performance.now() - startMs) / 1000 / count;
}

const cores = availableParallelism();
// One thread before and after: the machine may slow down or speed up in between.
const beforeS = await batch(100, 1);
const allS = await batch(1000, cores);
const oneS = (beforeS + (await batch(100, 1))) / 2;
say(
  `1,000 histories on ${cores} threads: ${(1000 * allS).toFixed(0)} s, ${(oneS / allS).toFixed(2)} times as fast as one thread (${cores} would be linear)`,
);
