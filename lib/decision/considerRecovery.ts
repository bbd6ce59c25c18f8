import { loadAlloy } from '../alloy';
import { isothermal, type ThermalHistory } from '../history';
import { softeningModel } from '../kinetics';
import { formatDuration, formatTemp, type Judged, judged } from '../quantity';
import { keptAfterReageing, keptAfterRest, keptAtEnd, THREE_WEEKS_S } from './afterWelding';
import { DEFAULT_ALLOWANCE, type JudgeOptions } from './judgeOptions';
import { ageingPractice } from './treatments';
import type { VerdictWord } from './verdict';

/** One way to go on with a part after the heat. */
export interface RecoveryOption {
  readonly name: string;
  readonly yieldKeptFraction: Judged;
  readonly verdict: VerdictWord;
  /** Time it takes in the furnace or on the shelf, s. */
  readonly timeS: number;
  /** What must hold for it, and what it cannot do. */
  readonly remark: string;
}

const SOLUTION_TREATMENT_S = 12 * 3600;

/**
 * The ways to go on after welding, for the metal under one probe: accept as it is, accept after three weeks on
 * the shelf, age again, or the full heat treatment. They follow from how the hardening particles ended:
 * dissolved solute comes back by ageing, at room temperature in part and in the furnace almost whole; what
 * coarsened only comes back through solution treatment and quench.
 * @throws TemperbookError as `judge`, and when the card gives no ageing practice for the temper.
 */
export function considerRecovery(
  history: ThermalHistory,
  {
    alloy,
    temper,
    allowanceFraction = DEFAULT_ALLOWANCE,
  }: Pick<JudgeOptions, 'alloy' | 'temper' | 'allowanceFraction'>,
): RecoveryOption[] {
  const card = loadAlloy(alloy);
  const { tempC, timeS } = ageingPractice(card, temper);
  const model = softeningModel(card);
  const welded = model.advance(model.start(temper), history);
  const needed = 1 - allowanceFraction;
  const option = (label: string, kept: Judged, spentS: number, remark: string): RecoveryOption => ({
    name: label,
    yieldKeptFraction: kept,
    verdict: kept.low >= needed ? 'kept' : kept.high < needed ? 'lost' : 'uncertain',
    timeS: spentS,
    remark,
  });
  return [
    option(
      'Accept as it is',
      keptAtEnd(welded),
      0,
      'Nothing to do; the log’s own doubts are in the verdict, not here.',
    ),
    option(
      'Accept after three weeks',
      keptAfterRest(welded.state, card),
      THREE_WEEKS_S,
      'Dissolved solute hardens at room temperature; coarsened particles do not.',
    ),
    option(
      `Age again, ${formatDuration(timeS)} at ${formatTemp(tempC)}`,
      keptAfterReageing(welded.state, card, isothermal(tempC, timeS)),
      timeS,
      'Brings back what dissolved. What over-aged stays soft, and all the rest ages on.',
    ),
    option(
      'Full heat treatment: solution, quench, age',
      judged(1, [0.9, 1], '1', ['As the card’s temper; the lower end for a slow or uneven quench.']),
      SOLUTION_TREATMENT_S + timeS,
      `Brings back everything where the quench reaches and the filler responds. Distorts the part; stay below ${formatTemp(card.thermal.solidusC.value)}, where it begins to melt.`,
    ),
  ];
}
