import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { DEFAULTS_FILE, type JobFile, type SaidProbe } from '../../job';
import { fractionOf } from '../fractionOf';
import { readingOf } from '../readingOf';
import { readOptionsOf } from '../readOptionsOf';
import { keyValue, UsageError } from '../usage';

/** The options of `temperbook review`, as they were typed. */
export interface ReviewValues {
  readonly alloy?: string;
  readonly temper?: string;
  readonly loss?: string;
  readonly limit?: string;
  readonly attached?: string;
  readonly defaults?: string;
  readonly probe: readonly string[];
  readonly role: readonly string[];
  readonly reading: readonly string[];
  readonly lot: readonly string[];
  readonly check?: string;
  readonly job: readonly string[];
  readonly read: string;
}

/** The job that the options of a command line say about a log: what `temperbook review job.json` reads from a file. */
export function jobOfOptions(log: string, values: ReviewValues): JobFile {
  const { loss, limit, attached } = values;
  const read = readOptionsOf(values.read);
  const defaults = values.defaults ?? defaultsBeside(log);
  const { job, part, partNumber, serial, ...sheet } = Object.fromEntries(
    values.job.map((line) => keyValue('--job', line)),
  );
  const probes = probesOf(values);
  const limits = {
    ...(limit === undefined ? {} : { limitC: temperatureOf(limit) }),
    ...(loss === undefined ? {} : { allowanceFraction: fractionOf(loss) }),
  };
  return {
    ...(defaults === undefined ? {} : { defaults }),
    ...(job ? { job } : {}),
    ...(part || partNumber || serial
      ? {
          part: {
            ...(partNumber ? { number: partNumber } : {}),
            ...(part ? { name: part } : {}),
            ...(serial ? { serial } : {}),
          },
        }
      : {}),
    log: Object.keys(read).length > 0 ? { file: log, read } : log,
    ...metalOf(values),
    // The job knows the ways of attaching, and names them when it is given another.
    ...(attached === undefined
      ? {}
      : { measuring: { attachment: attached as NonNullable<SaidProbe['attachment']> } }),
    ...(Object.keys(probes).length > 0 ? { probes } : {}),
    ...(Object.keys(limits).length > 0 ? { limits } : {}),
    ...(values.lot.length > 0 ? { lot: { cards: values.lot } } : {}),
    ...(values.check === undefined ? {} : { check: values.check }),
    ...(values.reading.length > 0 ? { readings: values.reading.map(readingOf) } : {}),
    ...(Object.keys(sheet).length > 0 ? { sheet } : {}),
  };
}

function metalOf({ alloy, temper }: ReviewValues): Pick<JobFile, 'metal'> {
  if (alloy === undefined) return temper === undefined ? {} : { metal: temper };
  return { metal: temper === undefined ? alloy : { alloy, temper } };
}

/** The shop's defaults where they are looked for: beside the log, then where the user stands. */
function defaultsBeside(log: string): string | undefined {
  return [join(dirname(log), DEFAULTS_FILE), DEFAULTS_FILE].find((file) => existsSync(file));
}

function probesOf({ probe, role }: ReviewValues): Record<string, SaidProbe> {
  const said: Record<string, SaidProbe> = {};
  for (const text of probe) {
    const [name, metal] = keyValue('--probe', text);
    said[name] = { metal };
  }
  for (const text of role) {
    const [name, word] = keyValue('--role', text);
    said[name] = { ...said[name], role: word as NonNullable<SaidProbe['role']> };
  }
  return said;
}

/** A limit is typed with its unit: 440 alone may be meant either way. */
function temperatureOf(text: string): string {
  if (/^-?\d+(?:\.\d+)? ?°?[CF]$/i.test(text)) return text;
  throw new UsageError(`--limit takes a temperature with its unit, such as 440F or 227C, not "${text}"`);
}
