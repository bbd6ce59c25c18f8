import { type AnswerIf, type OpenVerdict, VERDICT_IN_WORDS, WORD_RULE } from '../../decision';
import { tableText } from '../../figure';
import { formatChance, formatPercent } from '../../quantity';
import { tableOf } from '../../report';

/** The answer for a metal that words leave open: the sentence, what holds if it is which, and the rule. */
export function mixedLines({ sentence, answers }: OpenVerdict<AnswerIf>): string[] {
  const rows = answers.map(({ metal, weight, isRuledOut, verdict: { word, chanceKept } }) => ({
    'If it is': metal,
    Weight: `${formatPercent(weight)}${isRuledOut ? ', too little to count' : ''}`,
    Verdict: VERDICT_IN_WORDS[word],
    'Chance it is enough': chanceKept === null ? 'not all was recorded' : formatChance(chanceKept),
  }));
  return [
    sentence,
    '',
    tableText(tableOf(rows)),
    'The word must hold for every metal that weighs more than 5 %.',
    WORD_RULE,
  ];
}
