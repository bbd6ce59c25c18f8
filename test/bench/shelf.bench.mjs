// readShelf on 10,000 records as large as a weld's with four probes (280 kB): as those who wrote them noted them; with one
// written since; in a copy of the folder, where no file's time is the noted one; and with the note lost. Files are on the
// temporary disk, 2.8 GB of it, in memory already; wall time, as reading is half of it.
import { mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const require = createRequire(import.meta.url);
const { judge } = require('../../dist/decision');
const { readLog } = require('../../dist/log');
const { buildRecord, NOTE_FILE, readShelf, selectParts, shelfHtml } = require('../../dist/record');
const { sealRecord } = require('../../dist/record/edition/seal');
const { noteWritten } = require('../../dist/record/shelf/shelfNote');
const RECORDS = Number(process.env.RECORDS ?? 10_000);
const AIM_S = 2;

const line = (text) => process.stdout.write(`${text}\n`);
const timed = (what, run) => {
  const startMs = performance.now();
  const answer = run();
  line(`${what}: ${((performance.now() - startMs) / 1000).toFixed(2)} s`);
  return answer;
};
const look = (what, anew) => {
  const shelf = timed(what, () => readShelf(folder));
  if (shelf.parts.length !== RECORDS || shelf.readAnew !== anew)
    throw new Error(`the shelf is not what was put there: ${shelf.parts.length}, ${shelf.readAnew} read`);
  return shelf;
};

const folder = mkdtempSync(join(tmpdir(), 'shelf-'));
const log = readLog(join(import.meta.dirname, '../../data/demo/mast-foot-weld.csv'));
const verdict = judge(log, { alloy: 'A356.0', temper: 'T6' });
const { hash: _, partHashes: __, ...parts } = buildRecord({ verdict, log });
const decision = { disposition: 'accept', reason: 'Measured.' };
let bytes = 0;
const files = Array.from({ length: RECORDS }, (_, i) => {
  const date = new Date(Date.UTC(2001, 0, 1 + i)).toISOString().slice(0, 10);
  const record = sealRecord({ ...parts, job: { part: `HB-${i}`, date }, ...(i % 2 ? { decision } : {}) });
  const text = JSON.stringify(record);
  bytes += text.length;
  const path = join(folder, `hb-${i}-record.json`);
  writeFileSync(path, text);
  return path;
});
line(`${RECORDS.toLocaleString('en')} records, ${(bytes / 1e6).toFixed(0)} MB`);
timed('noted by who writes them', () => {
  for (const path of files) {
    const text = readFileSync(path, 'utf8');
    noteWritten(path, JSON.parse(text), text);
  }
});
look(`first look, as noted (${AIM_S} s or less is the aim)`, 0);
writeFileSync(files[17], readFileSync(files[17], 'utf8').replace('"HB-17"', '"HB-17" '));
look('one written since', 1);
for (const path of files) utimesSync(path, new Date(), new Date());
look('all of them touched, or copied', 0);
rmSync(join(folder, NOTE_FILE));
look('the note lost: every hash checked', RECORDS);
const shelf = look('and once more', 0);
const { parts: chosen } = timed('chosen by alloy, word and day', () =>
  selectParts(shelf.parts, { alloy: 'A356', from: '2001-01-10' }),
);
timed(`page of ${chosen.length} parts`, () =>
  shelfHtml({ title: 'Bench', shelf, parts: chosen, since: new Map() }),
);
if (process.env.KEEP) line(folder);
else rmSync(folder, { recursive: true });
