import type { AlloyCard } from '../alloy';
import { peak } from '../exposure';
import type { ThermalHistory } from '../history';
import {
  BULK_SOAK_LIMIT_C,
  dissolutionModel,
  overageingModel,
  type SofteningTrajectory,
  type StartState,
} from '../kinetics';
import { formatPercent, formatTemp, type Judged, judged } from '../quantity';
import type { ModelLine } from './verdict';

/** Less dissolved than this does not show in a hardness reading, and the over-ageing curve alone governs. */
const NOTICEABLE_DISSOLVED = 0.02;

interface Banded {
  readonly yieldKeptFraction: Float64Array;
  readonly yieldKeptLow: Float64Array;
  readonly yieldKeptHigh: Float64Array;
}

/**
 * What every model says of the record as read, and which one governs: the over-ageing curve where the metal
 * coarsened as in a soak, the curve with the dissolution rule where the record was hot enough for particles
 * to dissolve. A model that is outside its range is left out and says so.
 */
export function modelLines(
  history: ThermalHistory,
  card: AlloyCard,
  from: StartState,
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
        : 'Governs: the record is a soak, too short or too cool to dissolve hardening particles, and the curve is fitted to measured soaks.',
    },
  ];
  if (dissolves)
    lines.push({
      model: 'over-ageing with dissolution',
      yieldKeptFraction: atEnd(softening),
      governs: true,
      reason: `Governs: at ${formatTemp(peakC)} particles dissolve as well as coarsen; what dissolved counts as freshly quenched, the rest as over-aged.`,
    });
  lines.push(
    peakC > BULK_SOAK_LIMIT_C
      ? {
          model: 'dissolution rule',
          yieldKeptFraction: atEnd(rule.advance(rule.start(from), history)),
          governs: false,
          reason: 'Informs only: it knows no over-ageing.',
        }
      : {
          model: 'dissolution rule',
          governs: false,
          reason: `Left out: the metal stayed at or below ${formatTemp(BULK_SOAK_LIMIT_C)}, where it over-ages and hardly dissolves.`,
        },
  );
  return lines;
}

function atEnd({ yieldKeptFraction, yieldKeptLow, yieldKeptHigh }: Banded): Judged {
  const end = yieldKeptFraction.length - 1;
  return judged(yieldKeptFraction[end]!, [yieldKeptLow[end]!, yieldKeptHigh[end]!], '1', [
    'The model’s own band, for the record as read.',
  ]);
}
