// A watch of 100 rows a second in eight channels that has ten minutes behind it already: how long from a row on the disk to the
// state that shows it, and what it costs. The eighth channel counts the rows.
import { appendFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const { watchLog } = createRequire(import.meta.url)('../../dist/job');
const AIM_S = 1;
const SECONDS = 30;
const BEHIND_S = 600;
const PER_TICK = 10;
const folder = mkdtempSync(join(tmpdir(), 'watch-'));
const log = join(folder, 'log.csv');
const row = (i) => {
  const s = (i % 30_000) / 100;
  const share = s < 40 ? s / 40 : Math.exp(-(s - 40) / 100);
  const probes = [200, 180, 160, 140, 120, 100, 80].map((rise, k) =>
    (25 + rise * share + ((i * (7919 + 2 * k)) % 13) / 20).toFixed(2),
  );
  return `${(i / 100).toFixed(2)},${probes.join(',')},${(20 + i / 10_000).toFixed(4)}\n`;
};
let i = 0;
const some = (count) => Array.from({ length: count }, () => row(i++)).join('');
const names = Array.from({ length: 8 }, (_, k) => `TC${k + 1} (°C)`);
writeFileSync(log, `time,${names.join(',')}\n${some(100 * BEHIND_S)}`);

const written = [];
const lateMs = [];
const watch = await watchLog(log, {
  read: {},
  judge: () => ({ alloy: 'A356.0', temper: 'T6' }),
  outFolder: folder,
  onState: ({ probes }) => {
    const shown = Math.round((probes[7]?.tempC - 20) * 10_000);
    while (written.length > 0 && written[0].row <= shown) lateMs.push(Date.now() - written.shift().atMs);
  },
});
const before = process.cpuUsage();
for (let tick = 0; tick < SECONDS * 10; tick++) {
  appendFileSync(log, some(PER_TICK));
  written.push({ row: i - 1, atMs: Date.now() });
  await new Promise((resolve) => setTimeout(resolve, 100));
}
await new Promise((resolve) => setTimeout(resolve, 500));
const { user, system } = process.cpuUsage(before);
await watch.end();
rmSync(folder, { recursive: true });
lateMs.sort((a, b) => a - b);
const line = (text) => process.stdout.write(`${text}\n`);
line(`8 channels at 100 Hz, ${BEHIND_S} s behind it: ${lateMs.length} of ${SECONDS * 10} pieces shown`);
line(
  `  ${lateMs[Math.floor(lateMs.length / 2)]} ms late in the middle, ${lateMs[lateMs.length - 1]} ms at most (${AIM_S} s or less is the aim)`,
);
line(`  ${((user + system) / 1e6 / SECONDS).toFixed(2)} s of CPU a second, judging included`);
