import { type AlloyCard, startTemper } from '../alloy';
import type { ThermalHistory } from '../history';
import { isothermal } from '../history';
import { quenchFactor } from '../kinetics';
import { type Judged, knownOptions } from '../quantity';
import { weightedShare } from '../statistics';
import {
  allowanceOf,
  bandOfDraws,
  type StrengthAfter,
  strengthAfter,
  type VerdictWord,
  wordOf,
} from '../strength';
import { newHeatTreatment } from './newHeatTreatment';

/** Strength of a place after solution treatment, quench and age made new. */
export interface NewTreatmentStrength {
  readonly yieldKeptFraction: Judged;
  readonly yieldMPa: Judged;
  /** Chance of no more loss than the allowance against the part before. */
  readonly chanceKept: number;
  readonly word: VerdictWord;
}

/** What a new treatment is worked out for. */
export interface NewTreatmentOptions {
  readonly allowanceFraction?: number;
  /** Cooling of the part in the new quench, logged or assumed; alloys with a C-curve only (`quenchFactor`). */
  readonly quench?: ThermalHistory;
}

const OPTIONS = ['allowanceFraction', 'quench'] as const satisfies readonly (keyof NewTreatmentOptions)[];

/**
 * Yield after a new heat treatment, and what that is of the yield before: draws of the card's temper, less what a quench
 * nobody logged may cost (up to ten times slower), or what the C-curve takes from the cooling given. What the metal saw
 * before does not matter unless it melted.
 * @param before the part as it is, for its yield before the heat; default a part of the card's temper.
 * @throws TemperbookError for options it does not know, as `startTemper` and `quenchFactor`.
 */
export function afterNewTreatment(
  card: AlloyCard,
  temper: string,
  before?: StrengthAfter,
  options: NewTreatmentOptions = {},
): NewTreatmentStrength {
  const { allowanceFraction, quench } = knownOptions(options, OPTIONS, 'afterNewTreatment');
  const needed = 1 - allowanceOf(allowanceFraction);
  const typical = startTemper(card, temper).entry.yieldMPa;
  const found = quench ? quenchFactor(quench, card) : undefined;
  const slower = newHeatTreatment().tenTimesSlowerQuenchMPa[card.family].value;
  const start = (before ?? strengthAfter(isothermal(20, 1), { alloy: card, temper }, { endOnly: true })).draws
    .startYieldMPa;
  const count = start.length;
  const made = start.map((_, i) => {
    const yieldMPa = typical.low + ((i + 0.5) / count) * (typical.high - typical.low);
    // Every draw of the part meets draws of the quench spread over their range.
    const lost = found ? 0 : slower * ((0.5 + i * Math.SQRT2) % 1);
    return yieldMPa * (found?.strengthFraction ?? 1) - lost;
  });
  const kept = made.map((yieldMPa, i) => yieldMPa / start[i]!);
  const because = found
    ? [
        `Quench factor ${found.quenchFactor.toFixed(1)} of the cooling given.`,
        ...found.remarks.map(({ text }) => text),
      ]
    : [
        `As the card’s temper, less up to ${slower} MPa for a quench up to ten times slower, because nobody logged it.`,
      ];
  const weights = before?.weights;
  const chance = weightedShare((i) => kept[i]! >= needed, count, weights);
  return {
    yieldKeptFraction: bandOfDraws(kept, '1', because, weights),
    yieldMPa: bandOfDraws(made, 'MPa', because, weights),
    chanceKept: chance,
    word: wordOf(chance, false),
  };
}
