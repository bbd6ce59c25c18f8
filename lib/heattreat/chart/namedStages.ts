import type { ChartStages, Span } from './chartStages';
import type { CheckedHolds } from './checkHolds';
import type { CheckedHold } from './holdRequirements';
import type { ChartQuench } from './quench/quenchRequirements';
import type { StageKind } from './requirement';

/** A part of the chart by its name. */
export interface NamedStage extends Span {
  readonly kind: StageKind;
  /** "solution treatment", "quench", "room temperature", "ageing", "ageing, step 2". */
  readonly name: string;
  /** The load sensor that did worst in it. */
  readonly worstSensor?: string;
}

/** The parts of a chart by their names, in order. */
export function namedStages(
  { solution, ages }: ChartStages,
  quench: ChartQuench | undefined,
  held: CheckedHolds,
): NamedStage[] {
  const worst = (hold: CheckedHold | undefined) => {
    const sensor = hold?.requirements.find(({ verdict, sensor: by }) => verdict === 'not met' && by)?.sensor;
    const found = sensor ?? hold?.count?.lastIn;
    return found ? { worstSensor: found } : {};
  };
  const seen = ages.flatMap((window, k) => (window ? [{ window, k }] : []));
  return [
    ...(solution
      ? [
          {
            kind: 'solution' as const,
            name: 'solution treatment',
            fromS: solution.fromS,
            toS: quench ? Math.min(...quench.sensors.map(({ immersed }) => immersed.low)) : solution.toS,
            ...worst(held.solution),
          },
        ]
      : []),
    ...(quench
      ? [
          {
            kind: 'quench' as const,
            name: 'quench',
            fromS: Math.min(...quench.sensors.map(({ immersed }) => immersed.low)),
            toS: quench.immersedS,
            worstSensor: quench.sensors.reduce((a, b) => (b.rateKPerS.low < a.rateKPerS.low ? b : a)).sensor,
          },
        ]
      : []),
    ...(quench && seen[0] && seen[0].window.fromS > quench.immersedS
      ? [
          {
            kind: 'wait' as const,
            name: 'room temperature',
            fromS: quench.immersedS,
            toS: seen[0].window.fromS,
          },
        ]
      : []),
    ...seen.map(({ window, k }) => ({
      kind: 'age' as const,
      name: ages.length > 1 ? `ageing, step ${k + 1}` : 'ageing',
      fromS: window.fromS,
      toS: window.toS,
      ...worst(held.ages[k]),
    })),
  ];
}
