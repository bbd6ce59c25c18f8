import type { Schedule } from '../schedule/schedule';
import type { ChartStages, Span } from './chartStages';
import { type CheckedHold, type HoldToCheck, holdRequirements } from './holdRequirements';
import type { ChartSensor } from './sensorRoles';

/** Solution treatment and ageing as the chart shows them. */
export interface CheckedHolds {
  readonly solution?: CheckedHold;
  readonly ages: readonly CheckedHold[];
}

/** Checks every hold of a schedule by the sensors of the charts that its stage lies on. */
export function checkHolds(
  { solution, ages }: Schedule,
  stages: ChartStages,
  sensorsIn: (stage: Span | undefined) => {
    readonly loads: readonly ChartSensor[];
    readonly air: readonly ChartSensor[];
  },
  thicknessMm: number | undefined,
): CheckedHolds {
  const check = (hold: HoldToCheck): CheckedHold => {
    const { loads, air } = sensorsIn(hold.window);
    return holdRequirements(hold, loads, air, thicknessMm);
  };
  const startS = Math.min(...sensorsIn(undefined).loads.map(({ history }) => history.timeS[0]!));
  return {
    ...(solution
      ? {
          solution: check({
            stage: 'solution',
            name: 'Solution',
            hold: solution,
            window: stages.solution,
            neighbours: { fallsIn: false, risesOut: false },
            heatingFromS: startS,
          }),
        }
      : {}),
    ages: ages.map((hold, k) =>
      check({
        stage: 'age',
        name: ages.length > 1 ? `Ageing, step ${k + 1}` : 'Ageing',
        hold,
        window: stages.ages[k],
        neighbours: {
          fallsIn: k === 0 ? solution !== undefined : ages[k - 1]!.setC > hold.setC,
          risesOut: (ages[k + 1]?.setC ?? Number.NEGATIVE_INFINITY) > hold.setC,
        },
        heatingFromS: stages.ages[k - 1]?.toS ?? stages.solution?.toS ?? startS,
      }),
    ),
  };
}
