import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { residualFigure, staticSvg, tableText } from '../figure';
import { temperMade } from '../heattreat';
import { chartOfJob, readJob, type SaidChart, wholeChart } from '../job';
import { membersHash } from '../kinetics';
import { readUserJson, TemperbookError } from '../quantity';
import { couponResidualRows, couponRows, tableOf, writeWhole } from '../report';
import {
  type ChartFinding,
  COUPON_CAUTIONS,
  chartFinding,
  type LotCard,
  lotCard,
  lotCardText,
  lotOfCard,
} from '../verify';
import { onlyOne, shortest } from './usage';

/** `temperbook lot <lot.json> [--out card.json]`, of coupons, of a furnace chart or of both */
export async function lot(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: { out: { type: 'string' } },
  });
  const path = onlyOne(positionals, 'the file of the lot: its coupons, its chart');
  const card = lotCard(lotOfFile(path));
  const answer = lotOfCard(card);
  const left = `${Math.round(answer.effectiveMembers)} of ${answer.weights.length} plausible metals are left.`;
  const { chart, coupons } = card;
  process.stdout.write(
    `${[
      `${card.name}, ${card.alloy}-${card.temper}: ${left}`,
      ...(chart ? [chart.sentence] : []),
      ...(coupons.length > 0 ? [tableText(tableOf(couponRows(answer)))] : []),
      answer.because.join('\n'),
      ...(coupons.length > 0 ? [`Caution\n${COUPON_CAUTIONS.join('\n')}`] : []),
    ].join('\n\n')}\n`,
  );
  if (values.out === undefined) return;
  const { out } = values;
  place('lot card', out, lotCardText(card));
  process.stdout.write(`\nCard    ${shortest(out)}\n`);
  const unit = answer.predictions[0]?.unit;
  if (unit === undefined) return;
  const picture = out.replace(/(\.json)?$/i, '.svg');
  const figure = residualFigure(couponResidualRows(answer, unit), {
    title: `Coupons of ${card.name}: expected less read`,
    unit,
  });
  place('picture', picture, staticSvg(figure));
  process.stdout.write(`Picture ${shortest(picture)}\n`);
}

/** Writes a file whole, unless another stands there. */
function place(what: string, file: string, text: string): void {
  if (existsSync(file) && readFileSync(file, 'utf8') !== text)
    throw new TemperbookError(`Another ${what} stands there`, {
      file,
      remedy: 'Give another name with --out',
    });
  writeWhole(file, (unfinished) => writeFileSync(unfinished, text));
}

/** What stands in the file of a lot: its chart as in a job's `lot.chart`. */
type SaidLotFile = Omit<Parameters<typeof lotCard>[0], 'chart' | 'coupons'> & {
  readonly membersHash?: string;
  readonly chart?: SaidChart | ChartFinding;
  readonly coupons?: LotCard['coupons'];
};

/** The lot of a file; one that is a card already is weighed anew with the members of today. */
function lotOfFile(path: string): Parameters<typeof lotCard>[0] {
  const said = readUserJson(path, 'The file of the lot') as SaidLotFile;
  const { name, alloy, temper, chart, coupons = [] } = said;
  if (chart === undefined) return { name, alloy, temper, coupons };
  if (typeof chart === 'object' && 'ofSchedule' in chart) {
    // A card keeps what the members of its day made of the chart, not the chart.
    if (said.membersHash !== membersHash())
      throw new TemperbookError('This card was made with other plausible metals', {
        file: path,
        found: 'a card that holds what they made of a furnace chart',
        expected: 'the file it was made from, with the path of the chart',
      });
    return { name, alloy, temper, chart, coupons };
  }
  const job = readJob({
    metal: { alloy, temper },
    lot: { name, chart: wholeChart(chart, dirname(resolve(path))) },
  });
  const check = chartOfJob(job);
  return { name, alloy, temper, chart: chartFinding(check, temperMade(check)), coupons };
}
