import { listAlloys } from '../../alloy';
import { judge } from '../../decision';
import { type EvidenceRow, evidenceHistory, evidenceTable } from '../../kinetics';
import type { Judged } from '../../quantity';
import { DEFAULT_ALLOWANCE, type VerdictWord } from '../../strength';

/** What a user would have been told of one measured part, beside what was measured. */
export interface MeasuredWord {
  readonly row: EvidenceRow;
  readonly alloy: string;
  readonly word: VerdictWord;
  readonly chanceKept: number | null;
  readonly yieldKeptFraction: Judged;
  /** What the measurement says of the allowance; `null`: it only bounds the other side. */
  readonly truth: 'kept' | 'lost' | null;
  /** Kept where it was lost, or lost where it was kept. */
  readonly wrong: boolean;
  /** How far the measured value lies from the allowance, standard errors of the measurement. */
  readonly errorsFromRule: number;
}

/** A soak in a laboratory: junctions fixed as well as they can be, so that the word is not that of a loose probe. */
const LABORATORY = { ambientC: 20, attachment: 'welded wires' } as const;

/**
 * Every measured yield of an aged temper judged like a log. Common practice is no measurement; rows of alloys without
 * a card cannot be judged.
 */
export function measuredWords(allowanceFraction = DEFAULT_ALLOWANCE): readonly MeasuredWord[] {
  return wordsOf(({ known }) => known !== 'practice', allowanceFraction);
}

/** What a rule of the trade for a minute of heat claims, beside what the data say of it. */
export function practiceWords(allowanceFraction = DEFAULT_ALLOWANCE): readonly MeasuredWord[] {
  return wordsOf(({ known, set }) => known === 'practice' && set === 'short', allowanceFraction);
}

function wordsOf(asked: (row: EvidenceRow) => boolean, allowanceFraction: number): readonly MeasuredWord[] {
  const cards = new Set(listAlloys());
  return evidenceTable().flatMap((row) => {
    const { property, unit, temper, exposure, measured, startYieldMPa } = row;
    if (property !== 'yield' || unit !== 'fraction' || !asked(row)) return [];
    return row.alloys
      .filter((alloy) => cards.has(alloy))
      .map((alloy) => {
        const [channel] = judge(evidenceHistory(exposure), {
          alloy,
          temper,
          allowanceFraction,
          ...(startYieldMPa === undefined ? {} : { measuredYieldMPa: startYieldMPa }),
          ...LABORATORY,
        }).channels;
        const { verdict: word, chanceKept, yieldKeptFraction } = channel!;
        const truth = truthOf(row, 1 - allowanceFraction);
        return {
          row,
          alloy,
          word,
          chanceKept,
          yieldKeptFraction,
          truth,
          wrong: truth !== null && word !== 'uncertain' && word !== truth,
          errorsFromRule: Math.abs(measured.value - (1 - allowanceFraction)) / measured.standardError,
        };
      });
  });
}

function truthOf({ measured: { kind, value } }: EvidenceRow, needed: number): MeasuredWord['truth'] {
  if (kind === 'atLeast') return value >= needed ? 'kept' : null;
  if (kind === 'below') return value <= needed ? 'lost' : null;
  return value >= needed ? 'kept' : 'lost';
}
