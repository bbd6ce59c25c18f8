import type { AlloyCard } from '../alloy';
import { peak } from '../exposure';
import type { ThermalHistory } from '../history';
import { BULK_SOAK_LIMIT_C, dissolutionModel, overageingModel, type SofteningTrajectory } from '../kinetics';
import { formatPercent, formatTemp, type Judged, judged } from '../quantity';
import type { ModelLine } from './modelLine';
import { precipitateLines } from './precipitateLines';
import { type AgedStart, precipitateSets } from './precipitateSets';

/** Less dissolved than this does not show in a hardness reading, and the over-ageing curve alone governs. */
const NOTICEABLE_DISSOLVED = 0.02;

interface Banded {
  readonly yieldKeptFraction: Float64Array;
  readonly yieldKeptLow: Float64Array;
  readonly yieldKeptHigh: Float64Array;
}

/** What the models say, and the answers of those that stand on their own and so widen the verdict's band. */
export interface ModelAnswers {
  readonly lines: readonly ModelLine[];
  readonly independent: readonly { readonly model: string; readonly kept: Judged }[];
}

/**
 * What every model says of the record as read. The rule: the curves fitted to measurements govern, the
 * over-ageing curve alone where the metal coarsened as in a soak, together with the dissolution rule where the
 * record was hot enough to dissolve particles. The precipitate model explains; where it is in range and
 * disagrees, the band reaches to its answer. A model that is outside its range is left out and says why.
 */
export function modelLines(
  history: ThermalHistory,
  card: AlloyCard,
  from: AgedStart,
  softening: SofteningTrajectory,
  worse: readonly ThermalHistory[],
): ModelAnswers {
  const precipitate = precipitateLines(precipitateSets(card, from), history, worse);
  return {
    lines: [...curveLines(history, card, from, softening), ...precipitate],
    independent: precipitate.flatMap(({ model, yieldKeptFraction }) =>
      yieldKeptFraction ? [{ model, kept: yieldKeptFraction }] : [],
    ),
  };
}

function curveLines(
  history: ThermalHistory,
  card: AlloyCard,
  from: AgedStart,
  softening: SofteningTrajectory,
): ModelLine[] {
  const dissolved = softening.state.dissolved.nominal;
  const dissolves = dissolved >= NOTICEABLE_DISSOLVED;
  const peakC = peak(history).tempC;
  const curve = overageingModel(card);
  const rule = dissolutionModel(card);
  const lines: ModelLine[] = [
    {
      model: 'over-ageing curve',
      yieldKeptFraction: atEnd(curve.advance(curve.start(from), history)),
      governs: !dissolves,
      reason: dissolves
        ? `Informs only: about ${formatPercent(dissolved)} of the hardening particles dissolved, which it does not know.`
        : 'Governs: the record is too short or too cool to dissolve hardening particles, and the curve is fitted to measured soaks.',
    },
  ];
  if (dissolves)
    lines.push({
      model: 'over-ageing with dissolution',
      yieldKeptFraction: atEnd(softening),
      governs: true,
      reason: `Governs: at ${formatTemp(peakC)} particles dissolve as well as coarsen; what dissolved counts as freshly quenched, the rest as over-aged.`,
    });
  const inRange = peakC > BULK_SOAK_LIMIT_C;
  lines.push({
    model: 'dissolution rule',
    ...(inRange ? { yieldKeptFraction: atEnd(rule.advance(rule.start(from), history)) } : {}),
    governs: false,
    reason: inRange
      ? 'Informs only: alone it knows no over-ageing.'
      : `Left out: the metal stayed at or below ${formatTemp(BULK_SOAK_LIMIT_C)}, where it mostly over-ages; alone it says too little.`,
  });
  return lines;
}

function atEnd({ yieldKeptFraction, yieldKeptLow, yieldKeptHigh }: Banded): Judged {
  const end = yieldKeptFraction.length - 1;
  return judged(yieldKeptFraction[end]!, [yieldKeptLow[end]!, yieldKeptHigh[end]!], '1', [
    'The model’s own band, for the record as read.',
  ]);
}
