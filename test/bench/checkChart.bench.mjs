// checkChart on an invented day at 1 Hz: a whole T6 of A356 with twelve load sensors, a million readings; in one file, and cut
// in two and joined. No file is read: the logs are made in memory. CPU time, because a shared machine would tell more of its
// neighbours.
import { createRequire } from 'node:module';

const { checkChart } = createRequire(import.meta.url)('../../dist/heattreat');
const AIM_S = 2;
const H = 3600;
const DAY_S = 24 * H;
const CORNERS = [
  [0, 22],
  [2, 538],
  [15, 538],
  [15.002, 60],
  [17, 25],
  [18, 154],
  [22, 154],
  [24, 30],
].map(([h, c]) => [h * H, c]);

function programme(s) {
  const k = CORNERS.findIndex(([atS]) => atS > s);
  if (k < 0) return CORNERS.at(-1)[1];
  const [[s0, c0], [s1, c1]] = [CORNERS[k - 1], CORNERS[k]];
  return c0 + ((s - s0) / (s1 - s0)) * (c1 - c0);
}

/** Seconds fromS to toS of the day as a log of its own, which starts at its own zero. */
function chart(fromS, toS) {
  const timeS = Float64Array.from({ length: toS - fromS + 1 }, (_, i) => i);
  const channels = Array.from({ length: 12 }, (_, k) => ({
    name: `Load ${k + 1}`,
    unit: '°C',
    history: {
      timeS,
      tempC: timeS.map((i) => programme(fromS + i) + 0.5 * Math.sin(fromS + i + k) - 0.2 * k),
    },
    faults: [],
  }));
  const startedAt = new Date(Date.UTC(2031, 3, 2) + fromS * 1000).toISOString().slice(0, 19);
  return { channels, startedAt, intervalS: 1, source: { name: `from ${fromS} s`, sha256: String(fromS) } };
}

function run(logs) {
  const before = process.cpuUsage();
  const { sentence } = checkChart(logs, 'A356.0 T6 sand casting');
  const { user, system } = process.cpuUsage(before);
  return { cpuS: (user + system) / 1e6, sentence };
}

const line = (text) => process.stdout.write(`${text}\n`);
run([chart(0, H)]); // loads cards and compiles what is hot
for (const [what, logs] of [
  ['in one file', [chart(0, DAY_S)]],
  ['in two files', [chart(0, 17 * H), chart(17 * H + 1, DAY_S)]],
]) {
  const { cpuS, sentence } = run(logs);
  line(`24 h of 12 sensors at 1 Hz ${what}: ${cpuS.toFixed(2)} s of CPU (${AIM_S} s or less is the aim)`);
  line(`  ${sentence}`);
  globalThis.gc?.();
}
