import { resolve } from 'node:path';
import { loadAlloy } from '../alloy';
import { scheduleOf } from '../decision';
import { type ChartCheck, checkChart, settleChart } from '../heattreat';
import { readLog, undecidedError } from '../log';
import { TemperbookError } from '../quantity';
import { type FileOf, schedulePath } from './fileToRead';
import type { Job } from './job';
import type { SaidChart } from './jobFile';
import { metalOf } from './jobMetal';

/**
 * The furnace chart of a job's lot against its schedule (`checkChart`), in every way in which its files may be meant; without
 * a schedule of its own against the one of the job's metal.
 * @param wordsOf What the ways of reading must agree in; the sentence of the check unless you say.
 * @throws TemperbookError for a job without a chart, as `readLog` and `checkChart`, and where the answers hang on how a file
 * is meant.
 */
export function chartOfJob(job: Job, wordsOf?: (check: ChartCheck) => string): ChartCheck {
  const said = job.lot?.chart;
  if (said === undefined)
    throw new TemperbookError('The job has no furnace chart', {
      file: job.file,
      expected: 'the key lot.chart: the path of the chart, or { file, schedule, … }',
    });
  const chart: Exclude<SaidChart, string> = typeof said === 'string' ? { file: said } : said;
  const files = [chart, ...(chart.next ?? []).map((one) => (typeof one === 'string' ? { file: one } : one))];
  const schedule = chart.schedule ?? scheduleOfMetal(job);
  const { undecided, check } = settleChart(
    files.map(({ file, read }) => readLog(file, read)),
    (k, options) => readLog(files[k]!.file, options),
    (logs) =>
      checkChart(logs, schedule, {
        ...(chart.thicknessMm === undefined ? {} : { thicknessMm: chart.thicknessMm }),
        ...(chart.sensors === undefined ? {} : { sensors: chart.sensors }),
        ...pausesOf(chart),
      }),
    wordsOf,
  );
  if (undecided) throw undecidedError(undecided);
  return check;
}

function scheduleOfMetal(job: Job): string {
  const { alloy, temper } = metalOf(job);
  const found = scheduleOf(loadAlloy(alloy), temper);
  if (found !== undefined) return found;
  throw new TemperbookError(
    'The chart is to be held against the schedule of the metal, and the kit holds none',
    {
      file: job.file,
      column: 'lot.chart',
      found: `${alloy}-${temper}`,
      expected:
        'the key lot.chart.schedule: what the furnace was to do, by name or by the path of your own (.json)',
    },
  );
}

/** The pauses between the charts, stated for all or for none. */
export function pausesOf({ next = [] }: Exclude<SaidChart, string>): {
  readonly pausesS?: readonly number[];
} {
  const stated = next.flatMap((one) => (typeof one === 'string' ? [] : (one.pauseH ?? [])));
  if (stated.length === 0) return {};
  if (stated.length === next.length) return { pausesS: stated.map((pauseH) => 3600 * pauseH) };
  throw new TemperbookError('The pauses between the charts are said of some of them only', {
    found: `${stated.length} of ${next.length}`,
    expected: 'pauseH at every chart of lot.chart.next, or at none, whose clocks then say',
  });
}

/** A chart with its paths from a folder made whole. */
export function wholeChart(chart: SaidChart, folder: string): SaidChart {
  const whole = <Said extends FileOf>(said: Said): Said =>
    (typeof said === 'string'
      ? resolve(folder, said)
      : { ...(said as object), file: resolve(folder, said.file) }) as Said;
  if (typeof chart === 'string') return whole(chart);
  const { schedule, next } = chart;
  return {
    ...whole(chart),
    ...(schedule === undefined ? {} : { schedule: schedulePath(schedule, folder) }),
    ...(next === undefined ? {} : { next: next.map(whole) }),
  };
}
