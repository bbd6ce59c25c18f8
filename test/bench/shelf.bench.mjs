// readShelf on 10,000 records, each of two probes with all that a record holds: first with nothing noted, then as on every
// later look, with one record new. Files are on the temporary disk; wall time, as reading is half of it.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const require = createRequire(import.meta.url);
const { judge } = require('../../dist/decision');
const { buildRecord, readShelf, selectParts, shelfHtml } = require('../../dist/record');
const { readLog } = require('../../dist/log');
const RECORDS = 10_000;
const AIM_S = 2;

const folder = mkdtempSync(join(tmpdir(), 'shelf-'));
const log = readLog(join(import.meta.dirname, '../../data/demo/mast-foot-two-probes.csv'));
const verdict = judge(log, { alloy: 'A356.0', temper: 'T6' });
let bytes = 0;
for (let i = 0; i < RECORDS; i++) {
  const day = new Date(Date.UTC(2001, 0, 1 + i)).toISOString().slice(0, 10);
  const record = buildRecord({ verdict, log, job: { part: `HB-${i}`, date: day } });
  const text = JSON.stringify(record);
  bytes += text.length;
  const file = join(folder, `hb-${i}-record.json`);
  writeFileSync(file, text);
}
// Noted at once only where a file is a moment old: see ShelfIndex.
await new Promise((resolve) => setTimeout(resolve, 2500));

const line = (text) => process.stdout.write(`${text}\n`);
const timed = (what, run) => {
  const startMs = performance.now();
  const answer = run();
  line(`${what}: ${((performance.now() - startMs) / 1000).toFixed(2)} s`);
  return answer;
};
line(`${RECORDS.toLocaleString('en')} records, ${(bytes / 1e6).toFixed(0)} MB`);
timed('read for the first time, every hash checked', () => readShelf(folder));
const touched = join(folder, 'hb-17-record.json');
writeFileSync(touched, readFileSync(touched));
const shelf = timed(`read again, one record written since (${AIM_S} s or less is the aim)`, () =>
  readShelf(folder),
);
if (shelf.parts.length !== RECORDS || shelf.readAnew !== 1)
  throw new Error('the shelf is not what was put there');
const { parts } = timed('chosen by alloy, word and day', () =>
  selectParts(shelf.parts, { alloy: 'A356', from: '2010-01-01' }),
);
timed(`page of ${parts.length} parts`, () => shelfHtml({ title: 'Bench', shelf, parts, since: new Map() }));
rmSync(folder, { recursive: true });
