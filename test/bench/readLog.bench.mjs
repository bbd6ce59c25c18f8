// readLog on a million rows of four channels (36 MB of CSV, and ten times that for the memory it takes) against pandas' C reader (Debian's python3-pandas, when
// present) and PapaParse, and on a file of 900 rows. Each reading runs in a process of its own, which reports the processor
// time of the call, all threads together, and by how much its memory peaked above where it stood before; the readers
// take turns, and the middle of the runs counts.
import { execFileSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const ROWS = 1_000_000;
const FEW_ROWS = 900;
const TURNS = 5;
const LONG_ROWS = 10_000_000;
const AIM = { pandas: 1.1, papaParse: 5, memory: 2, fewRowsMs: 50 };

/** An invented day at 10 Hz: a pass every 50 minutes at four distances, one arc-start spike to each. */
function writeLog(file, rows) {
  const handle = openSync(file, 'w');
  let lines = ['Time (s),TC1 block (°C),TC2 block (°C),TC3 lug (°C),TC4 tube (°C)'];
  for (let i = 0; i < rows; i++) {
    const sinceArc = (i % 30_000) / 10;
    const rise = sinceArc < 40 ? sinceArc / 40 : Math.exp(-(sinceArc - 40) / 400);
    const spike = i % 30_000 === 3 ? 150 : 0;
    const noise = (k) => ((i * (7919 + 2 * k)) % 13) / 20;
    const temps = [310, 240, 160, 90].map((riseC, k) =>
      (120 + riseC * rise + noise(k) + (k < 2 ? spike : 0)).toFixed(2),
    );
    lines.push(`${(i / 10).toFixed(1)},${temps.join(',')}`);
    if (lines.length > 20_000 || i === rows - 1) {
      writeSync(handle, `${lines.join('\n')}\n`);
      lines = [];
    }
  }
  closeSync(handle);
}

const PEAK =
  "Number(/VmHWM:\\s+(\\d+)/.exec(require('node:fs').readFileSync('/proc/self/status', 'utf8'))[1]) * 1024";
const inNode = (load, call) => (file) => {
  const script = `
    ${load}
    const before = process.memoryUsage().rss;
    const start = process.cpuUsage();
    const rows = ${call};
    const { user, system } = process.cpuUsage(start);
    console.log(JSON.stringify({ ms: (user + system) / 1000, rows, peak: ${PEAK} - before }));`;
  return JSON.parse(
    execFileSync(process.execPath, ['-e', script, file], { cwd: import.meta.dirname, encoding: 'utf8' }),
  );
};
const PANDAS = `
import json, resource, sys, time
import pandas
before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
start = time.process_time()
rows = len(pandas.read_csv(sys.argv[1]))
ms = (time.process_time() - start) * 1000
peak = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) * 1024
print(json.dumps({"ms": ms, "rows": rows, "peak": peak, "version": pandas.__version__}))`;

const READERS = {
  readLog: inNode("const { readLog } = require('../../dist/log');", 'readLog(process.argv[1]).rows.read'),
  pandas: (file) => {
    try {
      const options = { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] };
      return JSON.parse(execFileSync('/usr/bin/python3', ['-c', PANDAS, file], options));
    } catch {
      return undefined;
    }
  },
  PapaParse: inNode(
    "const Papa = require('papaparse'); const fs = require('node:fs');",
    "Papa.parse(fs.readFileSync(process.argv[1], 'utf8'), { header: false, dynamicTyping: true, skipEmptyLines: true }).data.length - 1",
  ),
};

const folder = mkdtempSync(join(tmpdir(), 'temperbook-bench-'));
const file = join(folder, 'million-rows.csv');
const runs = { readLog: [], pandas: [], PapaParse: [] };
let bytes = 0;
let longShare = 0;
const few = [];
try {
  writeLog(file, ROWS);
  bytes = statSync(file).size;
  for (let turn = 0; turn < TURNS; turn++)
    for (const [name, read] of Object.entries(READERS)) {
      const run = read(file);
      if (run && run.rows !== ROWS) throw new Error(`${name} read ${run.rows} rows of ${ROWS}`);
      if (run) runs[name].push(run);
    }
  writeLog(file, FEW_ROWS);
  for (let turn = 0; turn < TURNS; turn++) few.push(READERS.readLog(file).ms);
  writeLog(file, LONG_ROWS);
  longShare = READERS.readLog(file).peak / statSync(file).size;
} finally {
  rmSync(folder, { recursive: true });
}

const middle = (values) => [...values].sort((a, b) => a - b)[values.length >> 1];
const line = (text) => process.stdout.write(`${text}\n`);
line(
  `${ROWS.toLocaleString('en')} rows, 4 channels, ${(bytes / 1e6).toFixed(1)} MB; processor time, middle (best) of ${TURNS} runs`,
);
const found = {};
for (const [name, list] of Object.entries(runs)) {
  if (list.length === 0) {
    line(`${name} not found on this machine (python3-pandas): nothing to compare with`);
    continue;
  }
  const ms = list.map((run) => run.ms);
  found[name] = { ms: middle(ms), memory: middle(list.map(({ peak }) => peak)) / bytes };
  const what = `${name}${list[0].version ? ` ${list[0].version}` : ''}`.padEnd(14);
  line(
    `${what} ${middle(ms).toFixed(0)} (${Math.min(...ms).toFixed(0)}) ms, memory ${found[name].memory.toFixed(1)} × the file`,
  );
}
if (found.pandas)
  line(
    `ratio readLog / pandas: ${(found.readLog.ms / found.pandas.ms).toFixed(2)}, ${AIM.pandas} or less is the aim`,
  );
line(
  `ratio PapaParse / readLog: ${(found.PapaParse.ms / found.readLog.ms).toFixed(1)}, ${AIM.papaParse} or more is the aim`,
);
line(
  `memory of readLog on ${LONG_ROWS.toLocaleString('en')} rows: ${longShare.toFixed(2)} × the file, under ${AIM.memory} is the aim`,
);
line(
  `${FEW_ROWS} rows, the first log of a process: ${middle(few).toFixed(0)} (${Math.min(...few).toFixed(0)}) ms, ${AIM.fewRowsMs} or less is the aim`,
);
