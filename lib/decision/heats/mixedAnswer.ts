import { type MetalAlternative, metalAlternatives } from '../../alloy';
import { formatChance, formatPercent, TemperbookError } from '../../quantity';
import { normalQuantile } from '../../statistics';
import { KEPT_FROM, LOST_UP_TO, type VerdictWord } from '../../strength';
import { VERDICT_IN_WORDS } from '../wording';

/** What is known of a part if it is one metal. */
export interface AnswerIf {
  readonly word: VerdictWord;
  /** null where a record is blind. */
  readonly chanceKept: number | null;
}

/** One metal the part may be, what a reading leaves of it, and the answer if it is that. */
export interface OpenAnswer<Answer extends AnswerIf> {
  readonly metal: string;
  /** Share of the whole, after the hardness where one was read. */
  readonly weight: number;
  readonly isRuledOut: boolean;
  readonly verdict: Answer;
}

/** The answer for a part of which nobody knows what it is. */
export interface OpenVerdict<Answer extends AnswerIf> {
  readonly word: VerdictWord;
  /** Chance over all alternatives by their weights; null where a record is blind. */
  readonly chanceKept: number | null;
  readonly sentence: string;
  readonly answers: readonly OpenAnswer<Answer>[];
  readonly because: readonly string[];
}

/** An alternative counts while it holds more than this. */
const COUNTS_ABOVE = 0.05;
/** One reading repeats to 2 HB (common practice, no source); the band of a card holds the part-to-part spread. */
const REPEATS_HB = 2;
/** A card's band low–high is taken for the middle 90 %. */
const BAND_WIDTHS = 2 * normalQuantile(0.95);
/** Where a card gives no band, a tenth of the value either way. */
const NO_BAND = 0.1;

/**
 * The answer for a metal that words leave open (`metalAlternatives`), from the answer for each it may be. The word must hold
 * for each that weighs more than 5 %: kept only if kept whichever it is, lost only if lost whichever it is. Hardness read on
 * cold metal weighs tempers against one another,
 *
 *   w ∝ w₀ exp(−½ ((HB − HB_temper)/u)²)/u,
 *
 * a temper of which no hardness is printed keeping the mean of the others.
 * @throws TemperbookError as `metalAlternatives` and `answerIf`, and for a hardness that none of them can have.
 */
export function mixedAnswer<Answer extends AnswerIf>(
  metal: string,
  coldBrinell: number | undefined,
  answerIf: (alternative: MetalAlternative) => Answer,
): OpenVerdict<Answer> {
  const alternatives = metalAlternatives(metal);
  const weights = weighedBy(alternatives, coldBrinell);
  const answers = alternatives.map(
    (one, k): OpenAnswer<Answer> => ({
      metal: `${one.card.designation}-${one.temper}`,
      weight: weights[k]!,
      isRuledOut: weights[k]! <= COUNTS_ABOVE,
      verdict: answerIf(one),
    }),
  );
  // Many alternatives may each weigh less than that: then none is ruled out by its weight alone.
  const counted = answers.some(({ isRuledOut }) => !isRuledOut)
    ? answers.filter(({ isRuledOut }) => !isRuledOut)
    : answers;
  const words = new Set(counted.map(({ verdict }) => verdict.word));
  const isBlind = answers.some(({ verdict }) => verdict.chanceKept === null);
  const chance = answers.reduce((sum, { weight, verdict }) => sum + weight * (verdict.chanceKept ?? 0), 0);
  const all: VerdictWord = words.size === 1 ? [...words][0]! : 'uncertain';
  const word =
    isBlind && all === 'kept'
      ? 'uncertain'
      : (all === 'kept' && chance < KEPT_FROM) || (all === 'lost' && chance > LOST_UP_TO)
        ? 'uncertain'
        : all;
  return {
    word,
    chanceKept: isBlind ? null : chance,
    sentence: sentenceOf(word, counted, isBlind ? null : chance),
    answers,
    because: [
      alternatives[0]!.because,
      coldBrinell === undefined
        ? 'No hardness of cold metal was read: it rules tempers out.'
        : `${coldBrinell} HB on cold metal leaves ${counted.map(({ metal: name, weight }) => `${name} ${formatPercent(weight)}`).join(', ')}.`,
    ],
  };
}

function weighedBy(alternatives: readonly MetalAlternative[], coldBrinell?: number): number[] {
  if (coldBrinell === undefined) return alternatives.map(({ weight }) => weight);
  const likely = alternatives.map(({ card, temper }) => {
    const printed = card.tempers[temper]?.brinell;
    if (printed === undefined) return undefined;
    const band =
      printed.high > printed.low ? (printed.high - printed.low) / BAND_WIDTHS : NO_BAND * printed.value;
    const u = Math.hypot(band, REPEATS_HB);
    return Math.exp(-0.5 * ((coldBrinell - printed.value) / u) ** 2) / u;
  });
  const known = likely.filter((one): one is number => one !== undefined);
  const mean = known.reduce((sum, one) => sum + one, 0) / Math.max(1, known.length);
  if (known.length > 0 && Math.max(...known) < 1e-6)
    throw new TemperbookError('No metal it may be is so hard or so soft', {
      found: `${coldBrinell} HB on cold metal`,
      expected: alternatives
        .flatMap(({ card, temper }) => {
          const printed = card.tempers[temper]?.brinell;
          return printed ? [`${card.designation}-${temper} ${printed.value} HB`] : [];
        })
        .join(', '),
      remedy: 'Check the scale (Brinell 10 mm, 500 kgf), and whether it is of this family at all',
    });
  const weights = alternatives.map(({ weight }, k) => weight * (likely[k] ?? mean));
  const sum = weights.reduce((total, one) => total + one, 0);
  return weights.map((one) => one / sum);
}

function sentenceOf(
  word: VerdictWord,
  counted: readonly OpenAnswer<AnswerIf>[],
  chance: number | null,
): string {
  const names = (wanted: VerdictWord): string =>
    counted
      .filter(({ verdict }) => verdict.word === wanted)
      .map(({ metal }) => metal)
      .join(', ');
  const of = chance === null ? '' : `; over all of them the chance is ${formatChance(chance)}`;
  if (word !== 'uncertain')
    return `${VERDICT_IN_WORDS[word].charAt(0).toUpperCase()}${VERDICT_IN_WORDS[word].slice(1)}, whichever of ${counted.length} metals it is${of}.`;
  const told = (['kept', 'uncertain', 'lost'] as const)
    .flatMap((one) => (names(one) ? [`${one} if it is ${names(one)}`] : []))
    .join('; ');
  return `Uncertain, check it: ${told}${of}. Hardness on cold metal, or a certificate, tells which it is.`;
}
