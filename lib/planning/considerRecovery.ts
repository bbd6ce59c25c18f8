import { type AlloyCard, meltsFromC, withMetal } from '../alloy';
import { asExposure, type Exposure, peak } from '../exposure';
import type { ThermalHistory } from '../history';
import { formatDuration, formatTemp, type Judged, knownOptions, TemperbookError } from '../quantity';
import {
  allowanceOf,
  type LotWeights,
  type MeasuredBefore,
  measuredYield,
  type StrengthAfter,
  type VerdictWord,
} from '../strength';
import { afterNewTreatment } from './afterNewTreatment';
import { newHeatTreatment } from './newHeatTreatment';
import { afterTreatments, ageingPractice, type BeforeTreatment, THREE_WEEKS_S } from './treatments';

/** One way to go on with a part after the heat. */
export interface RecoveryOption {
  readonly name: string;
  readonly yieldKeptFraction: Judged;
  /** Ultimate strength likewise; null where no source carries it. */
  readonly ultimateKeptFraction: Judged | null;
  /** Chance that the loss stays within the allowance; null where the record is blind. */
  readonly chanceKept: number | null;
  readonly verdict: VerdictWord;
  /** Time it takes in the furnace or on the shelf, s. */
  readonly timeS: number;
  /** What must hold for it, and what it cannot do. */
  readonly remark: string;
}

/** What recovery is considered for. */
export interface RecoveryOptions extends MeasuredBefore, BeforeTreatment {
  /** The alloy, or alloy and temper in one word: 'A356-T6'. */
  readonly alloy: AlloyCard | string;
  readonly temper?: string;
  /** What coupons or a chart say of the lot of metal; `asWelded`, where it is given, holds it already. */
  readonly lots?: readonly LotWeights[];
  readonly allowanceFraction?: number;
  /** Cooling of the part in a new quench, logged or assumed; alloys with a C-curve only (`quenchFactor`). */
  readonly quench?: ThermalHistory;
}

const OPTIONS = [
  'alloy',
  'temper',
  'allowanceFraction',
  'measuredYieldMPa',
  'measuredHardnessHV',
  'lots',
  'quench',
  'earlier',
  'asWelded',
] as const satisfies readonly (keyof RecoveryOptions)[];

function checkSolid(card: AlloyCard, history: ThermalHistory): void {
  const peakC = peak(history).tempC;
  if (peakC < meltsFromC(card)) return;
  throw new TemperbookError(`Metal of ${card.designation} that melted has no temper to bring back`, {
    found: `a peak of ${formatTemp(peakC)}`,
    expected: `less than ${formatTemp(meltsFromC(card))}`,
    remedy: 'Look for a fault of the probe; metal that began to melt is for repair or scrap',
  });
}

/**
 * The ways to go on after welding, for the metal of one exposure: accept as it is, accept after three weeks on the shelf,
 * age again, or the full heat treatment. The first three are `strengthAfter` going on from the weld: dissolved solute comes
 * back in part; what coarsened only comes back through solution treatment and quench.
 * @throws TemperbookError for options it does not know, as `strengthAfter`, when the card gives no ageing practice for the temper, for metal that melted,
 * and as `quenchFactor`.
 */
export function considerRecovery(
  given: Exposure | ThermalHistory,
  options: RecoveryOptions,
): RecoveryOption[] {
  const {
    alloy: card,
    temper,
    allowanceFraction: allowed,
    quench,
    earlier,
    asWelded: known,
    lots,
    ...measured
  } = withMetal(knownOptions(options, OPTIONS, 'considerRecovery'));
  const allowanceFraction = allowanceOf(allowed);
  const exposure = asExposure(given);
  const { tempC, timeS } = ageingPractice(card, temper);
  checkSolid(card, exposure.history);
  const { asWelded, rested, reaged } = afterTreatments(
    exposure,
    { alloy: card, temper, measuredYieldMPa: measuredYield(measured, card), lots },
    allowanceFraction,
    { earlier, asWelded: known },
  );
  const option = (name: string, after: StrengthAfter, spentS: number, remark: string): RecoveryOption => ({
    name,
    yieldKeptFraction: after.yieldKeptFraction,
    ultimateKeptFraction: after.ultimateKeptFraction,
    chanceKept: after.chanceKept,
    verdict: after.word,
    timeS: spentS,
    remark,
  });
  const full = afterNewTreatment(card, temper, asWelded, {
    allowanceFraction,
    ...(quench ? { quench } : {}),
  });
  return [
    option('Accept as it is', asWelded, 0, 'Nothing to do.'),
    option(
      'Accept after three weeks',
      rested,
      THREE_WEEKS_S,
      'Dissolved solute hardens at room temperature; coarsened particles do not.',
    ),
    option(
      `Age again, ${formatDuration(timeS)} at ${formatTemp(tempC)}`,
      reaged,
      timeS,
      'Brings back part of what dissolved. What over-aged stays soft, and all the rest ages on.',
    ),
    {
      name: 'Full heat treatment: solution, quench, age',
      yieldKeptFraction: full.yieldKeptFraction,
      ultimateKeptFraction: null,
      chanceKept: full.chanceKept,
      verdict: full.word,
      timeS: newHeatTreatment().solutionTreatmentS.value + timeS,
      remark: `Brings back everything where the quench reaches and the filler responds. Distorts the part; stay below ${formatTemp(meltsFromC(card))}, where it begins to melt.`,
    },
  ];
}
