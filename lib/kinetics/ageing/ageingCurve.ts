import { type AgeingConstants, type AlloyCard, findTemper } from '../../alloy';
import { checkHistory } from '../../history';
import { formatTemp, kelvinToCelsius, TemperbookError } from '../../quantity';
import { measuredStart } from '../measuredStart';
import { resolveAlloy } from '../resolveAlloy';
import type { AlloyLike, RangeRemark, StartState, TemperModel, TemperTrajectory } from '../temperModel';
import { type AgeingProgress, advanceProgress, NOT_AGED, soakStep } from './ageingProgress';
import { type AgeingShape, ageingShape } from './ageingShape';
import { ageingYieldMPa } from './ageingYield';

/** How far a part has aged from the quenched state. */
export interface AgeingState {
  readonly progress: AgeingProgress;
  /** Yield of the part over that of the curve: 1, or what a measured start says. */
  readonly scale: number;
  /** Yield at the start, MPa. */
  readonly startYieldMPa: number;
}

/** Yield along an ageing treatment; the band is two standard deviations of the measured yields. */
export interface AgeingTrajectory extends TemperTrajectory<AgeingState> {
  readonly yieldLowMPa: Float64Array;
  readonly yieldHighMPa: Float64Array;
  /** Temperature-corrected time P*; the strength peaks at about 0.25 to 0.3. */
  readonly correctedTime: Float64Array;
}

const NAME = 'ageing curve';

/**
 * Quick ageing curves from the quenched state, isothermal or stepped, by the process model of Shercliff and
 * Ashby; formulas at `ageingYieldMPa`, constants with their fit on the alloy card.
 *
 * Good for: how long to age, what a second step adds, where the peak lies and how flat it is, at 150 to 230 °C.
 * Not good for: natural ageing and clusters (it reads low in the first hours below 160 °C), weld cycles, and
 * anything above the metastable solvus, where it would claim no strength at all; use the precipitate model or
 * `softeningModel` there. Its over-aged end is the same evidence as the over-ageing curve's.
 *
 * Source: H.R. Shercliff, M.F. Ashby, Acta Metall. Mater. 38 (1990) 1789-1802, 1803-1812; equations from
 * memory, the published calibrations were not found: fitted by `fitAgeingCurve`.
 * @throws TemperbookError for a bare composition, a card without ageing constants, or a temper whose ageing
 * the card does not know.
 */
export function ageingCurve(alloy: AlloyLike): TemperModel<AgeingState, AgeingTrajectory> {
  const card = resolveAlloy(alloy, NAME);
  const constants = ageingConstants(card);
  const shape = ageingShape(constants);

  return {
    name: NAME,
    start: (from) => startAgeing(card, shape, from),
    advance: (state, history) => {
      checkHistory(history);
      const { timeS, tempC, gapAfter } = history;
      const gaps = new Set(gapAfter);
      const n = timeS.length;
      const columns = {
        yieldMPa: new Float64Array(n),
        yieldKeptFraction: new Float64Array(n),
        yieldLowMPa: new Float64Array(n),
        yieldHighMPa: new Float64Array(n),
        correctedTime: new Float64Array(n),
      };
      let progress = state.progress;
      for (let i = 0; i < n; i++) {
        if (i > 0 && !gaps.has(i - 1))
          progress = advanceProgress(shape, progress, {
            spanS: timeS[i]! - timeS[i - 1]!,
            startC: tempC[i - 1]!,
            endC: tempC[i]!,
          });
        const yieldMPa = state.scale * ageingYieldMPa(shape, progress);
        columns.yieldMPa[i] = yieldMPa;
        columns.yieldKeptFraction[i] = yieldMPa / state.startYieldMPa;
        columns.yieldLowMPa[i] = Math.max(0, yieldMPa - 2 * constants.scatterMPa.value);
        columns.yieldHighMPa[i] = yieldMPa + 2 * constants.scatterMPa.value;
        columns.correctedTime[i] = progress.correctedTime;
      }
      return { state: { ...state, progress }, timeS, ...columns, remarks: ageingRemarks(shape, tempC) };
    },
  };
}

function ageingConstants(card: AlloyCard): AgeingConstants {
  if (card.ageing) return card.ageing;
  throw new TemperbookError(`The card of ${card.designation} has no constants of the ageing curve`, {
    expected: 'an "ageing" section',
    remedy: 'Use the precipitate model, or add the section; the cards in data/alloys show how',
  });
}

function startAgeing(card: AlloyCard, shape: AgeingShape, from: StartState): AgeingState {
  if (typeof from === 'object' && 'solutionTreated' in from)
    return { progress: NOT_AGED, scale: 1, startYieldMPa: ageingYieldMPa(shape, NOT_AGED) };
  const { temper, measuredYieldMPa } = measuredStart(from, card);
  const { name, entry } = findTemper(card, temper);
  if (name.startsWith('T5'))
    throw new TemperbookError(
      `The ${name} of ${card.designation} is not made by ageing solution-treated metal`,
      {
        expected: 'a temper such as T6 or T7',
      },
    );
  if (!entry.ageing)
    throw new TemperbookError(`The card of ${card.designation} does not say how ${name} was aged`, {
      expected: `one of ${Object.keys(card.tempers)
        .filter((known) => card.tempers[known]!.ageing && !known.startsWith('T5'))
        .join(', ')}, or { solutionTreated: true }`,
    });
  const soak = soakStep(entry.ageing.tempC.value, entry.ageing.timeS.value);
  const progress = advanceProgress(shape, NOT_AGED, soak);
  const curveMPa = ageingYieldMPa(shape, progress);
  const startYieldMPa = measuredYieldMPa ?? curveMPa;
  return { progress, scale: startYieldMPa / curveMPa, startYieldMPa };
}

function ageingRemarks({ solvusK }: AgeingShape, tempC: Float64Array): RangeRemark[] {
  let peakC = tempC[0]!;
  for (const t of tempC) if (t > peakC) peakC = t;
  if (peakC <= 250) return [];
  return [
    {
      model: NAME,
      quantity: 'temperature',
      text: `The metal reached ${formatTemp(peakC)}; the curve is made for ageing at 150 to 230 °C and knows no strength above ${formatTemp(kelvinToCelsius(solvusK))}.`,
    },
  ];
}
