// Runs every *.bench.mjs beside this file, one after the other, and prints their lines under one another.
import { spawn } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { cpus } from 'node:os';
import { join } from 'node:path';

const here = import.meta.dirname;
const wanted = process.argv.slice(2);
const benches = readdirSync(here)
  .filter((file) => file.endsWith('.bench.mjs'))
  .filter((file) => wanted.length === 0 || wanted.some((word) => file.includes(word)))
  .sort();

process.stdout.write(`Node ${process.version}, ${cpus().length} × ${cpus()[0].model.trim()}\n`);
const failed = [];
for (const [i, bench] of benches.entries()) {
  process.stdout.write(`\n[${i + 1}/${benches.length}] ${bench.replace('.bench.mjs', '')}\n`);
  const startMs = performance.now();
  const code = await new Promise((resolve) => {
    const child = spawn(process.execPath, ['--expose-gc', join(here, bench)], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    child.stdout
      .setEncoding('utf8')
      .on('data', (text) => process.stdout.write(text.replace(/^(?=.)/gm, '  ')));
    child.on('close', resolve);
  });
  if (code !== 0) failed.push(bench);
  process.stdout.write(`  (${((performance.now() - startMs) / 1000).toFixed(1)} s)\n`);
}
if (failed.length > 0) {
  process.stdout.write(`\nfailed: ${failed.join(', ')}\n`);
  process.exitCode = 1;
}
