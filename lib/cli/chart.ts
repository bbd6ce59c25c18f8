import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { furnaceChartFigure, staticSvg } from '../figure';
import { type ChartOptions, checkChart } from '../heattreat';
import { readLog } from '../log';
import { requirementRows, writeWhole } from '../report';
import { readOptionsOf } from './readOptionsOf';
import { keepNames, say, shownFigure, shownTable } from './say';
import { keyValue, onlyOne, required, shortest, UsageError } from './usage';

/** `temperbook chart <log file> --schedule "A356.0 T6" --sensor "TC1=load" --out chart.svg` */
export async function chart(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      schedule: { type: 'string' },
      sensor: { type: 'string', multiple: true, default: [] },
      thickness: { type: 'string' },
      out: { type: 'string' },
      read: { type: 'string', default: '{}' },
    },
  });
  const path = onlyOne(positionals, 'the chart to check');
  const schedule = required(values.schedule, '--schedule <name or file>');
  // `checkChart` knows what a sensor may sit in, and names it when it is given something else.
  const sensors = Object.fromEntries(
    values.sensor.map((text) => keyValue('--sensor', text)),
  ) as ChartOptions['sensors'];
  const check = checkChart(readLog(path, readOptionsOf(values.read)), schedule, {
    sensors,
    ...(values.thickness === undefined ? {} : { thicknessMm: millimetresOf(values.thickness) }),
  });
  keepNames(check.sensors.map(({ name }) => name));
  say(`${check.sentence}\n\n${shownTable(requirementRows(check))}\n\n${check.notes.join('\n')}`);
  if (values.out === undefined) return;
  if (!/\.svg$/i.test(values.out)) throw new UsageError('--out takes the name of a picture, ending in .svg');
  const picture = staticSvg(shownFigure(furnaceChartFigure(check)));
  writeWhole(values.out, (unfinished) => writeFileSync(unfinished, picture));
  process.stdout.write(`\nPicture  ${shortest(values.out)}\n`);
}

function millimetresOf(text: string): number {
  const [, number] = /^(\d+(?:\.\d+)?) ?(?:mm)?$/i.exec(text) ?? [];
  if (number === undefined) throw new UsageError(`--thickness takes millimetres, such as 12, not "${text}"`);
  return Number(number);
}
