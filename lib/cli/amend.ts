import { parseArgs } from 'node:util';
import { type Amendment, amendRecordFile, type Decision, readRecord } from '../record';
import { keyValue, onlyOne, shortest, UsageError } from './usage';

/** `temperbook amend <record.json> --reading "TC1 brinell 68 75" --decide reject --reason … --job name=value --sign "role=name"` */
export async function amend(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      reading: { type: 'string', multiple: true, default: [] },
      decide: { type: 'string' },
      condition: { type: 'string' },
      reason: { type: 'string' },
      job: { type: 'string', multiple: true, default: [] },
      sign: { type: 'string', multiple: true, default: [] },
    },
  });
  const path = onlyOne(positionals, 'the record to amend, its .json file');
  const written = amendRecordFile(path, {
    readings: values.reading.map(readingOf),
    ...decisionOf(values.decide, values.condition, values.reason),
    job: Object.fromEntries(values.job.map((line) => keyValue('--job', line))),
    signOff: values.sign.map((line) => {
      const [role, name] = keyValue('--sign', line);
      return { role, name };
    }),
  });
  const lines = readRecord(written.json).changes.map(
    ({ what, was, now }) => `${what}: was ${was}, is ${now}`,
  );
  process.stdout.write(
    `Edition ${written.edition}\n${lines.join('\n')}\n\nRecord  ${shortest(written.html)}\nData    ${shortest(written.json)}\n`,
  );
}

type Reading = NonNullable<Amendment['readings']>[number];

/** "TC1 brinell 68" or "TC1 brinell 68 75": probe, kind, value, the same on cold metal. A probe's name may hold spaces. */
function readingOf(text: string): Reading {
  const [, channel, kind, value, reference] =
    /^(.+?)\s+([a-z]\w*)\s+(\d+(?:\.\d+)?)(?:\s+(\d+(?:\.\d+)?))?$/i.exec(text.trim()) ?? [];
  if (channel === undefined || kind === undefined || value === undefined)
    throw new UsageError(
      `--reading takes probe, kind, value and, where there is one, the value on cold metal of the same part, such as "TC1 brinell 68 75", not "${text}"`,
    );
  return {
    channel,
    // The record knows the kinds of readings, and names them when it is given another.
    kind: kind as Reading['kind'],
    value: Number(value),
    ...(reference === undefined ? {} : { reference: Number(reference) }),
  };
}

function decisionOf(
  disposition: string | undefined,
  condition: string | undefined,
  reason: string | undefined,
): Pick<Amendment, 'decision'> {
  if (disposition === undefined) {
    if (condition === undefined && reason === undefined) return {};
    throw new UsageError('--condition and --reason belong to --decide');
  }
  if (!reason) throw new UsageError('--decide needs a --reason');
  return {
    decision: {
      disposition: disposition as Decision['disposition'],
      ...(condition ? { condition } : {}),
      reason,
    },
  };
}
