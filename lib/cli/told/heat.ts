import { existsSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { isOpenMetal } from '../../alloy';
import {
  coaterTicket,
  type HeatedPlace,
  type HeatStep,
  type HeatsOptions,
  type HeatsVerdict,
  judgeHeats,
  judgeOpenMetal,
  type OpenVerdict,
  ticketText,
  VERDICT_IN_WORDS,
  WORD_RULE,
} from '../../decision';
import { parsePoints, pointsExposure, stickOf } from '../../exposure';
import { tableText } from '../../figure';
import { readLog } from '../../log';
import { formatChance, formatKept, formatStress } from '../../quantity';
import { tableOf, writeWhole } from '../../report';
import { readUnits } from '../../section';
import { fractionOf } from '../fractionOf';
import { shown } from '../say';
import { required, shortest, UsageError, yesOrNo } from '../usage';
import { mixedLines } from './mixedLines';

/** `temperbook heat "390F 1.5h" --alloy A356-T6 [--oven "class 5"] [--wall 6mm] [--stick "400F melted"] [--ticket page.txt]` */
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
      stick: { type: 'string', multiple: true, default: [] },
      within: { type: 'string' },
      between: { type: 'string' },
      brinell: { type: 'string' },
      ticket: { type: 'string' },
    },
  });
  if (positionals.length === 0) throw new UsageError('the heat is missing, such as "390F 1.5h"');
  const alloy = required(values.alloy, '--alloy <metal>, such as A356-T6,');
  const told: Omit<HeatsOptions, 'alloy' | 'temper'> = {
    allowanceFraction: values.loss === undefined ? undefined : fractionOf(values.loss),
    oven: values.oven,
    ...(values.wall === undefined ? {} : (readUnits({ wall: values.wall }) as { wallMm: number })),
    fan: values.fan === undefined ? undefined : yesOrNo('--fan', values.fan),
    attachment: values.attached as HeatsOptions['attachment'],
    seen: values.stick.map(stickOf),
  };
  const steps = positionals.map((word) => stepOf(word, values));
  if (isOpenMetal(alloy)) {
    if (values.ticket !== undefined)
      throw new UsageError('--ticket needs to know the metal: give one alloy and temper');
    const coldBrinell = values.brinell === undefined ? undefined : numberOf('--brinell', values.brinell);
    process.stdout.write(shown(openText(judgeOpenMetal(steps, alloy, { ...told, coldBrinell }))));
    return;
  }
  if (values.brinell !== undefined)
    throw new UsageError('--brinell tells tempers apart where --alloy leaves them open, such as "like 356"');
  const answer = judgeHeats(steps, { ...told, alloy, temper: values.temper });
  process.stdout.write(shown(answerText(answer)));
  if (values.ticket !== undefined) {
    const file = path.resolve(values.ticket);
    if (existsSync(file)) throw new UsageError(`${shortest(file)} is there already: give another name`);
    writeWhole(file, (unfinished) => writeFileSync(unfinished, shown(ticketText(coaterTicket(answer)))));
    process.stdout.write(`\nTicket  ${shortest(file)}\n`);
  }
}

/** A log, points off a paper chart, or a heat in words. */
function stepOf(
  word: string,
  { within, between }: { readonly within?: string; readonly between?: string },
): HeatStep {
  if (existsSync(word)) return readLog(word);
  if (!POINTS.test(word)) return word;
  if (within === undefined || between === undefined)
    throw new UsageError(
      'points need --within, how far one may be off, such as 5F; and --between "the curve" where every high and low was typed, or "not known"',
    );
  if (between !== 'the curve' && between !== 'not known')
    throw new UsageError(`--between takes "the curve" or "not known", not "${between}"`);
  return pointsExposure({ ...parsePoints(word), toK: within, between });
}

/** Points begin with a time, heats with a temperature. */
const POINTS = /^\s*[\d.]+\s*(?:s|sec|m|min|h)[\d.]*\s+-?\d/i;

function numberOf(option: string, text: string): number {
  const value = Number(text);
  if (text.trim() !== '' && Number.isFinite(value)) return value;
  throw new UsageError(`${option} takes a number, not "${text}"`);
}

function answerText({ sentence, places, left, asks, because }: HeatsVerdict): string {
  return `${[
    sentence,
    ...places.flatMap(({ lost }) => lost).filter(isFirst),
    ...(left ? [left.sentence] : []),
    '',
    tableText(tableOf(places.map(placeRow))),
    WORD_RULE,
    ...list('Nobody said', asks),
    ...list('What would settle it', places.flatMap(({ settle }) => settle).filter(isFirst)),
    ...list('Taken for this answer', because),
  ].join('\n')}\n`;
}

function placeRow({ name, word, yieldKeptFraction, chanceKept, yieldMPa, ultimateMPa }: HeatedPlace) {
  return {
    Place: name,
    Verdict: VERDICT_IN_WORDS[word],
    'Yield kept': formatKept(yieldKeptFraction),
    'Chance it is enough': chanceKept === null ? 'not all was recorded' : formatChance(chanceKept),
    'Yield now': formatStress(yieldMPa.nominal),
    'Ultimate now': ultimateMPa ? formatStress(ultimateMPa.nominal) : 'nobody knows',
  };
}

function openText(answer: OpenVerdict<HeatsVerdict>): string {
  return `${[
    ...mixedLines(answer),
    ...list('Nobody said', answer.answers[0]!.verdict.asks),
    ...list('Taken for this answer', answer.because),
  ].join('\n')}\n`;
}

const isFirst = (line: string, at: number, all: readonly string[]): boolean => all.indexOf(line) === at;

const list = (title: string, lines: readonly string[]): string[] =>
  lines.length > 0 ? ['', title, ...lines.map((line) => `  ${line}`)] : [];
