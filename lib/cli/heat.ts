import { existsSync } from 'node:fs';
import { parseArgs } from 'node:util';
import {
  type HeatStep,
  type HeatsOptions,
  type HeatsVerdict,
  judgeHeats,
  VERDICT_IN_WORDS,
  WORD_RULE,
} from '../decision';
import { tableText } from '../figure';
import { readLog } from '../log';
import { formatChance, formatKept } from '../quantity';
import { tableOf } from '../report';
import { readUnits } from '../section';
import { fractionOf } from './fractionOf';
import { required, UsageError } from './usage';

/** `temperbook heat "390F 1.5h" --alloy A356-T6 [--oven "class 5"] [--wall 6mm]` */
export async function heat(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      alloy: { type: 'string' },
      temper: { type: 'string' },
      loss: { type: 'string' },
      oven: { type: 'string' },
      wall: { type: 'string' },
      fan: { type: 'string' },
      attached: { type: 'string' },
    },
  });
  if (positionals.length === 0) throw new UsageError('the heat is missing, such as "390F 1.5h"');
  const options: HeatsOptions = {
    alloy: required(values.alloy, '--alloy <metal>, such as A356-T6,'),
    temper: values.temper,
    allowanceFraction: values.loss === undefined ? undefined : fractionOf(values.loss),
    oven: values.oven,
    ...(values.wall === undefined ? {} : (readUnits({ wall: values.wall }) as { wallMm: number })),
    fan: values.fan === undefined ? undefined : yesOrNo('--fan', values.fan),
    attachment: values.attached as HeatsOptions['attachment'],
  };
  const steps = positionals.map((word): HeatStep => (existsSync(word) ? readLog(word) : word));
  process.stdout.write(answerText(judgeHeats(steps, options)));
}

function yesOrNo(option: string, text: string): boolean {
  if (text === 'yes' || text === 'no') return text === 'yes';
  throw new UsageError(`${option} takes yes or no, not "${text}"`);
}

function answerText({ sentence, places, left, asks, because }: HeatsVerdict): string {
  const rows = places.map(({ name, word, yieldKeptFraction, chanceKept }) => ({
    Place: name,
    Verdict: VERDICT_IN_WORDS[word],
    'Strength kept': formatKept(yieldKeptFraction),
    'Chance it is enough': chanceKept === null ? 'not all was recorded' : formatChance(chanceKept),
  }));
  const list = (title: string, lines: readonly string[]): string[] =>
    lines.length > 0 ? ['', title, ...lines.map((line) => `  ${line}`)] : [];
  return `${[
    sentence,
    ...(left ? [left.sentence] : []),
    '',
    tableText(tableOf(rows)),
    WORD_RULE,
    ...list('Nobody said', asks),
    ...list('What would settle it', [...new Set(places.flatMap(({ settle }) => settle))]),
    ...list('Taken for this answer', because),
  ].join('\n')}\n`;
}
