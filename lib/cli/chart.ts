import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { secondsOf } from '../exposure';
import { furnaceChartFigure, staticSvg } from '../figure';
import { type ChartCheck, type ChartOptions, checkChart, settleChart } from '../heattreat';
import { type ReadOptions, readLog, undecidedError } from '../log';
import { requirementRows, writeWhole } from '../report';
import { readOptionsOf } from './readOptionsOf';
import { canAsk } from './review/askJob';
import { askWay } from './review/askWay';
import { keepNames, say, shownFigure, shownTable } from './say';
import { keyValue, required, shortest, UsageError } from './usage';

/** `temperbook chart <log file> [<next file> …] --schedule "A356.0 T6" --sensor "TC1=load" --out chart.svg` */
export async function chart(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      schedule: { type: 'string' },
      sensor: { type: 'string', multiple: true, default: [] },
      thickness: { type: 'string' },
      pause: { type: 'string', multiple: true, default: [] },
      out: { type: 'string' },
      read: { type: 'string', default: '{}' },
    },
  });
  if (positionals.length === 0) throw new UsageError('the chart to check is missing');
  const schedule = required(values.schedule, '--schedule <name or file>');
  if (values.out !== undefined && !/\.svg$/i.test(values.out))
    throw new UsageError('--out takes the name of a picture, ending in .svg');
  const check = await chartOfFiles(positionals, readOptionsOf(values.read), schedule, {
    // `checkChart` knows what a sensor may sit in, and names it when it is given something else.
    sensors: Object.fromEntries(
      values.sensor.map((text) => keyValue('--sensor', text)),
    ) as ChartOptions['sensors'],
    ...(values.thickness === undefined ? {} : { thicknessMm: millimetresOf(values.thickness) }),
    ...(values.pause.length === 0
      ? {}
      : { pausesS: values.pause.map((text) => secondsOf(text, `--pause ${text}`)) }),
  });
  keepNames(check.sensors.map(({ name }) => name));
  say(`${check.sentence}\n\n${shownTable(requirementRows(check))}\n\n${check.notes.join('\n')}`);
  if (values.out === undefined) return;
  const picture = staticSvg(shownFigure(furnaceChartFigure(check)));
  writeWhole(values.out, (unfinished) => writeFileSync(unfinished, picture));
  process.stdout.write(`\nPicture  ${shortest(values.out)}\n`);
}

/** Where the answers hang on how a file is meant, asks on a terminal; elsewhere says which option settles it. */
async function chartOfFiles(
  files: readonly string[],
  read: ReadOptions,
  schedule: string,
  options: ChartOptions,
): Promise<ChartCheck> {
  const reads = files.map(() => read);
  for (;;) {
    const { check, undecided } = settleChart(
      files.map((file, k) => readLog(file, reads[k])),
      (k, other) => readLog(files[k]!, other),
      (logs) => checkChart(logs, schedule, options),
    );
    if (!undecided) return check;
    if (!canAsk()) throw undecidedError(undecided);
    reads[undecided.of] = await askWay(undecided);
  }
}

function millimetresOf(text: string): number {
  const [, number] = /^(\d+(?:\.\d+)?) ?(?:mm)?$/i.exec(text) ?? [];
  if (number === undefined) throw new UsageError(`--thickness takes millimetres, such as 12, not "${text}"`);
  return Number(number);
}
