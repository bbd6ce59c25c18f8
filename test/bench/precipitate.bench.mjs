// One hour of log at 10 Hz through the precipitate model, against the same equations in numpy and scipy (Debian's
// python3-scipy, when present). Best of a few runs on both sides, in processor time, which a busy machine spares. The
// numpy side runs coarse and fine: its answer at the fine setting is within 1 MPa of where finer classes lead, as ours is.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const { precipitateModel } = createRequire(import.meta.url)('../../dist/kinetics');

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

const model = precipitateModel({ matrixWtPct: { Mg: 0.9, Si: 0.6, Cu: 0.28 } });
const soak = { timeS: Float64Array.of(0, 28_800), tempC: Float64Array.of(177, 177) };
const aged = model.advance(model.start({ solutionTreated: true }), soak).state;
const history = hourOfPasses();

let oursS = Number.POSITIVE_INFINITY;
let end;
for (let turn = 0; turn < 12; turn++) {
  const before = process.cpuUsage();
  end = model.advance(aged, history);
  const { user, system } = process.cpuUsage(before);
  oursS = Math.min(oursS, (user + system) / 1e6);
}
const oursMPa = end.yieldMPa[end.yieldMPa.length - 1];
say(`one hour at 10 Hz: ${oursS.toFixed(3)} s, ${end.steps} steps, ends at ${oursMPa.toFixed(1)} MPa`);

const folder = mkdtempSync(join(tmpdir(), 'temperbook-bench-'));
try {
  writeFileSync(join(folder, 'time'), history.timeS);
  writeFileSync(join(folder, 'temp'), history.tempC);
  for (const [classes, tolerance] of [
    [300, 1e-3],
    [1200, 5e-4],
  ]) {
    const theirs = numpy(classes, tolerance);
    if (!theirs) break;
    say(
      `numpy ${theirs.numpy}, scipy ${theirs.scipy}, ${classes} classes: ${theirs.seconds.toFixed(2)} s, ${theirs.steps} steps, ends at ${theirs.yieldMPa.toFixed(1)} MPa; ours is ${(theirs.seconds / oursS).toFixed(0)} times as fast`,
    );
  }
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
