import { dirname, extname, relative, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import type { CheckedProbe } from '../../exposure';
import { tableText } from '../../figure';
import { checkOfProbes, type SaidCheck } from '../../job';
import { formatTempSpan } from '../../quantity';
import { tableOf, writeNew } from '../../report';
import { readOptionsOf } from '../readOptionsOf';
import { onlyOne, shortest, UsageError } from '../usage';

/** `temperbook probes <short log> --step "ice water 30s to 90s" … [--type K] [--out check.json]`, or of a check that was kept */
export async function probes(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      step: { type: 'string', multiple: true, default: [] },
      type: { type: 'string', default: 'K' },
      read: { type: 'string', default: '{}' },
      out: { type: 'string' },
    },
  });
  const path = onlyOne(positionals, 'the log of the check');
  const isKept = extname(path).toLowerCase() === '.json';
  if (isKept && (values.step.length > 0 || values.out !== undefined))
    throw new UsageError(
      '--step and --out have no place beside a check that was kept: change it in the file',
    );
  const read = readOptionsOf(values.read);
  const log = (from: string) => (Object.keys(read).length > 0 ? { file: from, read } : from);
  // The schema of a check knows the types of wire, and names them when it is given another.
  const type = values.type as SaidCheck['type'];
  const found = checkOfProbes(isKept ? path : { log: log(path), type, steps: values.step }, '');
  process.stdout.write(`${tableText(tableOf(found.map(rowOf)))}\n${reasons(found)}`);
  if (values.out === undefined) return;
  const { out } = values;
  const kept = { log: log(relative(dirname(resolve(out)), resolve(path))), type, steps: values.step };
  if (!writeNew(out, `${JSON.stringify(kept, undefined, 2)}\n`))
    throw new UsageError(`${shortest(out)} is there already: give another name`);
  process.stdout.write(`\nCheck   ${shortest(out)}\n`);
}

function rowOf({ name, readsLowK, toK, arcK, faults }: CheckedProbe) {
  const off =
    readsLowK === 0
      ? 'within its tolerance'
      : `${formatTempSpan(Math.abs(readsLowK), 1)} ${readsLowK > 0 ? 'low' : 'high'}, known to ±${formatTempSpan(toK, 1)}`;
  return {
    Probe: name,
    Reads: off,
    'The arc moves it by': arcK === 0 ? '' : formatTempSpan(arcK, 1),
    'Fit to weld by': faults.length === 0 ? 'yes' : 'no: it clears nothing as it is',
  };
}

const reasons = (found: readonly CheckedProbe[]): string =>
  found
    .flatMap(({ name, faults, because }) => ['', name, ...[...faults, ...because].map((line) => `  ${line}`)])
    .map((line) => `${line}\n`)
    .join('');
