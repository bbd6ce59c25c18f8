// judge on an invented day at 10 Hz: a million rows in four channels, a pass every 50 minutes. No file is read: the log is
// made in memory. CPU time, because draws run on one core and a shared machine would tell more of its neighbours.
import { createRequire } from 'node:module';

const { judge } = createRequire(import.meta.url)('../../dist/decision');
const AIM_S = 5;

function channel(name, riseC, rows, seed) {
  const timeS = new Float64Array(rows);
  const tempC = new Float64Array(rows);
  for (let i = 0; i < rows; i++) {
    timeS[i] = i / 10;
    const sinceArcS = (i % 30_000) / 10;
    const rise = sinceArcS < 40 ? sinceArcS / 40 : Math.exp(-(sinceArcS - 40) / 400);
    // A logger that shows hundredths, with noise of about 0.2 K.
    tempC[i] = Math.round(100 * (25 + riseC * rise + ((i * (7919 + 2 * seed)) % 13) / 20)) / 100;
  }
  return { name, unit: '°C', history: { timeS, tempC }, faults: [] };
}

function run(rows) {
  const channels = [200, 150, 100, 60].map((riseC, k) => channel(`TC${k + 1}`, riseC, rows, k));
  const log = { channels, source: { name: 'invented' }, rows: {}, notes: [] };
  let words = 0;
  const before = process.cpuUsage();
  const verdict = judge(log, { alloy: 'A356.0', temper: 'T6', onProgress: () => words++ });
  const { user, system } = process.cpuUsage(before);
  return { cpuS: (user + system) / 1e6, words, sentence: verdict.sentence };
}

const line = (text) => process.stdout.write(`${text}\n`);
run(1000); // loads cards and compiles what is hot
for (const rows of [1_000_000, 10_000_000]) {
  const { cpuS, words, sentence } = run(rows);
  line(
    `${rows.toLocaleString('en')} rows, 4 channels: ${cpuS.toFixed(1)} s of CPU, ${words} words of progress`,
  );
  if (rows === 1_000_000) line(`  ${AIM_S} s or less is the aim`);
  line(`  ${sentence}`);
  globalThis.gc?.();
}
