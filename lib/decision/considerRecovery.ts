import { type AlloyCard, findTemper, loadAlloy, meltsFromC } from '../alloy';
import { peak } from '../exposure';
import { isothermal, type ThermalHistory } from '../history';
import { quenchFactor, softeningModel } from '../kinetics';
import { formatDuration, formatTemp, type Judged, judged, TemperbookError } from '../quantity';
import {
  ageingPractice,
  DEFAULT_ALLOWANCE,
  type JudgeOptions,
  keptAfterReageing,
  keptAfterRest,
  keptAtEnd,
  measuredYield,
  precipitateLines,
  precipitateSets,
  THREE_WEEKS_S,
} from '../strength';
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

/** What recovery is considered for. */
export interface RecoveryOptions
  extends Pick<
    JudgeOptions,
    'alloy' | 'temper' | 'measuredYieldMPa' | 'measuredHardnessHV' | 'allowanceFraction'
  > {
  /** Cooling of the part in a new quench, logged or assumed; alloys with a C-curve only (`quenchFactor`). */
  readonly quench?: ThermalHistory;
}

const SOLUTION_TREATMENT_S = 12 * 3600;
/** What a slow or uneven quench may cost when nobody has logged it; judgement. */
const UNKNOWN_QUENCH_LOW = 0.9;

/** One cooling curve is that of one place; judgement. */
const OTHER_PLACES_LOW = 0.95;

/** Strength after a new heat treatment, over that of the part before: the card's temper, and what the quench leaves. */
function afterQuench(card: AlloyCard, temper: string, startMPa: number, quench?: ThermalHistory): Judged {
  const typical = findTemper(card, temper).entry.yieldMPa.value / startMPa;
  if (!quench)
    return judged(typical, [UNKNOWN_QUENCH_LOW * typical, typical], '1', [
      'As the card’s temper; the lower end for a slow or uneven quench.',
    ]);
  const { quenchFactor: tau, strengthFraction, remarks } = quenchFactor(quench, card);
  const kept = typical * strengthFraction;
  return judged(kept, [OTHER_PLACES_LOW * kept, kept], '1', [
    `Quench factor ${tau.toFixed(1)} of the cooling given; the lower end for places that cool slower.`,
    ...remarks.map(({ text }) => text),
  ]);
}

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
 * The ways to go on after welding, for the metal under one probe: accept as it is, accept after three weeks on
 * the shelf, age again, or the full heat treatment. They follow from how the hardening particles ended:
 * dissolved solute comes back by ageing, at room temperature in part and in the furnace almost whole; what
 * coarsened only comes back through solution treatment and quench.
 * @throws TemperbookError as `judge`, when the card gives no ageing practice for the temper, for metal that melted,
 * and as `quenchFactor`.
 */
export function considerRecovery(
  history: ThermalHistory,
  { alloy, temper, allowanceFraction = DEFAULT_ALLOWANCE, quench, ...measured }: RecoveryOptions,
): RecoveryOption[] {
  const card = loadAlloy(alloy);
  const measuredYieldMPa = measuredYield(measured, card);
  const { tempC, timeS } = ageingPractice(card, temper);
  const model = softeningModel(card);
  const start = measuredYieldMPa === undefined ? temper : { temper, measuredYieldMPa };
  const welded = model.advance(model.start(start), history);
  const needed = 1 - allowanceFraction;
  checkSolid(card, history);
  const particles = precipitateLines(precipitateSets(card, start), history).flatMap(
    ({ yieldKeptFraction: kept }) => (kept ? [kept.low] : []),
  );
  // What retrogression took may come back in three weeks, but that is not measured either.
  const reachingDown = ({ nominal, low, high, because }: Judged): Judged =>
    judged(nominal, [low, high, ...particles], '1', [
      ...because,
      'The band reaches down to the precipitate model where it is in range.',
    ]);
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
      reachingDown(keptAtEnd(welded)),
      0,
      'Nothing to do; the log’s own doubts are in the verdict, not here.',
    ),
    option(
      'Accept after three weeks',
      reachingDown(keptAfterRest(welded.state, card)),
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
      afterQuench(card, temper, welded.state.overageing.startYieldMPa, quench),
      SOLUTION_TREATMENT_S + timeS,
      `Brings back everything where the quench reaches and the filler responds. Distorts the part; stay below ${formatTemp(meltsFromC(card))}, where it begins to melt.`,
    ),
  ];
}
