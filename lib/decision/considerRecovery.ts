import { type AlloyCard, findTemper, loadAlloy } from '../alloy';
import { isothermal, type ThermalHistory } from '../history';
import { naturalAgeing, type SofteningTrajectory, softeningModel } from '../kinetics';
import { formatDuration, formatPercent, formatTemp, type Judged, judged, TemperbookError } from '../quantity';
import { DEFAULT_ALLOWANCE, type JudgeOptions } from './judgeOptions';
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

/** What ageing gives back of dissolved metal, as a share of its T6 hardening; from nothing known to all of it. */
const REAGED_SHARE = { nominal: 0.9, low: 0.6, high: 1 };
const THREE_WEEKS_S = 21 * 86_400;
const SOLUTION_TREATMENT_S = 12 * 3600;

/**
 * The ways to go on after welding, for the metal under one probe: accept as it is, accept after three weeks on
 * the shelf, age again, or the full heat treatment. They follow from how the hardening particles ended:
 * dissolved solute comes back by ageing, at room temperature in part and in the furnace almost whole; what
 * coarsened only comes back through solution treatment and quench.
 *
 * Sources: dissolved 6061 weld metal regained 82 to 84 of the 83 HRF of T6 after 170 °C 10 h (ASME J. Manuf.
 * Sci. Eng. 143 (2021) 031003); whole 6061 welds gain only 7 to 14 MPa by ageing, because the over-aged zone
 * decides (F. Armao, common practice). The band of the share is this kit's own.
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
  const { name, entry } = findTemper(card, temper);
  if (!entry.ageing)
    throw new TemperbookError(`${card.designation} has no ageing practice for this temper`, {
      found: name,
      remedy: 'Choose an artificially aged temper, or add the practice to your own card',
    });
  const model = softeningModel(card);
  const welded = model.advance(model.start(temper), history);
  const { tempC, timeS } = entry.ageing;
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
      afterRest(welded, card),
      THREE_WEEKS_S,
      'Dissolved solute hardens at room temperature; coarsened particles do not.',
    ),
    option(
      `Age again, ${formatDuration(timeS.value)} at ${formatTemp(tempC.value)}`,
      afterAgeing(model.advance(welded.state, isothermal(tempC.value, timeS.value)), card),
      timeS.value,
      'Brings back what dissolved. What over-aged stays soft, and all the rest ages on.',
    ),
    option(
      'Full heat treatment: solution, quench, age',
      judged(1, [0.9, 1], '1', ['As the card’s temper; the lower end for a slow or uneven quench.']),
      SOLUTION_TREATMENT_S + timeS.value,
      `Brings back everything where the quench reaches and the filler responds. Distorts the part; stay below ${formatTemp(card.thermal.solidusC.value)}, where it begins to melt.`,
    ),
  ];
}

const last = (values: Float64Array): number => values[values.length - 1]!;

function keptAtEnd(end: SofteningTrajectory): Judged {
  return judged(last(end.yieldKeptFraction), [last(end.yieldKeptLow), last(end.yieldKeptHigh)], '1', [
    'Softening model on the record as read.',
  ]);
}

function afterRest(welded: SofteningTrajectory, card: AlloyCard): Judged {
  const now = keptAtEnd(welded);
  const gain = naturalAgeing(welded.state.dissolved, THREE_WEEKS_S, card);
  const start = welded.state.overageing.startYieldMPa;
  return judged(
    now.nominal + gain.nominal / start,
    [now.low + gain.low / start, now.high + gain.high / start],
    '1',
    [...now.because, ...gain.because],
  );
}

/** kept + X · share · (1 − dissolved strength): only the dissolved part X regains, and not beyond the temper. */
function afterAgeing(aged: SofteningTrajectory, card: AlloyCard): Judged {
  const now = keptAtEnd(aged);
  const { nominal: x, low, high } = aged.state.dissolved;
  const soft = Math.min(1, card.dissolution.floorYieldMPa.value / aged.state.overageing.startYieldMPa);
  return judged(
    now.nominal + x * REAGED_SHARE.nominal * (1 - soft),
    [now.low + low * REAGED_SHARE.low * (1 - soft), now.high + high * REAGED_SHARE.high * (1 - soft)],
    '1',
    [
      `Of what dissolved (${formatPercent(x)} of the hardening) ageing is taken to bring back ${formatPercent(REAGED_SHARE.nominal)} (${formatPercent(REAGED_SHARE.low)} to ${formatPercent(REAGED_SHARE.high)}); the coarsened part ages on.`,
    ],
  );
}
