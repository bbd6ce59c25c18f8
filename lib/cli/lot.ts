import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { residualFigure, staticSvg, tableText } from '../figure';
import { TemperbookError } from '../quantity';
import { couponResidualRows, couponRows, tableOf, writeWhole } from '../report';
import { COUPON_CAUTIONS, type LotCard, lotCard, lotCardText, lotOfCard } from '../verify';
import { onlyOne, shortest } from './usage';

/** `temperbook lot <coupons.json> [--out card.json]` */
export async function lot(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: { out: { type: 'string' } },
  });
  const path = onlyOne(positionals, 'the file of coupons');
  const card = lotCard(couponsOf(path));
  const answer = lotOfCard(card);
  const left = `${Math.round(answer.effectiveMembers)} of ${answer.weights.length} plausible metals are left.`;
  process.stdout.write(
    `${card.name}, ${card.alloy}-${card.temper}: ${left}\n\n${tableText(tableOf(couponRows(answer)))}\n\n${answer.because.join('\n')}\n\nCaution\n${COUPON_CAUTIONS.join('\n')}\n`,
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

/** The coupons of a file; one that is a card already is weighed anew with the members of today. */
function couponsOf(path: string): Parameters<typeof lotCard>[0] {
  try {
    const { name, alloy, temper, coupons } = JSON.parse(readFileSync(path, 'utf8')) as LotCard;
    return { name, alloy, temper, coupons };
  } catch (error) {
    throw new TemperbookError('The file of coupons cannot be read', {
      file: path,
      found: (error as Error).message,
      expected: 'JSON with name, alloy, temper and coupons',
    });
  }
}
