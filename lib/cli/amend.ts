import { parseArgs } from 'node:util';
import {
  type Amendment,
  amendRecordFile,
  type Decision,
  DISPOSITIONS,
  namesIn,
  readRecord,
  whyNotAgain,
} from '../record';
import { readingOf } from './readingOf';
import { keepNames, say, shown, unitsShown } from './say';
import { keyValue, onlyOne, shortest, UsageError } from './usage';

/** `temperbook amend <record.json> --reading "TC1 brinell 68 75" --attached "TC1=cemented" --decide reject --reason … --job name=value --sign "role=name"` */
export async function amend(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      reading: { type: 'string', multiple: true, default: [] },
      attached: { type: 'string', multiple: true, default: [] },
      decide: { type: 'string' },
      condition: { type: 'string' },
      reason: { type: 'string' },
      job: { type: 'string', multiple: true, default: [] },
      sign: { type: 'string', multiple: true, default: [] },
    },
  });
  const path = onlyOne(positionals, 'the record to amend, its .json file');
  const amendment: Amendment = {
    readings: values.reading.map(readingOf),
    // `attachmentError` knows the ways of fixing, and names them when it is given another.
    attachments: Object.fromEntries(
      values.attached.map((line) => keyValue('--attached', line)),
    ) as Amendment['attachments'],
    ...decisionOf(values.decide, values.condition, values.reason),
    job: Object.fromEntries(values.job.map((line) => keyValue('--job', line))),
    signOff: values.sign.map((line) => {
      const [role, name] = keyValue('--sign', line);
      return { role, name };
    }),
  };
  const written = amendRecordFile(path, amendment, unitsShown());
  const record = readRecord(written.json);
  keepNames(namesIn(record));
  const { headline, reason } = record.verdict.action;
  say(`${headline}\n${reason}\n`);
  if (amendment.readings!.length > 0 && record.readings.length > 0)
    say(`The reading stands beside the verdict, which does not count it: ${whyNotAgain(record)}.\n`);
  const { because = [], contradicting = [] } = record.verdict.readings ?? {};
  const told = amendment.readings!.length > 0 ? [...because, ...contradicting] : [];
  if (told.length > 0) say(`${told.join('\n')}\n`);
  const lines = record.changes.map(({ what, was, now }) => `${what}: was ${was}, is ${now}`);
  process.stdout.write(
    `Edition ${written.edition}\n${lines.map(shown).join('\n')}\n\nRecord  ${shortest(written.html)}\nData    ${shortest(written.json)}\n`,
  );
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
  if (!DISPOSITIONS.some((one) => one === disposition))
    throw new UsageError(`--decide takes one of ${DISPOSITIONS.join(', ')}, not "${disposition}"`);
  if (!reason) throw new UsageError('--decide needs a --reason');
  if (disposition === 'accept with condition' && !condition)
    throw new UsageError('--decide "accept with condition" needs a --condition');
  return {
    decision: {
      disposition: disposition as Decision['disposition'],
      ...(condition ? { condition } : {}),
      reason,
    },
  };
}
